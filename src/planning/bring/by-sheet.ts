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
import { shareNumber } from "../request/given.ts";
import type { Prepared, Stock } from "../request/prepared.ts";
import { pricesOf } from "../sheets/search/prices.ts";
import { planSheetsInSteps } from "../sheets/sheets.ts";
import { look, type Tried, type TriedWith } from "./ahead.ts";
import { type Brought, LIGHT_CARE, whatToBring } from "./bring.ts";
import { BEND } from "./search/local-search.ts";
import { outlay } from "./search/score.ts";
import { ON_SITE } from "./search/shop.ts";
import { boughtOf } from "./shopping.ts";

/** Rounds of stock and sheets; two or three usually end at the same counts. */
const ROUNDS = 4;
/** Asks of the days that the rounds are planned on. */
const ROUND_ASKS = 15_000;
/** Steps for the sheets of a round; the last ones get what the request allows. */
const ROUND_STEPS = 200_000;
const ROUGH = { steps: 30, passes: 8, last: 0 } as const;
/** The rest is planned again from the stock of before: no climb, but as many passes as it takes. */
const REST = { steps: 0, passes: 12, last: 0 } as const;
/** Changes of copies that are tried at most. */
const COPY_TRIES = 6;
/** The part of the transfers that stays when the sheets are beyond the budget. */
const SHRINK = 0.93;

type Counts = ReadonlyMap<string, number>;
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
      care: from === undefined ? ROUGH : LIGHT_CARE,
      ...(from === undefined ? {} : { from }),
    });
    from = brought.best.stock;
    const counts = countsOf(prepared, ON_SITE.pressed, brought);
    const printed = yield* sheetsFor({ ...wanted, steps: Math.min(wanted.steps, ROUND_STEPS) }, counts);
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

