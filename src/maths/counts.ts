/** Distributions of counts: Poisson and negative binomial. */

import { logGamma } from "./gamma.ts";
import { standardNormal } from "./normal-draw.ts";
import type { Random } from "./random.ts";

/** The probability of exactly `count` events if `mean` are expected (Poisson). */
export function poissonChance(count: number, mean: number): number {
  if (mean === 0) return count === 0 ? 1 : 0;
  return Math.exp(count * Math.log(mean) - mean - logGamma(count + 1));
}

/**
 * Probability of `count` failures before `successes` successes of chance `chance`; successes need not be
 * whole. This is also the count of a gamma-Poisson: shape = successes, rate = chance / (1 - chance).
 */
export function negativeBinomialChance(count: number, successes: number, chance: number): number {
  if (chance === 1) return count === 0 ? 1 : 0;
  const ways = logGamma(count + successes) - logGamma(count + 1) - logGamma(successes);
  return Math.exp(ways + successes * Math.log(chance) + count * Math.log1p(-chance));
}

/** Smallest count whose cumulative probability reaches the share (0 < share < 1). */
export function poissonQuantile(share: number, mean: number): number {
  return firstReaching(share, (count) => poissonChance(count, mean));
}

/** Smallest count whose cumulative probability reaches the share (0 < share < 1). */
export function negativeBinomialQuantile(share: number, successes: number, chance: number): number {
  return firstReaching(share, (count) => negativeBinomialChance(count, successes, chance));
}

function firstReaching(share: number, chanceOf: (count: number) => number): number {
  // The slack keeps a share that is itself a cumulative probability from slipping one count up by rounding.
  let left = share - 1e-14;
  for (let count = 0; count < 10_000_000; count++) {
    left -= chanceOf(count);
    if (left <= 0) return count;
  }
  throw new Error("firstReaching: the probabilities never add up to the share");
}

/**
 * One Poisson count. Products of uniforms up to a mean of 30 (D. E. Knuth), above that a sum of halves,
 * since a Poisson count is the sum of two independent ones; beyond 10,000 the rounded normal.
 */
export function drawPoisson(random: Random, mean: number): number {
  if (mean > 10_000) return Math.max(0, Math.round(mean + Math.sqrt(mean) * standardNormal(random)));
  if (mean > 30) return drawPoisson(random, mean / 2) + drawPoisson(random, mean / 2);
  const floor = Math.exp(-mean);
  let count = 0;
  for (let product = 1 - random.next(); product > floor; product *= 1 - random.next()) count++;
  return count;
}
