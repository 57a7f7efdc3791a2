/**
 * What counting teaches, against worked examples. Gamma-Poisson: a university compendium's "The Poisson Gamma
 * conjugacy" (counts 20, 24, 23), with the gamma quantiles of @stdlib. Dirichlet: Gelman et
 * al., Bayesian Data Analysis (727, 583, 137 of 1447); predictive chances of a spreadsheet function's reference
 * page; counts by the formula of the Dirichlet-multinomial. Beta: the negative binomial of @stdlib
 * (Apache-2.0), whose cumulative chance is a beta's (Abramowitz & Stegun 26.5.26).
 */
import gammaQuantileOf from "@stdlib/stats-base-dists-gamma-quantile";
import negativeBinomialCdf from "@stdlib/stats-base-dists-negative-binomial-cdf";
import { describe, expect, it } from "vitest";
import { sharesFrom } from "../../src/lessons/learnt.ts";
import { betaBelow, betaQuantile } from "../../src/maths/beta.ts";
import { dirichletCountsChance, dirichletMean } from "../../src/maths/dirichlet.ts";
import { mean } from "../../src/maths/sample.ts";
import { buyingRate, rateAt } from "../../src/planning/request/buying-rate.ts";

describe("who stop and buy, after counting", () => {
  it("a vague guess and counts of 20, 24, 23 in a thousand each: Gamma(67, 3) of a thousandth", () => {
    const counted = [20, 24, 23].map((orders) => ({ orders, passersBy: 1000 }));
    const rate = buyingRate({ low: 0.0005, likely: 0.02, high: 0.5 }, counted);
    expect(Math.abs(mean(rate) / (67 / 3000) - 1)).toBeLessThan(0.01);
    for (const part of [0.05, 0.5, 0.95])
      expect(Math.abs(rateAt(rate, part) / (gammaQuantileOf(part, 67, 3) / 1000) - 1)).toBeLessThan(0.015);
  });
});

describe("shares", () => {
  it("Bayesian Data Analysis, even prior: 0.502069, 0.402759, 0.095172", () => {
    const asks = [727, 583, 137].map((count, index) => ({ id: String(index), asks: count }));
    const shares = sharesFrom(asks, () => 1);
    [0.502069, 0.402759, 0.095172].forEach((share, index) => {
      expect(shares[index]?.share).toBeCloseTo(share, 6);
    });
  });
  it("the next ask: weights (12, 2, 1) and (0.6, 0.9, 1.2, 0.8)", () => {
    const means = (weights: readonly number[]) =>
      dirichletMean(weights).map((mean) => Number(mean.toFixed(6)));
    expect(means([12, 2, 1])).toEqual([0.8, 0.133333, 0.066667]);
    expect(means([0.6, 0.9, 1.2, 0.8])).toEqual([0.171429, 0.257143, 0.342857, 0.228571]);
  });
  it("counts: (2, 1) of weights (12, 3), (3, 2, 1) of weights (12, 2, 1)", () => {
    expect(dirichletCountsChance([2, 1], [12, 3])).toBeCloseTo(0.344118, 6);
    expect(dirichletCountsChance([3, 2, 1], [12, 2, 1])).toBeCloseTo(0.0281734, 7);
  });
  it("ten asks of weights (12, 2, 1): means 8, 1.3333, 0.6667 and variances 2.5, 1.805556, 0.972222", () => {
    const sums = [0, 0, 0];
    const squares = [0, 0, 0];
    for (let one = 0; one <= 10; one++) {
      for (let two = 0; one + two <= 10; two++) {
        const counts = [one, two, 10 - one - two];
        const chance = dirichletCountsChance(counts, [12, 2, 1]);
        counts.forEach((count, index) => {
          sums[index] = (sums[index] ?? 0) + chance * count;
          squares[index] = (squares[index] ?? 0) + chance * count ** 2;
        });
      }
    }
    [8, 4 / 3, 2 / 3].forEach((mean, index) => {
      expect(sums[index]).toBeCloseTo(mean, 9);
    });
    [2.5, 1.805556, 0.972222].forEach((variance, index) => {
      expect((squares[index] ?? 0) - (sums[index] ?? 0) ** 2).toBeCloseTo(variance, 6);
    });
  });
});

describe("a beta distribution", () => {
  it("agrees with the library's negative binomial, whole and broken successes alike", () => {
    for (const [failures, successes, chance] of [
      [0, 1, 0.3],
      [4, 2.5, 0.2],
      [30, 21, 0.4],
      [3, 0.5, 0.01],
      [200, 150.5, 0.43],
    ] as const) {
      const area = negativeBinomialCdf(failures, successes, chance);
      expect(betaBelow(chance, successes, failures + 1)).toBeCloseTo(area, 11);
    }
  });
  it("its quantiles are where its area reaches the share; that of Beta(1, 1) is the share itself", () => {
    for (const share of [0.05, 0.5, 0.95]) {
      expect(betaQuantile(share, 1, 1)).toBeCloseTo(share, 12);
      expect(betaBelow(betaQuantile(share, 3.5, 40), 3.5, 40)).toBeCloseTo(share, 10);
    }
  });
});
