import type { Work } from "../../../maths/work.ts";
import { costEach } from "../../request/price.ts";
import type { FirstGuess } from "./first-guess.ts";
import { blankSlopes, type Slopes } from "./marginal-values.ts";
import { nearest, stepDown, stepUp } from "./pieces.ts";
import { outlay, paidFor, stake, type Trial, vanLoad } from "./score.ts";
import type { Goods, Shop } from "./shop.ts";

/** A stock, its profit, and the change from one more or fewer of each kind. */
export type Found = {
  readonly stock: Int32Array;
  /** Mean profit before fixed costs, over the days that the last moves were tried on. */
  readonly profit: number;
  readonly slopes: Slopes;
};

export type RightOptions = {
  readonly vanLimit: number;
  /** Never more to pay than this. */
  readonly outlayLimit: number;
  /**
   * The prices of money tried in turn when looking for moves: at a fixed outlay the right price is unknown, and what is
   * worth more than it makes room for what is worth less.
   */
  readonly prices: readonly number[];
  readonly passes: number;
};

/** The part of the profit's local curvature that lasts over a whole pack. */
export const BEND = 0.35;
const FIRST_WIDTH = 24;
/** The part of a bought kind of goods that is left out at once when money is short. */
const SHED = 0.2;
/** The most that one move covers of the distance to slope 0. */
const FIRST_REACH = 0.5;

/** One kind of goods, or the two that a way needs, some pieces or packs up or down together. */
type Move = { readonly steps: readonly Step[]; readonly gain: number };
type Step = { readonly index: number; readonly to: number };

/** Piece by piece: takes the moves that promise most, all at once, and fewer of them when that earned less. */
export function* putRight(
  trial: Trial,
  start: Int32Array,
  guess: Pick<FirstGuess, "lowest" | "stride">,
  options: RightOptions,
): Work<Found> {
  const { goods } = trial.shop;
  let best = yield* look(trial, start);
  let width = FIRST_WIDTH;
  let reach = FIRST_REACH;
  let idle = 0;
  const failed = new Set<string>();
  for (let pass = 0; pass < options.passes && idle < options.prices.length; pass++) {
    const price = options.prices[pass % options.prices.length] ?? 0;
    const moves = promising(trial.shop, best, guess, price, reach).filter(
      (move) => !failed.has(keyOf(best.stock, move)),
    );
    const taken = takeMoves(goods, best.stock, moves, width, options);
    idle++;
    if (taken.length === 0) continue;
    idle = 0;
    const stock = Int32Array.from(best.stock);
    for (const { steps } of taken) for (const { index, to } of steps) stock[index] = to;
    const now = yield* look(trial, stock);
    if (now.profit > best.profit + 1e-9) {
      best = now;
      width = Math.ceil(width * 1.5);
    } else {
      if (width === 1 || taken.length === 1) for (const move of taken) failed.add(keyOf(best.stock, move));
      else width = Math.max(1, Math.floor(taken.length / 3));
      reach /= 3;
    }
  }
  return best;
}

/** This stock's profit and slopes over all days of the trial. */
export function* look(trial: Trial, stock: Int32Array): Work<Found> {
  const slopes = blankSlopes(trial.shop);
  const gain = yield* trial.slopes(stock, slopes);
  return { stock, slopes, profit: gain - stake(trial.shop.goods, stock) };
}

/** Leaves out what loses least for the money it saves, until no more has to be paid than there is. */
export function* withinOutlay(
  trial: Trial,
  start: Int32Array,
  guess: Pick<FirstGuess, "lowest">,
  outlayLimit: number,
): Work<Int32Array> {
  const { goods } = trial.shop;
  const stock = Int32Array.from(start);
  const slopes = blankSlopes(trial.shop);
  for (let left = true; left && outlay(goods, stock) > outlayLimit; ) {
    yield* trial.slopes(stock, slopes);
    const fewer = goods
      .flatMap((one, index) => {
        const from = stock[index] ?? 0;
        const bought = from - one.owned;
        const lowest = guess.lowest[index] ?? 0;
        const part = nearest(one, from - SHED * bought);
        const to = part < from && part >= lowest ? part : stepDown(one, from);
        if (bought <= 0 || to < lowest) return [];
        return [{ index, to, loses: -(slopes.fewer[index] ?? 0) / one.cost }];
      })
      .sort((a, b) => a.loses - b.loses);
    left = fewer.length > 0;
    // A few at a time, since what the others are worth changes with each.
    for (const { index, to } of fewer.slice(0, Math.max(1, Math.ceil(fewer.length / 4)))) {
      if (outlay(goods, stock) > outlayLimit) stock[index] = to;
    }
  }
  return stock;
}