/** The same way with its transfers bought in sheets: all that the sheets hold is brought, at the price of the sheets. */
export function* boughtBySheet(all: TriedWith, wanted: SheetRequest, tried: Tried): Work<OrFaults<Tried>> {
  const values: Values = (design) => {
    const at = all.prepared.stocks.findIndex(({ id }) => id === design);
    return tried.strategy.pressed ? (tried.brought.best.slopes.more[at] ?? 0) : 0;
  };
  let counts = countsOf(tried.prepared, tried.strategy.pressed, tried.brought);
  let { brought } = tried;
  for (;;) {
    const printed = yield* sheetsFor(wanted, counts, values);
    if (!printed.ok) return printed;
    if (printed.value === null) return ok(tried);
    const own = onSheets(all, tried, brought, wanted, printed.value);
    const now = yield* around(all, own, printed.value);
    const isPaid = paid(now) <= all.prepared.budget + 0.5;
    if (isPaid && !tried.strategy.pressed) return ok(now);
    if (isPaid) return yield* copyByCopy(all, wanted, values, now);
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
const earned = ({ profits }: Tried) => mean(profits);

/** By design: its part of the price of the sheets, in whole minor units that add up to the total. */
function sharesOf(wanted: SheetRequest, plan: SheetPlan): ReadonlyMap<string, number> {
  const rows = plan.transfers.flatMap(({ design, made }) => {
    const art = wanted.designs.find(({ id }) => id === design);
    return art === undefined || made === 0 ? [] : [{ design, area: made * art.width * art.height }];
  });
  const whole = rows.reduce((sum, { area }) => sum + area, 0);
  const shares = new Map<string, number>();
  let area = 0;
  let given = 0;
  for (const row of rows) {
    area += row.area;
    const upTo = Math.round((plan.cost.total * area) / whole);
    shares.set(row.design, upTo - given);
    given = upTo;
  }
  return shares;
}

/** The part of the sheets' price for designs that this plan sells; the sheets may hold others. */
function ownTotal(prepared: Prepared, wanted: SheetRequest, plan: SheetPlan): number {
  const shares = sharesOf(wanted, plan);
  return prepared.stocks.reduce((sum, { id, bySheet }) => sum + (bySheet ? (shares.get(id) ?? 0) : 0), 0);
}

/** The cost of one wanted transfer of each design: spares and empty room are paid by those that are wanted. */
function averageCosts(
  prepared: Prepared,
  wanted: SheetRequest,
  plan: SheetPlan,
  counts: Counts,
): ReadonlyMap<string, number> {
  const areas = new Map(wanted.designs.map(({ id, width, height }) => [id, width * height]));
  let area = 0;
  for (const [id, count] of counts) area += count * (areas.get(id) ?? 0);
  const each = area === 0 ? 0 : ownTotal(prepared, wanted, plan) / area;
  return new Map([...counts.keys()].map((id) => [id, each * (areas.get(id) ?? 0)]));
}

function atCosts(prepared: Prepared, costs: ReadonlyMap<string, number>): Prepared {
  const worth = new Map(
    prepared.request.designs.map(({ id, leftoverWorth }) => [id, shareNumber(leftoverWorth)]),
  );
  const stocks = prepared.stocks.map((stock): Stock => {
    const cost = stock.bySheet ? costs.get(stock.id) : undefined;
    return cost === undefined ? stock : { ...stock, cost, worth: cost * (worth.get(stock.id) ?? 0) };
  });
  return { ...prepared, stocks };
}

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
  const again = yield* whatToBring(prepared, days, {
    manner: one.strategy,
    alone: all.alone,
    held: one.strategy.pressed ? held : new Map(Array.from(stock, (count, at) => [at, count])),
    from: stock,
    care: REST,
  });
  return yield* look({ ...all, prepared, scenarios: days }, { ...one, brought: again }, plan);
}

/** One copy of a layout more or fewer at a time, as long as that earns more on some of the days. */
function* copyByCopy(
  all: TriedWith,
  wanted: SheetRequest,
  values: Values,
  start: Tried,
): Work<OrFaults<Tried>> {
  const days = upToAsks(all.scenarios, ROUND_ASKS);
  if (start.sheets === null) return ok(start);
  let best = yield* around(all, start, start.sheets, days);
  const first = best;
  const failed = new Set<string>();
  for (let tries = 0; tries < COPY_TRIES; tries++) {
    const [move] = copyMoves(wanted, best).filter(({ key }) => !failed.has(key));
    if (move === undefined || best.sheets === null) break;
    failed.add(move.key);
    const fast = { ...wanted, steps: Math.min(wanted.steps, ROUND_STEPS) };
    const printed = yield* sheetsFor(fast, move.counts, values);
    if (!printed.ok) return printed;
    if (printed.value === null) continue;
    const own = onSheets(all, best, best.brought, wanted, printed.value);
    const now = yield* around(all, own, printed.value, days);
    if (paid(now) > all.prepared.budget + 0.5 || earned(now) <= earned(best)) continue;
    best = now;
    failed.clear();
  }
  if (best === first || best.sheets === null) return ok(start);
  const now = yield* around(all, best, best.sheets);
  return ok(earned(now) > earned(start) && paid(now) <= all.prepared.budget + 0.5 ? now : start);
}

type CopyMove = {
  readonly key: string;
  readonly by: 1 | -1;
  readonly counts: Counts;
  readonly designs: readonly string[];
  /** The expected change of the profit, from the worth of each transfer on the sheet and the price of a copy. */
  readonly gain: number;
};

/** One copy more and one fewer of each layout, the most hopeful first. */
function copyMoves(wanted: SheetRequest, { sheets, prepared, brought }: Tried): CopyMove[] {
  const { slopes } = brought.best;
  return (sheets?.layouts ?? [])
    .flatMap(({ layout, sheet, copies, price, pieces }) =>
      ([1, -1] as const).flatMap((by): CopyMove[] => {
        const size = wanted.sheets.find(({ id }) => id === sheet);
        const then = copies + by === 0 ? 0 : size && pricesOf(size).exactly(copies + by)?.price;
        if (then === undefined) return [];
        const counts = new Map((sheets?.transfers ?? []).map(({ design, made }) => [design, made]));
        let gain = price - then;
        prepared.stocks.forEach(({ id, bySheet }, at) => {
          const each = pieces.filter(({ design }) => design === id).length;
          if (!bySheet || each === 0) return;
          const [more, fewer] = [slopes.more[at] ?? 0, slopes.fewer[at] ?? 0];
          const bend = BEND * Math.max(0, -fewer - more);
          gain += each * (by > 0 ? more : fewer) - (bend * each * (each - 1)) / 2;
          counts.set(id, Math.max(0, (counts.get(id) ?? 0) + by * each));
        });
        const designs = [...new Set(pieces.map(({ design }) => design))];
        return [{ key: `${layout} ${by}`, by, counts, designs, gain }];
      }),
    )
    .sort((a, b) => b.gain - a.gain);
}

/** By design: the change of the expected profit from one sheet more and one fewer of those that carry it. */
export function sheetChanges(tried: Tried): Map<string, { oneMore: number; oneFewer: number }> {
  const wanted = tried.prepared.request.parts?.sheets;
  if (wanted === undefined || tried.sheets === null) return new Map();
  const moves = copyMoves(wanted, tried);
  const ids = tried.prepared.stocks.flatMap(({ id, bySheet }) => (bySheet ? [id] : []));
  const best = (id: string, by: number) =>
    moves.find((move) => move.by === by && move.designs.includes(id))?.gain;
  return new Map(
    ids.flatMap((id) => {
      const [more, fewer] = [best(id, 1), best(id, -1)];
      if (more === undefined && fewer === undefined) return [];
      return [[id, { oneMore: Math.round(more ?? 0), oneFewer: Math.min(0, Math.round(fewer ?? 0)) }]];
    }),
  );
}

/** The stock with fewer of everything that takes a printed transfer; never below a minimum. */
function shrunk(prepared: Prepared, brought: Brought): Brought {
  const stock = brought.best.stock.map((count, at) => {
    const one = brought.shop.goods[at];
    const printed = one?.made?.parts.some(({ stock: part }) => part.bySheet) ?? prepared.stocks[at]?.bySheet;
    if (one === undefined || printed !== true) return count;
    const least = one.made === undefined ? (prepared.stocks[at]?.minimum ?? 0) : 0;
    return Math.min(count, Math.max(least, Math.floor(count * SHRINK)));
  });
  return { ...brought, best: { ...brought.best, stock } };
}
