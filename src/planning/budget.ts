import { leastOf } from "./prepare-limits.ts";
import { outlay, stake, type Trial, vanLoad } from "./score.ts";
import { type Found, type SearchOptions, search, type Work } from "./search.ts";
import type { Goods } from "./shop.ts";
import type { Slopes } from "./worth-of-one.ts";

/** How much dearer money is made, rung by rung, until the stock can be paid. */
const RUNGS = [0.08, 0.2, 0.4, 0.7, 1.1, 1.7, 2.6, 4, 7, 12, 25, 80];
/** Plans looked at between two rungs. */
const BETWEEN = 40;
/** Of the plans the budget can pay, the dearest few are compared. */
const COMPARED = 6;

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
 * steps. The path does not depend on the budget, only how far down it one has to go: so a larger
 * budget never leads to a worse plan.
 */
export function* afford(trial: Trial, options: BudgetOptions): Work<Afforded> {
  const { goods } = trial.shop;
  let upper: Found = yield* search(trial, { ...options, dearer: 0 });
  if (outlay(goods, upper.stock) <= options.budget(0)) return { ...upper, dearer: 0 };
  for (const dearer of RUNGS) {
    const lower: Found = yield* search(trial, {
      ...options,
      dearer,
      from: upper.stock,
      effort: options.effort / 2,
    });
    if (outlay(goods, lower.stock) <= options.budget(dearer)) {
      return { ...(yield* fillUp(trial, lower.stock, upper.stock, options, options.budget(dearer))), dearer };
    }
    upper = lower;
  }
  const dearer = RUNGS.at(-1) ?? 0;
  const least = Int32Array.from(goods, leastOf);
  return { ...(yield* fillUp(trial, least, upper.stock, options, options.budget(dearer))), dearer };
}

/** The best plan the budget can pay on the way from one that it can to one that it cannot. */
function* fillUp(
  trial: Trial,
  lower: Int32Array,
  upper: Int32Array,
  options: BudgetOptions,
  budget: number,
): Work<Found> {
  const { goods } = trial.shop;
  const path = pathBetween(goods, lower, upper).filter(
    (stock) => vanLoad(goods, stock) <= options.vanLimit + 1e-9,
  );
  const payable = [lower, ...path].filter((stock) => outlay(goods, stock) <= budget);
  let best = lower;
  let most = Number.NEGATIVE_INFINITY;
  for (const stock of payable.slice(-COMPARED)) {
    const profit = trial.gain(stock) - stake(goods, stock);
    yield trial.scenarios.starts[trial.scenarios.count] ?? 0;
    if (profit > most) {
      most = profit;
      best = stock;
    }
  }
  const slopes: Slopes = { more: new Float64Array(goods.length), fewer: new Float64Array(goods.length) };
  const profit = trial.slopes(best, slopes) - stake(goods, best);
  return { stock: best, slopes, profit };
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