/** The key of a move: its start and end. */
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
  guess: Pick<FirstGuess, "lowest" | "stride">,
  price: number,
  reach: number,
): Move[] {
  const { goods } = shop;
  const { more, fewer, bothMore, bothFewer } = best.slopes;
  const eachCosts = (one: Goods, pieces: number) => {
    const each = costEach(one, pieces - one.owned);
    return pieces <= one.owned ? 0 : (1 + price) * each - one.worth;
  };
  const now = paidFor(goods, best.stock);
  const changed = Int32Array.from(best.stock);
  /** The change in payment from another count of one kind of goods, at that price of money. */
  const paidMore = (one: Goods, index: number, from: number, to: number): number => {
    if (one.made === undefined) {
      const paid = (pieces: number) => Math.max(0, pieces - one.owned) * eachCosts(one, pieces);
      return paid(to) - paid(from);
    }
    changed[index] = to;
    const then = paidFor(goods, changed);
    changed[index] = from;
    return then.stake - now.stake + price * (then.outlay - now.outlay);
  };
  const gainOf = (index: number, to: number): number => {
    const one = goods[index];
    const from = best.stock[index] ?? 0;
    if (one === undefined || to === from || to > one.maximum || to < (guess.lowest[index] ?? 0))
      return Number.NEGATIVE_INFINITY;
    const bend = BEND * Math.max(0, -(fewer[index] ?? 0) - (more[index] ?? 0));
    const count = Math.abs(to - from);
    const slope = to > from ? (more[index] ?? 0) : (fewer[index] ?? 0);
    return count * slope - (bend * count * (count - 1)) / 2 - paidMore(one, index, from, to);
  };
  /** A piece or pack, or as many as the slope and the newsvendor's curvature make likely. */
  const stepped = (index: number, step: typeof stepUp): Step => {
    const one = goods[index];
    if (one === undefined) return { index, to: -1 };
    const from = best.stock[index] ?? 0;
    const next = step(one, from);
    const slope = step === stepUp ? (more[index] ?? 0) : -(fewer[index] ?? 0);
    const far = reach * (guess.stride[index] ?? 0) * (slope - eachCosts(one, Math.max(from, next)));
    const to = nearest(one, from + far);
    const further =
      step === stepUp ? to > next && to <= one.maximum : to < next && to >= (guess.lowest[index] ?? 0);
    return { index, to: further ? to : next };
  };
  /** The fewest pieces that cost less each than those bought now. */
  const cheaper = (one: Goods, index: number): Step | undefined => {
    const bought = (best.stock[index] ?? 0) - one.owned;
    const step = one.breaks.find(({ from }) => from > bought);
    return step && { index, to: one.owned + Math.ceil(step.from / one.pack) * one.pack };
  };
  const moves: Move[] = [];
  const offer = (steps: readonly Step[], extra: number) => {
    const gain = steps.reduce((sum, { index, to }) => sum + gainOf(index, to), extra);
    if (gain > 0) moves.push({ steps, gain });
  };
  goods.forEach((one, index) => {
    const step = cheaper(one, index);
    if (step !== undefined) offer([step], 0);
  });
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
 * The promising moves to try together: first those that leave something out, then what fits the room that they make in
 * van and outlay. No kind of goods moves twice.
 */
function takeMoves(
  goods: readonly Goods[],
  stock: Int32Array,
  moves: readonly Move[],
  width: number,
  { vanLimit, outlayLimit }: RightOptions,
): Move[] {
  let load = vanLoad(goods, stock);
  const next = Int32Array.from(stock);
  let paid = outlay(goods, next);
  const moved = new Set<number>();
  const isDown = ({ steps }: Move) => steps.some(({ index, to }) => to < (stock[index] ?? 0));
  const fits = ({ steps }: Move): boolean => {
    let weight = 0;
    for (const { index, to } of steps) {
      const one = goods[index];
      if (one === undefined || moved.has(index)) return false;
      weight += (to - (stock[index] ?? 0)) * one.vanShare;
    }
    if (weight > 0 && load + weight > vanLimit + 1e-9) return false;
    for (const { index, to } of steps) next[index] = to;
    const then = outlay(goods, next);
    if (then > paid && then > outlayLimit + 1e-9) {
      for (const { index } of steps) next[index] = stock[index] ?? 0;
      return false;
    }
    load += weight;
    paid = then;
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
