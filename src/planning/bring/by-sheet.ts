/**
 * Transfers that are bought by the sheet. A sheet holds several designs and its price falls with the copies, so no
 * transfer has a price of its own. Two steps make profit, outlay and sheets agree:
 *
 * 1. Average cost, to a fixed point: stock is planned at a cost for each transfer, sheets for that stock, and the price
 *    of those sheets, shared by printed area, is the cost for the next round. That finds the right scale fast, and
 *    every comparison of the plan (ways, menus, prices) can use it.
 * 2. Marginal cost, sheet by sheet: what is really bought is a copy of a layout. Copies are added and taken away as
 *    long as that earns more, with the blanks planned again around the transfers that the sheets hold.
 *
 * At the end every transfer on the sheets is brought, spares included, and the price of the sheets is shared out in
 * whole minor units: the costs of all transfers are the price of the sheets, to the cent.
 */
import { mean } from "../../maths/sample.ts";
import type { Work } from "../../maths/work.ts";
import type { MendableFault, OrFaults } from "../../model/basics/faults.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { SheetPlan, SheetRequest } from "../../model/planning/sheets.ts";
import { upToAsks } from "../demand/asks.ts";
import type { Prepared } from "../request/prepared.ts";
import { planSheetsInSteps } from "../sheets/sheets.ts";
import { look, type Tried, type TriedWith } from "./ahead.ts";
import { type Brought, LIGHT_EFFORT, whatToBring } from "./bring.ts";
import { outlay } from "./search/score.ts";
import { ON_SITE } from "./search/shop.ts";
import { type Counts, copyMoves } from "./sheet-copies.ts";
import { atCosts, averageCosts, ownTotal, sharesOf } from "./sheet-costs.ts";
import { boughtOf } from "./shopping.ts";

/** Rounds of stock and sheets; two or three usually end at the same counts. */
const ROUNDS = 4;
/** Asks of the days that the rounds are planned on. */
const ROUND_ASKS = 15_000;
/** Steps for the sheets of a round, and at most for those that are bought in the end. */
const ROUND_STEPS = 200_000;
const LAST_STEPS = 4_000_000;
const ROUGH = { steps: 30, passes: 8, last: 0 } as const;
/** Care for the blanks around given transfers: passes from the stock of before, without the search's climb. */
const REST = { steps: 0, passes: 12, last: 0 } as const;
/** Changes of copies that are tried at most. */
const COPY_TRIES = 6;
/** The part of the transfers that stays when the sheets are beyond the budget. */
const SHRINK = 0.93;

type Values = (design: string) => number;

/** The request with the costs of transfers at the fixed point of stock and sheets. */
export function* pricedBySheet(all: TriedWith, wanted: SheetRequest): Work<OrFaults<Prepared>> {
  const days = upToAsks(all.scenarios, ROUND_ASKS);
  let { prepared } = all;
  let from: Int32Array | undefined;
  let best = { prepared, profit: Number.NEGATIVE_INFINITY };
  let before = "";
  for (let round = 0; round < ROUNDS; round++) {
    const brought: Brought = yield* whatToBring(prepared, days, {
      manner: ON_SITE,
      alone: all.alone,
      care: from === undefined ? ROUGH : LIGHT_EFFORT,
      ...(from === undefined ? {} : { from }),
    });
    from = brought.best.stock;
    const counts = countsOf(prepared, ON_SITE.pressed, brought);
    const printed = yield* sheetsFor(within(wanted, ROUND_STEPS), counts);
    if (!printed.ok) return printed;
    if (printed.value === null) break;
    const total = ownTotal(prepared, wanted, printed.value);
    const profit = brought.best.profit + costOfCounts(prepared, counts) - total;
    prepared = atCosts(prepared, averageCosts(prepared, wanted, printed.value, counts));
    if (profit > best.profit) best = { prepared, profit };
    const now = [...counts.values()].join(" ");
    if (now === before) break;
    before = now;
  }
  return ok(best.prepared);
}

const within = (wanted: SheetRequest, steps: number): SheetRequest => ({
  ...wanted,
  steps: Math.min(wanted.steps, steps),
});

