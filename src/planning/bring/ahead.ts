import { mean, sampleQuantiles } from "../../maths/sample.ts";
import type { Work } from "../../maths/work.ts";
import type { PlanManner } from "../../model/planning/plan-answer.ts";
import type { SheetPlan } from "../../model/planning/sheets.ts";
import { aloneProfits } from "../demand/alone-days.ts";
import { type Scenarios, upToAsks } from "../demand/asks.ts";
import type { Alone } from "../demand/stated.ts";
import type { Prepared } from "../request/prepared.ts";
import { costEach } from "../request/price.ts";
import { type Brought, LIGHT_EFFORT, whatToBring } from "./bring.ts";
import { aloneOutlay, fixedCosts, stockCost } from "./costs.ts";
import { type Measured, measure } from "./measure.ts";
import { outlay } from "./search/score.ts";
import type { SearchEffort } from "./search/search.ts";
import { ON_SITE, openShop, readyProducts, type Strategy } from "./search/shop.ts";

export type MannerName = PlanManner["manner"];

/** One way to run the stall, its best stock, and the result. */
export type Tried = {
  readonly manner: MannerName;
  readonly strategy: Strategy;
  /** The request with the costs that this stock is paid at. */
  readonly prepared: Prepared;
  readonly brought: Brought;
  readonly measured: Measured;
  /** Per scenario: profit after every cost. */
  readonly profits: Float64Array;
  /** The sheets that its transfers are bought in; null if they are bought one by one. */
  readonly sheets: SheetPlan | null;
};

/**
 * The same days simulated three ways: everything pressed on site; everything decorated beforehand (one stack for each
 * offer, colour and size, so a navy L with one design cannot become another); and, if presses are a limit, the sure
 * sellers decorated and the rest pressed. Each way has its own best stock.
 */
export function* tryManners(
  prepared: Prepared,
  scenarios: Scenarios,
  alone: readonly Alone[],
): Work<readonly Tried[]> {
  const apart = new Set(alone.map(({ offer }) => offer));
  const decorated = prepared.products.flatMap((product, index) =>
    product.transfer >= 0 && !apart.has(product.offer) ? [index] : [],
  );
  const every = prepared.products.flatMap((product, index) => (apart.has(product.offer) ? [] : [index]));
  const all = { prepared, scenarios, alone };
  const pressed = yield* whatToBring(prepared, scenarios, { manner: ON_SITE, alone });
  const tried = [yield* look(all, { manner: "press-on-site", strategy: ON_SITE, brought: pressed })];
  if (decorated.length === 0) return tried;

  const strategy = { pressed: false, readyMade: every };
  const ready = yield* whatToBring(prepared, scenarios, { manner: strategy, alone, care: AHEAD });
  tried.push(yield* look(all, { manner: "print-ahead", strategy, brought: ready }));
  if (prepared.presses.length === 0) return tried;

  const mixed = yield* mixedPlan(prepared, scenarios, alone, decorated, pressed);
  tried.push(yield* look(all, { manner: "mixed", ...mixed }));
  return tried;
}

/** Asks of the days that the parts are compared on. */
const PART_ASKS = 10_000;
/** The search effort for the ways that are tried beside pressing everything on site. */
const CAREFUL: SearchEffort = { steps: 16, passes: 8, last: 0 };
const AHEAD: SearchEffort = { steps: 30, passes: 12, last: 0 };
/** Shares of a sure seller's mean day that a mixed plan may decorate beforehand. */
const PARTS = [0.08, 0.15, 0.25, 0.4, 0.6, 0.85, 1.1];
const MOST_PART = 1.1;

/**
 * The sure sellers decorated beforehand for when the presses fall behind, the rest pressed. Only a simulation shows the
 * worth of a shorter line, so a few parts are tried in full, each with its pressed stock planned again, and the best is
 * planned with care.
 */
