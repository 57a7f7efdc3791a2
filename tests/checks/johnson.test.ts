/**
 * The bounded Johnson quantile-parameterised distribution against the worked example in the manual of the R package
 * `rjqpd` (B. Ingram; after Hadlock and Bickel 2017), and against the normal distribution of @stdlib.
 */
import normalBelowOf from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantileOf from "@stdlib/stats-base-dists-normal-quantile";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { drawScenarios } from "../../src/planning/demand/demand.ts";
import { rateAt } from "../../src/planning/request/buying-rate.ts";
import { johnsonShare } from "../../src/planning/request/johnson.ts";
import { inventedFair } from "../planning/invented.ts";
import { preparedFrom } from "../planning/planned.ts";

const atShare = (of: (z: number) => number, share: number) => of(normalQuantileOf(share, 0, 1));

describe("a share by three of its quantiles", () => {
  it("0.32, 0.40 and 0.60 as 10, 50 and 90 % points: the moments of the worked example", () => {
    const of = johnsonShare({ low: 0.32, middle: 0.4, high: 0.6 }, 0.1);
    const values = Array.from({ length: 100_000 }, (_, at) => atShare(of, (at + 0.5) / 100_000));
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const moment = (power: number) =>
      values.reduce((sum, value) => sum + (value - mean) ** power, 0) / values.length;
    // The example's 0.4350185, 0.1266754, 1.69221 and 6.464129, to the digits that its integration has.
    expect(mean).toBeCloseTo(0.43502, 4);
    expect(Math.sqrt(moment(2))).toBeCloseTo(0.12668, 3);
    expect(Math.abs(moment(3) / moment(2) ** 1.5 - 1.69221)).toBeLessThan(0.01);
    expect(Math.abs(moment(4) / moment(2) ** 2 - 6.464129)).toBeLessThan(0.01);
  });

  it("evenly spread on the scale of normal quantiles it is a normal distribution's share", () => {
    const [low, middle, high] = [-2.2, -1.8, -1.4].map((z) => normalBelowOf(z, 0, 1)) as [
      number,
      number,
      number,
    ];
    const of = johnsonShare({ low, middle, high }, 0.05);
    for (const z of [-3, -1, 0, 0.5, 2])
      expect(of(z)).toBeCloseTo(normalBelowOf(-1.8 + (0.4 * z) / normalQuantileOf(0.95, 0, 1), 0, 1), 12);
  });

  it("has exactly the three points, and rises between them", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -3.5, max: 0, noNaN: true }),
        fc.double({ min: 0.05, max: 1.5, noNaN: true }),
        fc.double({ min: 0.26, max: 3.9, noNaN: true }),
        (at, below, times) => {
          const given = [at - below, at, at + below * times].map((z) => normalBelowOf(z, 0, 1));
          const [low = 0, middle = 0, high = 0] = given;
          const of = johnsonShare({ low, middle, high }, 0.05);
          [0.05, 0.5, 0.95].forEach((share, point) => {
            expect(Math.abs(atShare(of, share) / (given[point] ?? 1) - 1)).toBeLessThan(1e-9);
          });
          const row = Array.from({ length: 40 }, (_, step) => of(-4 + step / 5));
          expect([...row].sort((a, b) => a - b)).toEqual(row);
        },
      ),
    );
  });
});

describe("who stop and buy", () => {
  const fair = (low: number, likely: number, high: number) =>
    preparedFrom({
      ...inventedFair({
        seed: 2,
        blanks: 1,
        colours: 1,
        sizes: 2,
        designs: 1,
        passersBy: 4000,
        scenarios: 1000,
      }),
      traffic: { kind: "total", passersBy: { low: 4000, likely: 4000, high: 4000 } },
      buying: { share: { low, likely, high }, bunching: 0 },
    });

  it("low, likely and high are the 5, 50 and 95 % points that they are said to be", () => {
    for (const [low, likely, high] of [
      [0.01, 0.03, 0.09],
      [0.022, 0.036, 0.054],
      [0.04, 0.05, 0.08],
    ] as const) {
      const rate = fair(low, likely, high).buying?.rate;
      if (typeof rate !== "object") throw new Error("the share who buy is uncertain");
      expect(rateAt(rate, 0.05)).toBeCloseTo(low, 5);
      expect(rateAt(rate, 0.5)).toBeCloseTo(likely, 5);
      expect(rateAt(rate, 0.95)).toBeCloseTo(high, 4);
    }
  });

  it("imagined days have them", () => {
    const { orders, count } = drawScenarios(fair(0.01, 0.03, 0.09), 2000, new Set());
    for (const [share, rate] of [
      [0.05, 0.01],
      [0.5, 0.03],
      [0.95, 0.09],
    ] as const) {
      // Orders below the point's own count, which chance within the day spreads by one in six at most.
      const below = orders.filter((many) => many < rate * 4000).length / count;
      expect(Math.abs(below - share)).toBeLessThan(0.03);
    }
  });
});
