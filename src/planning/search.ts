import { seededRandom } from "../maths/random.ts";
import { type FirstGuess, firstGuess } from "./first-guess.ts";
import { outlay, stake, type Trial, vanLoad } from "./score.ts";
import type { Goods } from "./shop.ts";
import type { Slopes } from "./worth-of-one.ts";

/** Work that can be watched and stopped: each step tells how many asks it lived through. */
export type Work<Result> = Generator<number, Result, void>;

export type SearchOptions = {
  readonly seed: number;
  readonly vanLimit: number;
  /** Every piece is taken to cost this much more of its cost: what a tight budget comes to. */
  readonly dearer: number;
  /** Asks to live through, about: half climbing, half putting right piece by piece. */
  readonly effort: number;
  readonly from?: ArrayLike<number>;
};

export type Found = {
  readonly stock: Int32Array;
  /** Mean profit before fixed costs. */
  readonly profit: number;
  readonly slopes: Slopes;
};

const BATCH = 40;
/** Steps shrink as (1 + step / SETTLE) ** -0.7: long enough to arrive, short enough to settle. */
const SETTLE = 8;
/** How much of the local bend of the profit lasts over a whole pack. */
const BEND = 0.35;

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
  const guess = firstGuess(shop, scenarios, options.dearer);
  if (options.from !== undefined) guess.stock.set(Array.from(options.from));
  yield asks;
  const passes = Math.min(30, Math.max(1, options.effort / 2 / asks));
  const rough = yield* climb(trial, guess, options, passes);
  const whole = wholePieces(shop.goods, rough, guess, options.vanLimit);
  return yield* putRight(trial, whole, guess, options, Math.max(3, Math.floor(options.effort / 2 / asks)));
}

function* climb(trial: Trial, guess: FirstGuess, options: SearchOptions, passes: number): Work<Float64Array> {
  const { goods } = trial.shop;
  const { count, starts } = trial.scenarios;
  const random = seededRandom(options.seed ^ 0x2545f491);
  const at = Float64Array.from(guess.stock);
  const whole = new Int32Array(goods.length);
  const roundedUp = new Uint8Array(goods.length);
  const slopes: Slopes = { more: new Float64Array(goods.length), fewer: new Float64Array(goods.length) };
  const sum = new Float64Array(goods.length);
  const batch = Math.min(BATCH, count);
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

function nearest(one: Goods, rough: number): number {
  if (rough <= one.owned) return Math.round(rough);
  return one.owned + Math.round((rough - one.owned) / one.pack) * one.pack;
}

function stepUp(one: Goods, pieces: number): number {
  return pieces < one.owned ? pieces + 1 : pieces + one.pack;
}

function stepDown(one: Goods, pieces: number): number {
  return pieces <= one.owned ? Math.max(0, pieces - 1) : pieces - one.pack;
}

type Move = { readonly index: number; readonly to: number; readonly gain: number };

/** Piece by piece: takes the moves that promise most, all at once, and fewer of them when that earned less. */
function* putRight(
  trial: Trial,
  start: Int32Array,
  guess: FirstGuess,
  options: SearchOptions,
  passes: number,
): Work<Found> {
  const { goods } = trial.shop;
  const asks = trial.scenarios.starts[trial.scenarios.count] ?? 0;
  const blankSlopes = (): Slopes => ({
    more: new Float64Array(goods.length),
    fewer: new Float64Array(goods.length),
  });
  const net = (stock: Int32Array) => stake(goods, stock) + options.dearer * outlay(goods, stock);
  let best = { stock: start, slopes: blankSlopes(), worth: 0 };
  best.worth = trial.slopes(best.stock, best.slopes) - net(best.stock);
  yield asks;
  let width = 24;
  const failed = new Set<string>();
  for (let pass = 0; pass < passes; pass++) {
    const moves = promising(goods, best, guess, options).filter(
      ({ index, to }) => !failed.has(keyOf(best.stock, index, to)),
    );
    const taken = takeMoves(goods, best.stock, moves, width, options.vanLimit);
    if (taken.length === 0) break;
    const stock = Int32Array.from(best.stock);
    for (const { index, to } of taken) stock[index] = to;
    const slopes = blankSlopes();
    const worth = trial.slopes(stock, slopes) - net(stock);
    yield asks;
    if (worth > best.worth + 1e-9) {
      best = { stock, slopes, worth };
      width = Math.ceil(width * 1.5);
    } else if (taken.length === 1) {
      for (const { index, to } of taken) failed.add(keyOf(best.stock, index, to));
    } else {
      width = Math.max(1, Math.floor(taken.length / 3));
    }
  }
  return {
    stock: best.stock,
    slopes: best.slopes,
    profit: best.worth + options.dearer * outlay(goods, best.stock),
  };
}

/** A step of one kind of goods, from where to where. */
function keyOf(stock: Int32Array, index: number, to: number): string {
  return `${index}: ${stock[index]} > ${to}`;
}

/**
 * The moves that should earn something. The slopes are those of a single piece; over a pack they bend as
 * from the piece before to the piece after, but less and less.
 */
function promising(
  goods: readonly Goods[],
  best: { readonly stock: Int32Array; readonly slopes: Slopes },
  guess: FirstGuess,
  options: SearchOptions,
): Move[] {
  const moves: Move[] = [];
  goods.forEach((one, index) => {
    const pieces = best.stock[index] ?? 0;
    const more = best.slopes.more[index] ?? 0;
    const fewer = best.slopes.fewer[index] ?? 0;
    const bend = BEND * Math.max(0, -fewer - more);
    const over = (count: number, slope: number) => count * slope - (bend * count * (count - 1)) / 2;
    const bought = (count: number) =>
      Math.max(0, count - one.owned) * (one.cost - one.worth + options.dearer * one.cost);
    const up = stepUp(one, pieces);
    const upGain = over(up - pieces, more) - bought(up) + bought(pieces);
    if (up <= one.maximum && upGain > 0) moves.push({ index, to: up, gain: upGain });
    const down = stepDown(one, pieces);
    const downGain = over(pieces - down, fewer) + bought(pieces) - bought(down);
    if (down >= (guess.lowest[index] ?? 0) && down < pieces && downGain > 0)
      moves.push({ index, to: down, gain: downGain });
  });
  return moves.sort((a, b) => b.gain - a.gain || a.index - b.index);
}

/** The first `width` moves that the van has room for, those that lighten it first. */
function takeMoves(
  goods: readonly Goods[],
  stock: Int32Array,
  moves: readonly Move[],
  width: number,
  vanLimit: number,
): Move[] {
  const taken = moves.slice(0, width);
  let load = vanLoad(goods, stock);
  const weight = ({ index, to }: Move) => (to - (stock[index] ?? 0)) * (goods[index]?.vanShare ?? 0);
  return [...taken.filter((move) => weight(move) <= 0), ...taken.filter((move) => weight(move) > 0)].filter(
    (move) => {
      if (weight(move) > 0 && load + weight(move) > vanLimit + 1e-9) return false;
      load += weight(move);
      return true;
    },
  );
}