/** The worth of one more transfer of each design. */
const valuesOf =
  ({ prepared: { stocks }, strategy, brought }: Tried): Values =>
  (design) => {
    const at = stocks.findIndex(({ id }) => id === design);
    return strategy.pressed ? (brought.best.slopes.more[at] ?? 0) : 0;
  };

/** The same way with its transfers bought in sheets: all that the sheets hold is brought, at the price of the sheets. */
export function* boughtBySheet(all: TriedWith, wanted: SheetRequest, tried: Tried): Work<OrFaults<Tried>> {
  let counts = countsOf(tried.prepared, tried.strategy.pressed, tried.brought);
  let { brought } = tried;
  for (;;) {
    const printed = yield* sheetsFor(within(wanted, ROUND_STEPS), counts, valuesOf(tried));
    if (!printed.ok) return printed;
    if (printed.value === null) return ok(tried);
    const own = onSheets(all, tried, brought, wanted, printed.value);
    const now = yield* around(all, own, printed.value);
    if (isPaid(all, now)) return ok(now);
    // Beyond the budget: fewer of everything that is printed.
    brought = shrunk(all.prepared, brought);
    const fewer = countsOf(all.prepared, tried.strategy.pressed, brought);
    if (sumOf(fewer) >= sumOf(counts)) return ok(now);
    counts = fewer;
  }
}

/** The sheets for these counts; null if no transfer is wanted. */
function* sheetsFor(
  wanted: SheetRequest,
  counts: Counts,
  values: Values = () => 0,
): Work<OrFaults<SheetPlan | null>> {
  const designs = wanted.designs.flatMap((design) => {
    const count = counts.get(design.id) ?? design.count;
    const valueOfOneMore = Math.max(0, Math.round(values(design.id)));
    return count > 0 ? [{ ...design, count, ...(counts.has(design.id) ? { valueOfOneMore } : {}) }] : [];
  });
  if (designs.length === 0) return ok(null);
  const planned = yield* planSheetsInSteps({ ...wanted, designs });
  if (planned.kind === "plan") return ok(planned);
  return refused(
    planned.faults.map(
      ({ pointer, fault, mend }): MendableFault => ({
        pointer: `#/parts/sheets${pointer}`,
        detail: fault,
        mend,
      }),
    ),
  );
}

/** Transfers to buy of every design that is printed on sheets. */
function countsOf(prepared: Prepared, pressed: boolean, brought: Brought): Counts {
  const bought = boughtOf(prepared, pressed, brought);
  return new Map(
    prepared.stocks.flatMap(({ id, bySheet }, at) => (bySheet ? [[id, bought[at] ?? 0] as const] : [])),
  );
}

const sumOf = (counts: Counts) => [...counts.values()].reduce((sum, count) => sum + count, 0);
const costOfCounts = ({ stocks }: Prepared, counts: Counts) =>
  stocks.reduce((sum, { id, cost }) => sum + cost * (counts.get(id) ?? 0), 0);
const paid = ({ brought }: Tried) => outlay(brought.shop.goods, brought.best.stock);
const isPaid = ({ prepared }: TriedWith, tried: Tried) => paid(tried) <= prepared.budget + 0.5;
const earned = ({ profits }: Tried) => mean(profits);

/** This way with every transfer of the sheets in its stock, or spare if nothing is pressed on site. */
function onSheets(
  all: TriedWith,
  tried: Tried,
  brought: Brought,
  wanted: SheetRequest,
  plan: SheetPlan,
): Pick<Tried, "manner" | "strategy" | "prepared" | "brought"> {
  const shares = sharesOf(wanted, plan);
  const made = new Map(plan.transfers.map(({ design, made: count }) => [design, count]));
  const costs = [...made].map(([id, count]) => [id, count > 0 ? (shares.get(id) ?? 0) / count : 0] as const);
  const { pressed } = tried.strategy;
  const priced = atCosts(all.prepared, new Map(costs));
  // Without pressing on site there is no loose stock to hold the spares: the order is one pack.
  const stocks = priced.stocks.map((stock) =>
    stock.bySheet && !pressed ? { ...stock, pack: Math.max(1, made.get(stock.id) ?? 0) } : stock,
  );
  const prepared = { ...priced, stocks };
  const before = boughtOf(all.prepared, pressed, brought);
  const stock = brought.best.stock.map((count, at) => {
    const one = stocks[at];
    if (!pressed || one?.bySheet !== true) return count;
    return Math.max(0, count + (made.get(one.id) ?? 0) - (before[at] ?? 0));
  });
  return {
    manner: tried.manner,
    strategy: tried.strategy,
    prepared,
    brought: { ...brought, best: { ...brought.best, stock } },
  };
}

