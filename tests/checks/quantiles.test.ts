/**
 * Quantiles of waits: the definition is the nearest rank, the smallest value that at least the given share of the
 * values does not exceed (definition 1 of Hyndman and Fan, Sample Quantiles in Statistical Packages, The American
 * Statistician 50, 1996; the inverse of the empirical distribution function).
 */
import { describe, expect, it } from "vitest";
import { type LogHistogram, quantile, RELATIVE_ERROR, withValue } from "../../src/maths/log-histogram.ts";

const histogram = (values: readonly number[]): LogHistogram =>
  values.reduce((sum: LogHistogram, value) => withValue(sum, value), {});

/** The relative error of a histogram's quantile. */
const off = (values: readonly number[], share: number, exact: number): number =>
  Math.abs((quantile(histogram(values), share) ?? Number.NaN) / exact - 1);

describe("a quantile of waits", () => {
  it("is the one of NumPy's inverted_cdf, within the stated error", () => {
    // Computed with NumPy 2.4.6, numpy.quantile(values, share, method="inverted_cdf").
    const shares = [0.05, 0.25, 0.3, 0.4, 0.5, 0.75, 0.9, 1];
    const waits = [61, 74, 80, 95, 119, 140, 152, 168, 171, 200, 260, 305, 420, 505, 733, 1210];
    for (const [values, expected] of [
      [
        [15, 20, 35, 40, 50],
        [15, 20, 20, 20, 35, 40, 50, 50],
      ],
      [
        [3, 6, 7, 8, 8, 10, 13, 15, 16, 20],
        [3, 7, 7, 8, 8, 15, 16, 20],
      ],
      [waits, [61, 95, 119, 152, 168, 305, 733, 1210]],
    ] as const) {
      for (const [index, share] of shares.entries())
        expect(off(values, share, expected[index] ?? Number.NaN)).toBeLessThanOrEqual(RELATIVE_ERROR);
    }
  });

  it("is the one of the same library for samples of many sizes, shares between two ranks and on one", () => {
    // values = [30 + (i * i * 37 + i * 911 + 13) % 7001 for i in range(n)], otherwise as above.
    const shares = [0.1, 0.25, 0.5, 0.75, 0.9, 0.99];
    for (const [count, expected] of [
      [1, [43, 43, 43, 43, 43, 43]],
      [2, [43, 43, 43, 991, 991, 991]],
      [7, [43, 991, 3109, 5523, 6841, 6841]],
      [10, [43, 1232, 2698, 4279, 5523, 6841]],
      [40, [391, 991, 2988, 4279, 5564, 6841]],
      [101, [539, 1546, 3001, 4682, 5852, 6841]],
      [250, [746, 1756, 3454, 5175, 6137, 6870]],
    ] as const) {
      const values = Array.from({ length: count }, (_, i) => 30 + ((i * i * 37 + i * 911 + 13) % 7001));
      for (const [index, share] of shares.entries())
        expect([count, share, off(values, share, expected[index] ?? Number.NaN) <= RELATIVE_ERROR]).toEqual([
          count,
          share,
          true,
        ]);
    }
  });

  it("has an error of 2.5 %: half a bin of 5 %", () => {
    expect(RELATIVE_ERROR).toBeCloseTo(1.05 ** 0.5 - 1, 12);
    expect(RELATIVE_ERROR).toBeLessThan(0.025);
  });
});
