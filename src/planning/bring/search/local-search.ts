import type { Work } from "../../../maths/work.ts";
import type { FirstGuess } from "./first-guess.ts";
import { blankSlopes, type Slopes } from "./marginal-values.ts";
import { stepDown, stepUp } from "./pieces.ts";
import { outlay, stake, type Trial, vanLoad } from "./score.ts";
import type { Goods, Shop } from "./shop.ts";

/** A stock, what it earns, and what one more or fewer of each kind would. */
export type Found = {
  readonly stock: Int32Array;
  /** Mean profit before fixed costs. */
  readonly profit: number;
  readonly slopes: Slopes;
};

export type RightOptions = {
  readonly vanLimit: number;
  /** Never more to pay than this. */
  readonly outlayLimit: number;
  /** What is made as large as possible: the profit, less this part of what has to be paid. */
  readonly dearer: number;
  /**
   * How dear money is taken to be when moves are looked for, one after the other: at a fixed outlay the
   * right price is not known, and whatever is above it makes room for whatever is below.
   */
  readonly prices: readonly number[];
  readonly passes: number;
};

/** How much of the local bend of the profit lasts over a whole pack. */
const BEND = 0.35;
const FIRST_WIDTH = 24;

/** One kind of goods, or the two that a way needs, a piece or pack up or down together. */
type Move = { readonly steps: readonly Step[]; readonly gain: number };
type Step = { readonly index: number; readonly to: number };

/** Piece by piece: takes the moves that promise most, all at once, and fewer of them when that earned less. */
export function* putRight(
  trial: Trial,
  start: Int32Array,
  guess: Pick<FirstGuess, "lowest">,
  options: RightOptions,
): Work<Found> {
  const { goods } = trial.shop;
  const asks = trial.scenarios.starts[trial.scenarios.count] ?? 0;
  const look = (stock: Int32Array) => {
    const slopes = blankSlopes(trial.shop);
    const gain = trial.slopes(stock, slopes);
    return { stock, slopes, worth: gain - stake(goods, stock) - options.dearer * outlay(goods, stock) };
  };
  let best = look(start);
  yield asks;
  let width = FIRST_WIDTH;
  let idle = 0;
  const failed = new Set<string>();
  for (let pass = 0; pass < options.passes && idle < options.prices.length; pass++) {
    const price = options.prices[pass % options.prices.length] ?? options.dearer;
    const moves = promising(trial.shop, best, guess, price).filter(
      (move) => !failed.has(keyOf(best.stock, move)),
    );
    const taken = takeMoves(goods, best.stock, moves, width, options);
    idle++;
    if (taken.length === 0) continue;
    idle = 0;
    const stock = Int32Array.from(best.stock);
    for (const { steps } of taken) for (const { index, to } of steps) stock[index] = to;
    const now = look(stock);
    yield asks;
    if (now.worth > best.worth + 1e-9) {
      best = now;
      width = Math.ceil(width * 1.5);
    } else if (width === 1 || taken.length === 1) {
      for (const move of taken) failed.add(keyOf(best.stock, move));
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

/** A move, from where to where. */
function keyOf(stock: Int32Array, { steps }: Move): string {
  return steps.map(({ index, to }) => `${index}: ${stock[index]} > ${to}`).join(", ");
}

/**
 * The moves that should earn something, most first. The slopes are those of a single piece; over a pack
 * they bend as from the piece before to the piece after, but less and less.
 */
function promising(
  shop: Shop,
  best: { readonly stock: Int32Array; readonly slopes: Slopes },
  guess: Pick<FirstGuess, "lowest">,
  price: number,
): Move[] {
  const { goods } = shop;
  const { more, fewer, bothMore, bothFewer } = best.slopes;
  const gainOf = (index: number, to: number): number => {
    const one = goods[index];
    const from = best.stock[index] ?? 0;
    if (one === undefined || to === from || to > one.maximum || to < (guess.lowest[index] ?? 0))
      return Number.NEGATIVE_INFINITY;
    const bend = BEND * Math.max(0, -(fewer[index] ?? 0) - (more[index] ?? 0));
    const count = Math.abs(to - from);
    const slope = to > from ? (more[index] ?? 0) : (fewer[index] ?? 0);
    const paid = (pieces: number) =>
      Math.max(0, pieces - one.owned) * (one.cost - one.worth + price * one.cost);
    return count * slope - (bend * count * (count - 1)) / 2 - paid(to) + paid(from);
  };
  const stepped = (index: number, step: typeof stepUp): Step => {
    const one = goods[index];
    return { index, to: one === undefined ? -1 : step(one, best.stock[index] ?? 0) };
  };
  const moves: Move[] = [];
  const offer = (steps: readonly Step[], extra: number) => {
    const gain = steps.reduce((sum, { index, to }) => sum + gainOf(index, to), extra);
    if (gain > 0) moves.push({ steps, gain });
  };
  for (const step of [stepUp, stepDown]) {
    goods.forEach((_, index) => {
      offer([stepped(index, step)], 0);
    });
    const both = step === stepUp ? bothMore : bothFewer;
    both.forEach((extra, way) => {
      const [first, second] = [shop.first[way] ?? -1, shop.second[way] ?? -1];
      if (extra > 0 && second >= 0) offer([stepped(first, step), stepped(second, step)], extra);
    });
  }
  return moves.sort((a, b) => b.gain - a.gain);
}

/**
 * Of the promising moves, those to try together: what is left off first, then what that makes room for
 * within van and outlay. No kind of goods moves twice.
 */
function takeMoves(
  goods: readonly Goods[],
  stock: Int32Array,
  moves: readonly Move[],
  width: number,
  { vanLimit, outlayLimit }: RightOptions,
): Move[] {
  let load = vanLoad(goods, stock);
  let paid = outlay(goods, stock);
  const moved = new Set<number>();
  const isDown = ({ steps }: Move) => steps.some(({ index, to }) => to < (stock[index] ?? 0));
  const fits = ({ steps }: Move): boolean => {
    let weight = 0;
    let cost = 0;
    for (const { index, to } of steps) {
      const one = goods[index];
      if (one === undefined || moved.has(index)) return false;
      const from = stock[index] ?? 0;
      weight += (to - from) * one.vanShare;
      cost += (Math.max(0, to - one.owned) - Math.max(0, from - one.owned)) * one.cost;
    }
    if ((weight > 0 && load + weight > vanLimit + 1e-9) || (cost > 0 && paid + cost > outlayLimit + 1e-9))
      return false;
    load += weight;
    paid += cost;
    for (const { index } of steps) moved.add(index);
    return true;
  };
  const take = (from: readonly Move[]) => {
    const taken: Move[] = [];
    for (const move of from) {
      if (taken.length === width) break;
      if (fits(move)) taken.push(move);
    }
    return taken;
  };
  return [...take(moves.filter(isDown)), ...take(moves.filter((move) => !isDown(move)))];
}
