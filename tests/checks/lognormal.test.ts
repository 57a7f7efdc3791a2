import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import { describe, expect, it } from "vitest";
import { larger, normalShare, remaining, remainingAtRandom, shareWithin } from "../../src/maths/lognormal.ts";

/** Normal values by the reference library @stdlib/stats-base-dists (registry, Apache-2.0). */
describe("the normal share", () => {
  it("agrees with a reference library within the approximation's printed error", () => {
    for (let z = -6; z <= 6; z += 0.05)
      expect(Math.abs(normalShare(z) - normalCdf(z, 0, 1))).toBeLessThan(7.5e-8);
  });
  it("has the table's values at 1.28, 1.645, 1.96 and 2.33 (from memory)", () => {
    for (const [z, share] of [
      [1.28, 0.8997],
      [1.645, 0.95],
      [1.96, 0.975],
      [2.33, 0.9901],
    ] as const)
      expect(normalShare(z)).toBeCloseTo(share, 4);
  });
});

const MOMENTS = { mean: 75, variance: 900 };

/** A fine midpoint sum over the lognormal's quantiles, made with the reference library. */
const values = Array.from({ length: 50_000 }, (_, index) => {
  const square = Math.log(1 + 900 / 75 ** 2);
  const z = normalQuantile((index + 0.5) / 50_000, 0, 1);
  return Math.exp(Math.log(75) - square / 2 + Math.sqrt(square) * z);
});
const mean = (some: readonly number[]): number => some.reduce((sum, value) => sum + value, 0) / some.length;

describe("the lognormal by its moments", () => {
  it("has the shares of the distribution with those moments", () => {
    expect(mean(values)).toBeCloseTo(75, 1);
    for (const time of [30, 60, 75, 114, 200]) {
      const share = values.filter((value) => value <= time).length / values.length;
      expect(shareWithin(MOMENTS, time)).toBeCloseTo(share, 4);
    }
  });
  it.each([10, 50, 75, 120, 200])("has what is left after %i seconds", (elapsed) => {
    const left = values.filter((value) => value > elapsed).map((value) => value - elapsed);
    const found = remaining(MOMENTS, elapsed);
    const middle = mean(left);
    expect(found.mean / middle).toBeCloseTo(1, 2);
    const variance = mean(left.map((value) => (value - middle) ** 2));
    expect(found.variance / variance).toBeCloseTo(1, 1);
  });
  it("has what is left at a random instant: half a fixed time, a whole exponential one", () => {
    expect(remainingAtRandom({ mean: 60, variance: 0 })).toEqual({ mean: 30, variance: 300 });
    const left = remainingAtRandom(MOMENTS);
    expect(left.mean).toBeCloseTo(mean(values.map((value) => value ** 2)) / 150, 1);
    expect(left.variance + left.mean ** 2).toBeCloseTo(mean(values.map((value) => value ** 3)) / 225, -1);
    expect(remainingAtRandom({ mean: 60, variance: 3600 }).mean).toBe(60);
  });
  it("has the larger of two: 1/sqrt(pi) above the mean for two standard normals", () => {
    const { mean: higher, variance } = larger({ mean: 0, variance: 1 }, { mean: 0, variance: 1 });
    expect(higher).toBeCloseTo(1 / Math.sqrt(Math.PI), 7);
    expect(variance).toBeCloseTo(1 - 1 / Math.PI, 7);
  });
});
