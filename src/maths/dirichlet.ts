/** The Dirichlet distribution: shares that add up to 1. */

import { drawGamma, logGamma } from "./gamma.ts";
import type { Random } from "./random.ts";

/**
 * One set of shares from a Dirichlet distribution: gamma values of each weight, divided by their sum.
 * A weight of 0 stays at a share of 0.
 */
export function drawDirichlet(random: Random, weights: readonly number[]): number[] {
  const drawn = weights.map((weight) => (weight > 0 ? drawGamma(random, weight, 1) : 0));
  const sum = drawn.reduce((total, value) => total + value, 0);
  return sum > 0 ? drawn.map((value) => value / sum) : dirichletMean(weights);
}

/** The expected shares; also the chances of the next ask. */
export function dirichletMean(weights: readonly number[]): number[] {
  const sum = weights.reduce((total, value) => total + value, 0);
  return weights.map((weight) => weight / sum);
}

/** The posterior weights after counting (Dirichlet prior, multinomial counts). */
export function afterCountingShares(weights: readonly number[], counts: readonly number[]): number[] {
  return weights.map((weight, index) => weight + (counts[index] ?? 0));
}

/**
 * The weights of the next fair's shares, after the counts of earlier fairs. A fair's shares stray from the usual ones as
 * those of `worth` asks stray by chance. So a fair of n asks says as much of the usual shares as 1 / (1 / n + 1 / worth)
 * asks would (the variances of chance and of fairs add up), and the weights add up to `worth` however much was counted,
 * because the next fair strays again. The guess of the usual shares is worth `worth` asks too.
 */
export function sharesOfNextFair(
  guess: readonly number[],
  worth: number,
  fairs: readonly (readonly number[])[],
): number[] {
  const usual = fairs.reduce<readonly number[]>(
    (weights, counts) => {
      const asks = counts.reduce((sum, count) => sum + count, 0);
      const says = asks === 0 ? 0 : 1 / (1 / asks + 1 / worth);
      return afterCountingShares(
        weights,
        counts.map((count) => (says * count) / Math.max(1, asks)),
      );
    },
    guess.map((share) => share * worth),
  );
  return dirichletMean(usual).map((share) => share * worth);
}

/** The probability of exactly these counts if the shares are Dirichlet with these weights. */
export function dirichletCountsChance(counts: readonly number[], weights: readonly number[]): number {
  const total = counts.reduce((sum, count) => sum + count, 0);
  const weight = weights.reduce((sum, value) => sum + value, 0);
  let log = logGamma(total + 1) + logGamma(weight) - logGamma(total + weight);
  counts.forEach((count, index) => {
    const own = weights[index] ?? 0;
    if (own > 0) log += logGamma(count + own) - logGamma(own) - logGamma(count + 1);
  });
  return Math.exp(log);
}
