/**
 * Distributions against published tables and an independent library (@stdlib, Apache-2.0). Gamma-Poisson
 * example: Johnson, Ott & Dogucu, Bayes Rules!, ch. 5. Dirichlet: Gelman et al., Bayesian Data Analysis
 * (727, 583, 137 of 1447). Normal quantiles: any printed table of the standard normal distribution.
 */
import gammaQuantileOf from "@stdlib/stats-base-dists-gamma-quantile";
import negativeBinomialQuantileOf from "@stdlib/stats-base-dists-negative-binomial-quantile";
import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantileOf from "@stdlib/stats-base-dists-normal-quantile";
import poissonQuantileOf from "@stdlib/stats-base-dists-poisson-quantile";
import { describe, expect, it } from "vitest";
import { negativeBinomialChance, negativeBinomialQuantile, poissonQuantile } from "../../src/maths/counts.ts";
import { afterCountingShares, dirichletCountsChance, dirichletMean } from "../../src/maths/dirichlet.ts";
import { gammaBelow, gammaQuantile, logGamma } from "../../src/maths/gamma.ts";
import { normalBelow, normalQuantile } from "../../src/maths/normal.ts";

describe("normal", () => {
  it("quantiles of the printed table", () => {
    const table = [
      [0.75, 0.6744897502],
      [0.8, 0.8416212336],
      [0.9, 1.2815515655],
      [0.95, 1.644853627],
      [0.975, 1.9599639845],
      [0.99, 2.326347874],
      [0.995, 2.5758293035],
      [0.999, 3.0902323062],
    ] as const;
    for (const [share, z] of table) expect(normalQuantile(share)).toBeCloseTo(z, 9);
  });

  it("areas of the four-figure table", () => {
    const table = [
      [1.28, 0.8997],
      [1.645, 0.95],
      [1.96, 0.975],
      [2.33, 0.9901],
    ] as const;
    for (const [z, area] of table) expect(normalBelow(z)).toBeCloseTo(area, 4);
  });

  it("agrees with the library far into both tails", () => {
    for (let z = -7; z <= 7; z += 0.37) {
      const area = normalCdf(z, 0, 1);
      expect(Math.abs(normalBelow(z) / area - 1)).toBeLessThan(1e-11);
    }
    for (const share of [1e-9, 1e-4, 0.01, 0.3, 0.5, 0.77, 0.999, 1 - 1e-9]) {
      expect(normalQuantile(share)).toBeCloseTo(normalQuantileOf(share, 0, 1), 7);
    }
  });
});

describe("gamma and Poisson", () => {
  it("agree with the library", () => {
    for (const shape of [0.4, 1, 3.5, 21, 400]) {
      for (const share of [0.01, 0.25, 0.5, 0.9, 0.99]) {
        expect(Math.abs(gammaQuantile(share, shape, 2) / gammaQuantileOf(share, shape, 2) - 1)).toBeLessThan(
          1e-9,
        );
      }
    }
    for (const mean of [0.2, 4.5, 6, 10, 50, 333]) {
      for (const share of [0.05, 0.5, 0.8, 0.95, 0.999])
        expect(poissonQuantile(share, mean) - poissonQuantileOf(share, mean)).toBe(0);
    }
  });

  it("a Poisson(6) day: 8 is enough on four days of five; Poisson(10): 15 on 95 of 100", () => {
    expect(poissonQuantile(0.8, 6)).toBe(8);
    expect(poissonQuantile(0.95, 10)).toBe(15);
  });

  it("the logarithm of 9! and of the square root of pi", () => {
    expect(logGamma(10)).toBeCloseTo(Math.log(362_880), 11);
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 12);
    expect(gammaBelow(1, 2)).toBeCloseTo(1 - Math.exp(-2), 13);
  });
});

describe("gamma-Poisson, Bayes Rules! chapter 5", () => {
  it("the posterior is Gamma(21, 6), 95 % of it between 2.166555 and 5.148063", () => {
    expect(gammaQuantile(0.025, 21, 6)).toBeCloseTo(2.166555, 6);
    expect(gammaQuantile(0.975, 21, 6)).toBeCloseTo(5.148063, 6);
    expect(gammaQuantile(0.95, 21, 6)).toBeCloseTo(4.84367, 5);
  });

  it("the next count is negative binomial: chances and quantiles", () => {
    const chance = (count: number) => negativeBinomialChance(count, 21, 6 / 7);
    expect(chance(0)).toBeCloseTo(0.039275, 6);
    expect(chance(3)).toBeCloseTo(0.202788, 6);
    expect(chance(5)).toBeCloseTo(0.124156, 6);
    expect([0.5, 0.9, 0.95, 0.99].map((share) => negativeBinomialQuantile(share, 21, 6 / 7))).toEqual([
      3, 6, 7, 9,
    ]);
  });

  it("a library agrees, also if the successes are not whole", () => {
    expect(negativeBinomialQuantile(0.95, 2.5, 0.2)).toBe(24);
    for (const [successes, chance] of [
      [2.5, 0.2],
      [21, 6 / 7],
      [0.7, 0.05],
      [40, 0.5],
    ] as const) {
      for (const share of [0.05, 0.3, 0.5, 0.9, 0.99]) {
        expect(negativeBinomialQuantile(share, successes, chance)).toBe(
          negativeBinomialQuantileOf(share, successes, chance),
        );
      }
    }
  });
});

describe("Dirichlet", () => {
  it("Bayesian Data Analysis: 727, 583 and 137 of 1447", () => {
    const means = dirichletMean(afterCountingShares([1, 1, 1], [727, 583, 137]));
    expect(means).toEqual([
      expect.closeTo(0.502069, 6),
      expect.closeTo(0.402759, 6),
      expect.closeTo(0.095172, 6),
    ]);
  });

  it("counts under even weights are equally likely: 1/10 for each of the ten ways to split three", () => {
    expect(dirichletCountsChance([1, 2, 0], [1, 1, 1])).toBeCloseTo(0.1, 12);
    expect(dirichletCountsChance([3, 0, 0], [1, 1, 1])).toBeCloseTo(0.1, 12);
  });
});
