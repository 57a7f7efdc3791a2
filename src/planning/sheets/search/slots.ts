/** Copies of a layout before it is known what lies on it, and how much of several such layouts a plan needs. */
import { areaOn } from "../../packing/single.ts";
import type { DesignSize, GangProblem } from "./problem.ts";

export type Slot = {
  readonly size: DesignSize;
  readonly copies: number;
  /** With the price of an extra layout. */
  readonly cost: number;
};

/** Every order worth placing for less than `limit`: no larger one is cheaper. In rising order of cost. */
export function slotsOf(problem: GangProblem, rest: readonly number[], limit: number): Slot[] {
  const most = Math.max(...rest);
  const slots = problem.sizes.flatMap((size) => {
    const orders = new Map<number, Slot>();
    for (let needed = 1; needed <= most; needed++) {
      const { copies, price } = size.prices.atLeast(needed);
      const cost = price + problem.extraLayoutPrice;
      if (cost >= limit) break;
      orders.set(copies, { size, copies, cost });
    }
    return [...orders.values()];
  });
  return slots.sort((a, b) => a.cost - b.cost);
}

/** The number of each design on one layout alone. */
export function countsFor(rest: readonly number[], copies: number): number[] {
  return rest.map((want) => Math.ceil(want / copies));
}

/** Minimal ways to make `want` of a design on two layouts: the number on each. */
export function* waysToShare(want: number, one: number, other: number): Generator<readonly [number, number]> {
  let before = Number.POSITIVE_INFINITY;
  for (let first = 0; ; first++) {
    const second = Math.max(0, Math.ceil((want - first * one) / other));
    if (second < before) yield [first, second];
    before = second;
    if (second === 0) return;
  }
}

/**
 * The least part of two layouts' area together that the counts take; above 1 they do not go on them. Whole transfers
 * on each are counted, the two layouts' room is pooled.
 */
export function pooledLoad(
  rest: readonly number[],
  one: Slot,
  other: Slot,
  most = Number.POSITIVE_INFINITY,
): number {
  const [firsts, seconds] = [one.size.single.areas, other.size.single.areas];
  const oneShare = one.copies * one.size.sheet.width * one.size.sheet.height;
  const otherShare = other.copies * other.size.sheet.width * other.size.sheet.height;
  const whole = oneShare + otherShare;
  let sum = 0;
  for (let at = 0; at < rest.length && sum <= most * whole; at++) {
    const want = rest[at] ?? 0;
    if (want === 0) continue;
    const [a, b] = [(firsts[at] ?? 0) * oneShare, (seconds[at] ?? 0) * otherShare];
    let least = Number.POSITIVE_INFINITY;
    for (let first = 0; ; first++) {
      const second = Math.max(0, Math.ceil((want - first * one.copies) / other.copies));
      const load = first * a + second * b;
      if (load < least) least = load;
      if (second === 0) break;
    }
    sum += least;
  }
  return sum / whole;
}

/** The part of one sheet's area that these counts take. */
export function loadOn(size: DesignSize, counts: readonly number[]): number {
  return areaOn(size.single.areas, counts);
}
