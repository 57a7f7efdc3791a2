import { describe, expect, it } from "vitest";
import { drawPoisson } from "../../src/maths/counts.ts";
import { drawDirichlet } from "../../src/maths/dirichlet.ts";
import { drawGamma } from "../../src/maths/gamma.ts";
import { normalLoss } from "../../src/maths/normal.ts";
import { standardNormal } from "../../src/maths/normal-draw.ts";
import { seededRandom } from "../../src/maths/random.ts";
import { deviation, mean, sampleQuantiles } from "../../src/maths/sample.ts";

const DRAWS = 40_000;

/** Draws, and whether mean and deviation are within four standard errors of what they should be. */
function agrees(draw: () => number, expected: { mean: number; deviation: number }): boolean {
  const values = Array.from({ length: DRAWS }, draw);
  const own = deviation(values);
  const middle = mean(values);
  const fourth = mean(values.map((value) => (value - middle) ** 4));
  const ofMean = expected.deviation / Math.sqrt(DRAWS);
  const ofDeviation = Math.sqrt((fourth - own ** 4) / DRAWS) / (2 * own);
  return (
    Math.abs(middle - expected.mean) < 4 * ofMean && Math.abs(own - expected.deviation) < 4 * ofDeviation
  );
}

describe("draws have the moments of their distribution", () => {
  it("normal", () => {
    const random = seededRandom(1);
    expect(agrees(() => standardNormal(random), { mean: 0, deviation: 1 })).toBe(true);
  });

  it("gamma, shapes below and above one", () => {
    for (const [shape, rate] of [
      [0.3, 2],
      [1, 1],
      [4.5, 0.5],
      [80, 4],
    ] as const) {
      const random = seededRandom(2);
      expect(
        agrees(() => drawGamma(random, shape, rate), {
          mean: shape / rate,
          deviation: Math.sqrt(shape) / rate,
        }),
      ).toBe(true);
    }
  });

  it("Poisson, by products, by halves and far out", () => {
    for (const expected of [0.4, 7, 29, 31, 400, 25_000]) {
      const random = seededRandom(3);
      expect(
        agrees(() => drawPoisson(random, expected), { mean: expected, deviation: Math.sqrt(expected) }),
      ).toBe(true);
    }
  });

  it("Dirichlet shares add up to one and keep a weight of nothing at nothing", () => {
    const random = seededRandom(4);
    const weights = [6, 0, 3, 1];
    const first = () => drawDirichlet(random, weights);
    for (let draw = 0; draw < 100; draw++) {
      const shares = first();
      expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
      expect(shares[1]).toBe(0);
    }
    // Each share is a beta: mean a / A, variance a (A - a) / (A^2 (A + 1)).
    expect(agrees(() => first()[0] ?? 0, { mean: 0.6, deviation: Math.sqrt((6 * 4) / (100 * 11)) })).toBe(
      true,
    );
  });
});

describe("samples", () => {
  it("quantiles interpolate between the nearest values (Hyndman & Fan, definition 7)", () => {
    expect(sampleQuantiles([4, 1, 3, 2], [0, 0.25, 0.5, 1])).toEqual([1, 1.75, 2.5, 4]);
  });

  it("deviation of 2, 4, 4, 4, 5, 5, 7, 9 with n - 1 below", () => {
    expect(deviation([2, 4, 4, 4, 5, 5, 7, 9])).toBeCloseTo(Math.sqrt(32 / 7), 12);
  });
});

describe("normal loss", () => {
  it("is what lies above, integrated", () => {
    for (const z of [-2, -0.5, 0, 0.7, 2.3]) {
      let sum = 0;
      for (let x = z; x < 9; x += 0.001) sum += (x + 0.0005 - z) * Math.exp(-((x + 0.0005) ** 2) / 2) * 0.001;
      expect(normalLoss(z)).toBeCloseTo(sum / Math.sqrt(2 * Math.PI), 6);
    }
  });
});
