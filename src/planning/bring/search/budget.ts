import type { Work } from "../../../maths/work.ts";
import { firstDays } from "../../demand/asks.ts";
import { leastOf } from "../../request/prepare-limits.ts";
import { withKeptBack } from "./kept-back.ts";
import { type Found, putRight } from "./local-search.ts";
import { blankSlopes } from "./marginal-values.ts";
import { newTrial, outlay, stake, type Trial, vanLoad } from "./score.ts";
import { type SearchOptions, search } from "./search.ts";
import type { Goods } from "./shop.ts";

/** How much dearer money is made, rung by rung, until the stock can be paid. */
const RUNGS = [0.08, 0.2, 0.4, 0.7, 1.1, 1.7, 2.6, 4, 7, 12, 25, 80];
/** Every so many plans on a path is one that putting right may start from. */
const MARK = 20;
/** Plans looked at between two rungs. */
const BETWEEN = 40;
/** The way down is found on this many days at most, each lived through about so often; the end of it on all. */
const RUNG_DAYS = 300;
const RUNG_PASSES = 10;
/** How often the last step between two rungs is halved. */
const HALVINGS = 2;

export type BudgetOptions = Omit<SearchOptions, "dearer" | "from"> & {
  /** What the budget leaves for this stock when money is this much dearer: other things are bought from it too. */
  readonly budget: (dearer: number) => number;
  readonly from?: ArrayLike<number>;
};

export type Afforded = Found & {
  /** How much dearer money had to be made; 0 where the budget does not bind. */
  readonly dearer: number;
};

/**
 * The stock that earns most and can be paid. Without a budget in the way, the search's own answer; else a
 * path of plans from there down, found by making money dearer step by step and by filling in between the
 * steps, to the dearest that can be paid; and that put right with what money is left. How the path runs
 * does not depend on the budget, only how far down it one has to go, so that a larger budget leads to a
 * better plan but for what the last step happens to find.
 */
export function* afford(trial: Trial, options: BudgetOptions): Work<Afforded> {
  const { goods } = trial.shop;
  let upper: Found = yield* search(trial, { ...options, dearer: 0 });
  // A second climb that starts from the first and shuffles the days otherwise finds what the first stuck short of.
  const again: Found = yield* search(trial, {
    ...options,
    dearer: 0,
    seed: options.seed + 1,
    from: upper.stock,
    effort: options.effort / 2,
  });
  if (again.profit > upper.profit) upper = again;
  if (outlay(goods, upper.stock) <= options.budget(0)) return { ...upper, dearer: 0 };
  let above = 0;
  const both = newTrial(trial.shop, withKeptBack(trial.scenarios, trial.shop));
  const rough = newTrial(trial.shop, withKeptBack(firstDays(trial.scenarios, RUNG_DAYS), trial.shop));
  const effort = Math.min(options.effort / 2, RUNG_PASSES * (rough.scenarios.starts.at(-1) ?? 0));
  const rung = (dearer: number) => search(rough, { ...options, dearer, from: upper.stock, effort });
  for (const dearer of RUNGS) {
    let lower: Found = yield* rung(dearer);
    if (outlay(goods, lower.stock) > options.budget(dearer)) {
      upper = lower;
      above = dearer;
      continue;
    }
    let below = dearer;
    for (let halving = 0; halving < HALVINGS; halving++) {
      const between = (above + below) / 2;
      const middle: Found = yield* rung(between);
      if (outlay(goods, middle.stock) <= options.budget(between)) {
        lower = middle;
        below = between;
      } else {
        upper = middle;
        above = between;
      }
    }
    const ends = { lower: lower.stock, upper: upper.stock, below, above };
    return { ...(yield* fillUp(trial, both, ends, options, options.budget(below))), dearer: below };
  }
  const below = RUNGS.at(-1) ?? 0;
  const ends = { lower: Int32Array.from(goods, leastOf), upper: upper.stock, below, above };
  return { ...(yield* fillUp(trial, both, ends, options, options.budget(below))), dearer: below };
}

/** A plan the budget can pay and one that it cannot, and how dear money is for each. */
type Ends = {
  readonly lower: Int32Array;
  readonly upper: Int32Array;
  readonly below: number;
  readonly above: number;
};

/** The dearest plan the budget can pay on the way from one that it can to one that it cannot, then put right. */
function* fillUp(trial: Trial, both: Trial, ends: Ends, options: BudgetOptions, budget: number): Work<Found> {
  const { goods } = trial.shop;
  const path = pathBetween(goods, ends.lower, ends.upper).filter(
    (stock) => vanLoad(goods, stock) <= options.vanLimit + 1e-9 && outlay(goods, stock) <= budget,
  );
  const asks = Math.max(1, trial.scenarios.starts[trial.scenarios.count] ?? 1);
  const lowest = Float64Array.from(goods, ({ minimum }) => minimum);
  const right = {
    vanLimit: options.vanLimit,
    outlayLimit: budget,
    dearer: 0,
    prices: [ends.above, (ends.above + ends.below) / 2, ends.below, 0],
    passes: Math.min(40, Math.max(8, Math.floor(options.effort / 4 / asks))),
  };
  let best: Found | null = null;
  for (const start of startsOn([ends.lower, ...path])) {
    const found: Found = yield* putRight(both, start, { lowest }, right);
    if (best === null || found.profit > best.profit) best = found;
  }
  if (best === null) throw new Error("fillUp: there is always the lower plan to start from");
  const slopes = blankSlopes(trial.shop);
  const profit = trial.slopes(best.stock, slopes) - stake(goods, best.stock);
  return { stock: best.stock, slopes, profit };
}

/**
 * Where to put right from: the dearest plan on the path, and two further down at fixed marks, which a
 * slightly smaller budget would start from as well.
 */
function startsOn(path: readonly Int32Array[]): readonly Int32Array[] {
  const last = path.length - 1;
  const mark = Math.floor(last / MARK) * MARK;
  const places = new Set([last, mark, Math.max(0, mark - MARK)]);
  return path.filter((_, at) => places.has(at));
}

/** Plans from the lower to the upper, in even steps, each step taken one kind of goods at a time. */
function pathBetween(goods: readonly Goods[], lower: Int32Array, upper: Int32Array): Int32Array[] {
  const path: Int32Array[] = [];
  let before = lower;
  for (let part = 1; part <= BETWEEN; part++) {
    const goal = goods.map((one, index) => {
      const from = lower[index] ?? 0;
      return onTheWay(one, from, from + ((upper[index] ?? 0) - from) * (part / BETWEEN));
    });
    for (let index = 0; index < goods.length; index++) {
      if (goal[index] === before[index]) continue;
      const stock = Int32Array.from(before);
      stock[index] = goal[index] ?? 0;
      path.push(stock);
      before = stock;
    }
  }
  return path;
}

/** The count nearest to `place` that can be bought. */
function onTheWay(one: Goods, from: number, place: number): number {
  if (place <= one.owned || one.pack === 1) return Math.round(place);
  const base = Math.max(one.owned, 0);
  return Math.max(Math.min(from, base), base + Math.round((place - base) / one.pack) * one.pack);
}
