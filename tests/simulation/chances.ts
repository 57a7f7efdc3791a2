/** Draws for simulated days. */
import { standardNormal } from "../../src/maths/normal-draw.ts";
import type { Random } from "../../src/maths/random.ts";

export const exponential = (random: Random, mean: number): number => -mean * Math.log(1 - random.next());

/** A lognormal time by its mean and its coefficient of variation. */
export function lognormal(random: Random, mean: number, variation: number): number {
  const square = Math.log(1 + variation ** 2);
  return mean * Math.exp(Math.sqrt(square) * standardNormal(random) - square / 2);
}

export const between = (random: Random, [low, high]: readonly [number, number]): number =>
  low + (high - low) * random.next();

/** One more than the index drawn by the given shares. */
export function countBy(random: Random, shares: readonly number[]): number {
  let left = random.next();
  for (const [index, share] of shares.entries()) {
    left -= share;
    if (left < 0) return index + 1;
  }
  return shares.length;
}

/** Instants of a Poisson process whose rate changes: drawn at the highest rate, then thinned. */
export function arrivals(
  random: Random,
  from: number,
  until: number,
  highestPerSecond: number,
  shareAt: (at: number) => number,
): readonly number[] {
  const instants: number[] = [];
  for (let at = from; ; ) {
    at += exponential(random, 1000 / highestPerSecond);
    if (at >= until) return instants;
    if (random.chance(shareAt(at))) instants.push(Math.round(at));
  }
}