/** The best of the rest with the transfers of these sheets given, and its result on all days. */
function* around(
  all: TriedWith,
  { prepared, brought, ...one }: Pick<Tried, "manner" | "strategy" | "prepared" | "brought">,
  plan: SheetPlan,
  days = all.scenarios,
): Work<Tried> {
  const { stock } = brought.best;
  const held = new Map<number, number>();
  brought.shop.goods.forEach(({ made }, at) => {
    if (made !== undefined || prepared.stocks[at]?.bySheet === true) held.set(at, stock[at] ?? 0);
  });
  if (!one.strategy.pressed) held.clear();
  const again = yield* whatToBring(prepared, upToAsks(days, ROUND_ASKS), {
    manner: one.strategy,
    alone: all.alone,
    held: one.strategy.pressed ? held : new Map(Array.from(stock, (count, at) => [at, count])),
    from: stock,
    care: REST,
  });
  return yield* look({ ...all, prepared, scenarios: days }, { ...one, brought: again }, plan);
}

/** The way that the plan follows, with the sheets that it buys in the end. */
export function* finishedBySheet(all: TriedWith, wanted: SheetRequest, start: Tried): Work<OrFaults<Tried>> {
  const bought = start.strategy.pressed ? yield* copyByCopy(all, wanted, start) : ok(start);
  if (!bought.ok || bought.value.sheets === null) return bought;
  const best = bought.value;
  const counts = countsOf(best.prepared, best.strategy.pressed, best.brought);
  const printed = yield* sheetsFor(within(wanted, LAST_STEPS), counts, valuesOf(best));
  if (!printed.ok) return printed;
  if (printed.value === null || printed.value.cost.total >= (best.sheets?.cost.total ?? 0)) return bought;
  const now = yield* around(all, onSheets(all, best, best.brought, wanted, printed.value), printed.value);
  return ok(isPaid(all, now) && earned(now) > earned(best) ? now : best);
}

/** One copy of a layout more or fewer at a time, as long as that earns more on some of the days. */
function* copyByCopy(all: TriedWith, wanted: SheetRequest, start: Tried): Work<OrFaults<Tried>> {
  const days = upToAsks(all.scenarios, ROUND_ASKS);
  if (start.sheets === null) return ok(start);
  let best = yield* around(all, start, start.sheets, days);
  const first = best;
  const failed = new Set<string>();
  for (let tries = 0; tries < COPY_TRIES; tries++) {
    const [move] = copyMoves(wanted, best).filter(({ key }) => !failed.has(key));
    if (move === undefined || best.sheets === null) break;
    failed.add(move.key);
    const printed = yield* sheetsFor(within(wanted, ROUND_STEPS), move.counts, valuesOf(start));
    if (!printed.ok) return printed;
    if (printed.value === null) continue;
    const own = onSheets(all, best, best.brought, wanted, printed.value);
    const now = yield* around(all, own, printed.value, days);
    if (!isPaid(all, now) || earned(now) <= earned(best)) continue;
    best = now;
    failed.clear();
  }
  if (best === first || best.sheets === null) return ok(start);
  const now = yield* around(all, best, best.sheets);
  return ok(earned(now) > earned(start) && isPaid(all, now) ? now : start);
}

/** The stock with fewer of everything that takes a printed transfer; never below a minimum. */
function shrunk(prepared: Prepared, brought: Brought): Brought {
  const stock = brought.best.stock.map((count, at) => {
    const one = brought.shop.goods[at];
    const printed = one?.made?.parts.some(({ stock: part }) => part.bySheet) ?? prepared.stocks[at]?.bySheet;
    if (one === undefined || printed !== true) return count;
    const least = one.made === undefined ? (prepared.stocks[at]?.minimum ?? 0) : one.owned;
    return Math.min(count, Math.max(least, Math.floor(count * SHRINK)));
  });
  return { ...brought, best: { ...brought.best, stock } };
}