function* mixedPlan(
  prepared: Prepared,
  scenarios: Scenarios,
  alone: readonly Alone[],
  decorated: readonly number[],
  pressed: Brought,
): Work<Pick<Tried, "strategy" | "brought">> {
  // Those that are decorated already come first, as in the plan that presses everything on site.
  const already = readyProducts(prepared);
  const counted = surest(scenarios, decorated);
  const sure = [
    ...already.flatMap((product) => counted.find((one) => one.product === product) ?? []),
    ...counted.filter(({ product }) => !already.includes(product)).slice(0, prepared.request.ahead.mostKinds),
  ];
  const manner = { pressed: true, readyMade: sure.map(({ product }) => product) };
  const few = upToAsks(scenarios, PART_ASKS);
  // If the budget cannot pay for every requested garment, the parts are of what it can pay.
  const ready = openShop(prepared, manner).goods.slice(prepared.stocks.length);
  const paid = ready.reduce((sum, { cost }, at) => sum + cost * (sure[at]?.asked ?? 0), 0);
  const within = Math.min(1, (prepared.budget * scenarios.count) / Math.max(1, paid * MOST_PART));
  const partly = function* (
    days: Scenarios,
    part: number,
    from: ArrayLike<number>,
    care: SearchEffort,
  ): Work<Brought> {
    const readyStock = sure.map(({ product, asked }) =>
      Math.max(prepared.products[product]?.ready ?? 0, Math.floor((within * part * asked) / scenarios.count)),
    );
    const start = [...Array.from(from).slice(0, prepared.stocks.length), ...readyStock];
    // What is decorated beforehand need not be brought to be pressed.
    sure.forEach(({ product }, at) => {
      const { sku = -1, transfer = -1 } = prepared.products[product] ?? {};
      const more = (readyStock[at] ?? 0) - (from[prepared.stocks.length + at] ?? 0);
      for (const one of [sku, transfer]) start[one] = Math.max(0, (start[one] ?? 0) - more);
    });
    const held = new Map(readyStock.map((count, at) => [prepared.stocks.length + at, count]));
    return yield* whatToBring(prepared, days, { manner, alone, held, from: start, care });
  };
  let best = yield* partly(few, 0, pressed.best.stock, LIGHT_EFFORT);
  let bestPart = 0;
  for (const part of PARTS) {
    const brought = yield* partly(few, part, best.best.stock, LIGHT_EFFORT);
    const paid = outlay(brought.shop.goods, brought.best.stock) + aloneOutlay(alone, brought.aloneQuantities);
    const improves = part === PARTS[0] || brought.best.profit > best.best.profit;
    // Decorated garments that the budget cannot pay are no plan, even with nothing beside them.
    if (!improves || paid > prepared.budget + 0.5) break;
    best = brought;
    bestPart = part;
  }
  return { strategy: manner, brought: yield* partly(scenarios, bestPart, best.best.stock, CAREFUL) };
}

/** The number of asks for each product over all scenarios, highest first. */
function surest(scenarios: Scenarios, among: readonly number[]): { product: number; asked: number }[] {
  const counts = new Map(among.map((product) => [product, 0]));
  for (const product of scenarios.product) {
    const count = counts.get(product);
    if (count !== undefined) counts.set(product, count + 1);
  }
  return [...counts]
    .map(([product, asked]) => ({ product, asked }))
    .sort((a, b) => b.asked - a.asked || a.product - b.product);
}

/** The request and the imagined days on which every way to run the stall is tried. */
export type TriedWith = {
  readonly prepared: Prepared;
  readonly scenarios: Scenarios;
  readonly alone: readonly Alone[];
};

/** Simulates every scenario with this stock, and adds up every cost. */
export function* look(
  { prepared, scenarios, alone }: TriedWith,
  one: Pick<Tried, "manner" | "strategy" | "brought">,
  sheets: SheetPlan | null = null,
): Work<Tried> {
  const { shop, best, aloneQuantities } = one.brought;
  const measured = yield* measure(
    shop,
    scenarios,
    best.stock,
    prepared.hours.map(({ startMinute }) => startMinute),
    prepared.products.length,
  );
  const sunk =
    stockCost(prepared, one.brought) +
    fixedCosts(prepared, one.manner).reduce((sum, row) => sum + row.amount, 0);
  const beside = aloneProfits(prepared, alone, aloneQuantities, scenarios.count);
  const profits = measured.gain.map((gain, scenario) => gain + (beside.profits[scenario] ?? 0) - sunk);
  return { ...one, prepared, measured, profits, sheets };
}

/** The answer's row for one way to run the stall. */
export function mannerRow(alone: readonly Alone[], tried: Tried): PlanManner {
  const { prepared } = tried;
  const { shop, best, aloneQuantities } = tried.brought;
  const { measured, profits } = tried;
  const [p5 = 0, p50 = 0, p95 = 0] = sampleQuantiles(profits, [0.05, 0.5, 0.95]);
  let wastePieces = measured.spoiled;
  let wasteMoney = measured.spoiledCost;
  let pieces = aloneQuantities.reduce((sum, quantity) => sum + quantity, 0);
  shop.goods.forEach((one, index) => {
    const home = measured.left[index] ?? 0;
    // Owned pieces that come home were paid for another day.
    const bought = Math.max(0, (best.stock[index] ?? 0) - one.owned);
    wasteMoney += Math.min(home, bought) * (costEach(one, bought) - one.worth);
    if (one.worth === 0) wastePieces += home;
    if (one.vanShare > 0) pieces += best.stock[index] ?? 0;
  });
  const handOver = tried.manner === "print-ahead" ? prepared.request.ahead.handOverSeconds / 60 : 0;
  return {
    manner: tried.manner,
    profit: Math.round(mean(profits)),
    profitSpread: { p5, p50, p95 },
    oddsOfLoss: mean(profits.map((profit) => (profit < 0 ? 1 : 0))),
    garmentsSold:
      mean(measured.sold) + aloneProfits(prepared, alone, aloneQuantities, profits.length).meanSold,
    outlay: Math.round(outlay(shop.goods, best.stock) + aloneOutlay(alone, aloneQuantities)),
    pieces,
    wastePieces,
    wasteMoney: Math.round(wasteMoney),
    soldOutAsks: measured.soldOutAsks,
    waitAsks: measured.waitAsks,
    waitMinutes: {
      median: Math.max(handOver, measured.waitMedian),
      p90: Math.max(handOver, measured.waitP90),
    },
  };
}
