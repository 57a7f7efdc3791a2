import { seededRandom } from "../../../maths/random.ts";
import type { Work } from "../../../maths/work.ts";
import { type FirstGuess, firstGuess } from "./first-guess.ts";
import { type Found, putRight } from "./local-search.ts";
import { blankSlopes } from "./marginal-values.ts";
import { nearest, stepDown, stepUp } from "./pieces.ts";
import { type Trial, vanLoad } from "./score.ts";
import type { Goods } from "./shop.ts";

export type SearchOptions = {
  readonly seed: number;
  readonly vanLimit: number;
  /** Every piece is taken to cost this much more of its cost: what a tight budget comes to. */
  readonly dearer: number;
  /** Asks to live through, about: half climbing, half putting right piece by piece. */
  readonly effort: number;
  readonly from?: ArrayLike<number>;
};

const BATCH = 40;
/** Steps shrink as (1 + step / SETTLE) ** -0.7: long enough to arrive, short enough to settle. */
const SETTLE = 8;

/**
 * The stock that earns most over the trial's scenarios, in whole pieces and packs, within minimums,
 * maximums and the van. Stochastic approximation: small batches of scenarios, each kind of goods moved by
 * the slope of the day's profit in it, with strides from the newsvendor's curvature, averaged over the
 * second half (H. Robbins & S. Monro 1951; averaging after B. Polyak & A. Juditsky 1992). Then piece by
 * piece on all scenarios, keeping only what earns more.
 */
export function* search(trial: Trial, options: SearchOptions): Work<Found> {
  const { scenarios, shop } = trial;
  const asks = Math.max(1, scenarios.starts[scenarios.count] ?? 1);
  const guess = firstGuess(shop, scenarios, options.dearer, trial.wanted());
  if (options.from !== undefined) guess.stock.set(Array.from(options.from));
  yield asks;
  const passes = Math.min(30, Math.max(1, options.effort / 2 / asks));
  const rough = yield* climb(trial, guess, options, passes);
  const whole = wholePieces(shop.goods, rough, guess, options.vanLimit);
  return yield* putRight(trial, whole, guess, {
    vanLimit: options.vanLimit,
    outlayLimit: Number.POSITIVE_INFINITY,
    dearer: options.dearer,
    prices: [options.dearer],
    passes: Math.max(3, Math.floor(options.effort / 2 / asks)),
  });
}

function* climb(trial: Trial, guess: FirstGuess, options: SearchOptions, passes: number): Work<Float64Array> {
  const { goods } = trial.shop;
  const { count, starts } = trial.scenarios;
  const random = seededRandom(options.seed ^ 0x2545f491);
  const at = Float64Array.from(guess.stock);
  const whole = new Int32Array(goods.length);
  const roundedUp = new Uint8Array(goods.length);
  const slopes = blankSlopes(trial.shop);
  const sum = new Float64Array(goods.length);
  const batch = Math.min(BATCH, Math.max(4, Math.floor(count / 6)));
  const steps = Math.max(12, Math.round((passes * count) / batch));
  const first = options.from === undefined ? 0.7 : 0.35;
  let summed = 0;
  let order: Int32Array = shuffled(count, random.below);
  let next = 0;
  for (let step = 0; step < steps; step++) {
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
    trial.slopes(whole, slopes, which);
    const shrink = first * (1 + step / SETTLE) ** -0.7;
    goods.forEach((one, index) => {
      const slope = roundedUp[index] ? -(slopes.fewer[index] ?? 0) : (slopes.more[index] ?? 0);
      const cost = (at[index] ?? 0) < one.owned ? 0 : one.cost - one.worth + options.dearer * one.cost;
      at[index] = (at[index] ?? 0) + shrink * (guess.stride[index] ?? 0) * (slope - cost);
    });
    intoLimits(goods, at, guess, options.vanLimit);
    if (step * 2 >= steps) {
      summed++;
      for (let index = 0; index < goods.length; index++) sum[index] = (sum[index] ?? 0) + (at[index] ?? 0);
    }
    if (step % 8 === 7) yield (8 * batch * (starts[count] ?? 0)) / count;
  }
  return sum.map((total) => total / Math.max(1, summed));
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

/** The nearest counts that can be bought: owned pieces, and whole packs beyond them. */
function wholePieces(
  goods: readonly Goods[],
  rough: Float64Array,
  guess: FirstGuess,
  vanLimit: number,
): Int32Array {
  const whole = new Int32Array(goods.length);
  goods.forEach((one, index) => {
    let pieces = nearest(one, rough[index] ?? 0);
    while (pieces < (guess.lowest[index] ?? 0)) pieces = stepUp(one, pieces);
    while (pieces > one.maximum && pieces > 0) pieces = stepDown(one, pieces);
    whole[index] = pieces;
  });
  while (vanLoad(goods, whole) > vanLimit + 1e-9) {
    // Leave out where rounding added most.
    let worst = -1;
    let surplus = Number.NEGATIVE_INFINITY;
    goods.forEach((one, index) => {
      const fewer = stepDown(one, whole[index] ?? 0);
      const over = (whole[index] ?? 0) - (rough[index] ?? 0);
      if (
        one.vanShare === 0 ||
        fewer < (guess.lowest[index] ?? 0) ||
        fewer === whole[index] ||
        over <= surplus
      )
        return;
      worst = index;
      surplus = over;
    });
    const one = goods[worst];
    if (one === undefined) break;
    whole[worst] = stepDown(one, whole[worst] ?? 0);
  }
  return whole;
}
