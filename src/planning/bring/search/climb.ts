import { seededRandom } from "../../../maths/random.ts";
import type { Work } from "../../../maths/work.ts";
import { costEach } from "../../request/price.ts";
import { type FirstGuess, firstGuess } from "./first-guess.ts";
import { blankSlopes } from "./marginal-values.ts";
import { outlay, type Trial } from "./score.ts";
import type { Goods } from "./shop.ts";

export type ClimbOptions = {
  readonly seed: number;
  readonly vanLimit: number;
  /** The amount to spend at this extra price of money. */
  readonly budget: (dearer: number) => number;
  readonly from?: ArrayLike<number>;
  readonly steps: number;
};

/** Counts of each kind of goods, not whole yet, and how dear money is there. */
export type Climbed = { readonly at: Float64Array; readonly guess: FirstGuess; readonly dearer: number };

/** Asks that a step lives through, about, and the most days that is. */
const STEP_ASKS = 6000;
const MOST_DAYS = 40;
const LEAST_DAYS = 8;
/** Steps shrink as (1 + step / SETTLE) ** -0.7: long enough to arrive, short enough to settle. */
const SETTLE = 8;
const DEAREST = 80;

/**
 * Stochastic approximation: small batches of scenarios, each kind of goods moved by the slope of the day's
 * profit in it, with strides from the newsvendor's curvature, averaged over the second half (H. Robbins &
 * S. Monro 1951; averaging after B. Polyak & A. Juditsky 1992). Money is made dearer while the stock costs more
 * than there is to spend, and cheaper while it costs less: the multiplier of the budget, found along the way.
 */
export function* climb(trial: Trial, options: ClimbOptions): Work<Climbed> {
  const { goods } = trial.shop;
  const { count } = trial.scenarios;
  const random = seededRandom(options.seed ^ 0x2545f491);
  let dearer = dearEnough(trial, options.budget);
  const guess = firstGuess(trial.shop, trial.wanted(), dearer);
  const at = Float64Array.from(options.from ?? guess.stock);
  const whole = new Int32Array(goods.length);
  const roundedUp = new Uint8Array(goods.length);
  const slopes = blankSlopes(trial.shop);
  const sum = new Float64Array(goods.length);
  const wanted = Math.round(STEP_ASKS / Math.max(1, trial.asks / count));
  const batch = Math.min(Math.max(4, Math.floor(count / 6)), MOST_DAYS, Math.max(LEAST_DAYS, wanted));
  const first = options.from === undefined ? 0.7 : 0.35;
  let summed = 0;
  let dearerSum = 0;
  let order: Int32Array = shuffled(count, random.below);
  let next = 0;
  for (let step = 0; step < options.steps; step++) {
    if (next + batch > count) {
      order = shuffled(count, random.below);
      next = 0;
    }
    const which = order.subarray(next, next + batch);
    next += batch;
    // Rounding up or down by chance makes the slope of whole pieces that of the line between them.
    const turn = random.next();
    for (let index = 0; index < goods.length; index++) {
      const place = at[index] ?? 0;
      const below = Math.floor(place);
      const up = place - below > (turn + index * 0.6180339887498949) % 1 ? 1 : 0;
      roundedUp[index] = up;
      whole[index] = below + up;
    }
    yield* trial.slopes(whole, slopes, which);
    const shrink = first * (1 + step / SETTLE) ** -0.7;
    goods.forEach((one, index) => {
      const slope = roundedUp[index] ? -(slopes.fewer[index] ?? 0) : (slopes.more[index] ?? 0);
      const place = at[index] ?? 0;
      const each = costEach(one, place - one.owned);
      const cost = place < one.owned ? 0 : each - one.worth + dearer * each;
      at[index] = place + shrink * (guess.stride[index] ?? 0) * (slope - cost);
    });
    intoLimits(goods, at, guess, options.vanLimit);
    const budget = options.budget(dearer);
    if (Number.isFinite(budget)) {
      const over = Math.min(1, outlay(goods, at) / Math.max(1, budget) - 1);
      dearer = Math.min(DEAREST, Math.max(0, dearer + shrink * (1 + dearer) * over));
    }
    if (step * 2 < options.steps) continue;
    summed++;
    dearerSum += dearer;
    for (let index = 0; index < goods.length; index++) sum[index] = (sum[index] ?? 0) + (at[index] ?? 0);
  }
  if (summed === 0) return { at, guess, dearer };
  return { at: sum.map((total) => total / summed), guess, dearer: dearerSum / summed };
}

/** The extra price of money at which the first guess can be paid; 0 if it can without. */
function dearEnough(trial: Trial, budget: (dearer: number) => number): number {
  const paid = (dearer: number) =>
    outlay(trial.shop.goods, firstGuess(trial.shop, trial.wanted(), dearer).stock) <= budget(dearer);
  if (paid(0)) return 0;
  let low = 0;
  let high = 0.5;
  while (!paid(high) && high < DEAREST) high *= 2;
  for (let halving = 0; halving < 8; halving++) {
    const middle = (low + high) / 2;
    if (paid(middle)) high = middle;
    else low = middle;
  }
  return Math.min(high, DEAREST);
}

function shuffled(count: number, below: (limit: number) => number): Int32Array {
  const order = Int32Array.from({ length: count }, (_, index) => index);
  for (let at = count - 1; at > 0; at--) {
    const other = below(at + 1);
    const kept = order[at] ?? 0;
    order[at] = order[other] ?? 0;
    order[other] = kept;
  }
  return order;
}

/** Moves the stock to the nearest, by strides, that keeps the minimums, the maximums and the van's limit. */
function intoLimits(goods: readonly Goods[], at: Float64Array, guess: FirstGuess, vanLimit: number): void {
  const placed = (index: number, toll: number): number => {
    const place = (at[index] ?? 0) - toll * (goods[index]?.vanShare ?? 0) * (guess.stride[index] ?? 0);
    return Math.min(guess.highest[index] ?? 0, Math.max(guess.lowest[index] ?? 0, place));
  };
  const load = (toll: number) =>
    goods.reduce((sum, one, index) => sum + one.vanShare * placed(index, toll), 0);
  let toll = 0;
  if (load(0) > vanLimit) {
    let high = 1;
    while (load(high) > vanLimit && high < 1e12) high *= 2;
    let low = 0;
    for (let halving = 0; halving < 40; halving++) {
      const middle = (low + high) / 2;
      if (load(middle) > vanLimit) low = middle;
      else high = middle;
    }
    toll = high;
  }
  for (let index = 0; index < goods.length; index++) at[index] = placed(index, toll);
}
