import type { Work } from "../../../maths/work.ts";
import { type Scenarios, upToAsks } from "../../demand/asks.ts";
import { climb } from "./climb.ts";
import type { FirstGuess } from "./first-guess.ts";
import { type Found, putRight, withinOutlay } from "./local-search.ts";
import { oneByOne } from "./one-by-one.ts";
import { nearest, stepDown, stepUp } from "./pieces.ts";
import { newTrial, outlay, type Trial, vanLoad } from "./score.ts";
import type { Goods } from "./shop.ts";

/** Limits of a search: steps of the climb, and passes piece by piece over a part of the days and over all. */
export type SearchEffort = { readonly steps: number; readonly passes: number; readonly last: number };

export const FULL_EFFORT: SearchEffort = { steps: 60, passes: 16, last: 4 };

export type SearchOptions = {
  readonly seed: number;
  readonly vanLimit: number;
  /** The budget left for this stock at this extra price of money: other things are bought from it too. */
  readonly budget: (dearer: number) => number;
  /** A stock to start from, if one is known. */
  readonly from?: ArrayLike<number>;
  readonly care: SearchEffort;
};

export type Afforded = Found & {
  /** The extra price of money; 0 if the budget does not bind. */
  readonly dearer: number;
};

/** Piece by piece, the search goes over days of this many asks. */
const PART_ASKS = 40_000;
/** At the end: enough that the stock's own uncertainty is below that of the days. */
const LAST_ASKS = 100_000;
/** A price of money below this counts as 0. */
const NO_PRICE = 0.002;

/**
 * The stock that earns most over the trial's scenarios and can be paid, in whole pieces and packs, within minimums,
 * maximums and the van. A climb finds about how many of each, and how dear the budget makes money; then piece by
 * piece, keeping only what earns more: on a part of the days first, on many of them at the end.
 */
export function* search(trial: Trial, options: SearchOptions): Work<Afforded> {
  const { shop, scenarios } = trial;
  const { goods } = shop;
  const part = upToAsks(scenarios, PART_ASKS);
  const climbed = yield* climb(trial, { ...options, steps: options.care.steps });
  const { guess } = climbed;
  const dearer = climbed.dearer < NO_PRICE ? 0 : climbed.dearer;
  const outlayLimit = options.budget(dearer);
  const rough = trialOn(trial, part);
  let stock: Int32Array = wholePieces(goods, climbed.at, guess, options.vanLimit);
  if (outlay(goods, stock) > outlayLimit) stock = yield* withinOutlay(rough, stock, guess, outlayLimit);
  const right = {
    vanLimit: options.vanLimit,
    outlayLimit,
    prices: dearer > 0 ? [1.3 * dearer, dearer, 0.7 * dearer, 0] : [0],
  };
  let found = yield* putRight(rough, stock, guess, { ...right, passes: options.care.passes });
  if (options.care.last > 0) found = yield* oneByOne(rough, found, guess, right);
  const many = upToAsks(scenarios, LAST_ASKS);
  if (options.care.last === 0 || part.count >= many.count) return { ...found, dearer };
  const passes = options.care.last;
  return { ...(yield* putRight(trialOn(trial, many), found.stock, guess, { ...right, passes })), dearer };
}

const trialOn = (trial: Trial, days: Scenarios): Trial =>
  days === trial.scenarios ? trial : newTrial(trial.shop, days);

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
    // Leave out the piece for which rounding added most.
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
