import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type LogHistogram,
  mergeInto,
  quantile,
  RELATIVE_ERROR,
  withValue,
} from "../../src/maths/log-histogram.ts";

const of = (values: readonly number[]): LogHistogram =>
  values.reduce((histogram: LogHistogram, value) => withValue(histogram, value), {});
const values = fc.array(fc.double({ min: 1, max: 40_000, noNaN: true }), { minLength: 1, maxLength: 200 });

/** The nearest-rank quantile of the values themselves. */
const exact = (given: readonly number[], share: number): number =>
  [...given].sort((one, other) => one - other)[Math.max(1, Math.ceil(share * given.length)) - 1] ??
  Number.NaN;

describe("a histogram with growing bins", () => {
  it("gives every quantile within its stated error of the exact one", () => {
    fc.assert(
      fc.property(values, fc.double({ min: 0.01, max: 1, noNaN: true }), (given, share) => {
        const truth = exact(given, share);
        const found = quantile(of(given), share) ?? Number.NaN;
        expect(Math.abs(found / truth - 1)).toBeLessThanOrEqual(RELATIVE_ERROR + 1e-9);
      }),
    );
  });
  it("adds up: merging two is the histogram of both", () => {
    fc.assert(
      fc.property(values, values, (one, other) => {
        const sum = { ...of(one) };
        mergeInto(sum, of(other));
        expect(sum).toEqual(of([...one, ...other]));
      }),
    );
  });
  it("forgets a value that is taken out again", () => {
    fc.assert(
      fc.property(values, fc.double({ min: 1, max: 40_000, noNaN: true }), (given, extra) => {
        expect(withValue(withValue(of(given), extra), extra, -1)).toEqual(of(given));
      }),
    );
  });
  it("knows no quantile of nothing", () => {
    expect(quantile({}, 0.5)).toBeNull();
  });
});
