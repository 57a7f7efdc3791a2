import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fewestBins } from "../../src/maths/bins/bins.ts";
import { seededRandom } from "../../src/maths/random.ts";

/** The fewest bins by trying every bin for every weight; null when nothing fits. */
function byBruteForce(weights: readonly number[], capacities: readonly number[]): number | null {
  let best: number | null = null;
  const place = (at: number, held: readonly number[]): void => {
    const weight = weights[at];
    const used = held.filter((sum) => sum >= 0).length;
    if (best !== null && used >= best) return;
    if (weight === undefined) {
      best = used;
      return;
    }
    capacities.forEach((capacity, bin) => {
      const sum = Math.max(0, held[bin] ?? -1) + weight;
      if (sum <= capacity) place(at + 1, held.with(bin, sum));
    });
  };
  place(0, new Array<number>(capacities.length).fill(-1));
  return best;
}

const small = fc.record({
  weights: fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 1, maxLength: 7 }),
  capacities: fc.array(fc.integer({ min: 5, max: 30 }), { minLength: 1, maxLength: 5 }),
});

describe("fewest bins", () => {
  it("agree with brute force, and are a packing", () => {
    fc.assert(
      fc.property(small, ({ weights, capacities }) => {
        const answer = fewestBins(weights, capacities);
        const fewest = byBruteForce(weights, capacities);
        if (answer.type === "impossible") {
          expect(answer.proven).toBe(true);
          expect(fewest).toBeNull();
          return;
        }
        expect(answer.used).toBe(fewest);
        expect(answer.atLeast).toBe(fewest);
        const held = capacities.map(() => 0);
        answer.binOf.forEach((bin, item) => {
          held[bin] = (held[bin] ?? 0) + (weights[item] ?? 0);
        });
        held.forEach((sum, bin) => {
          expect(sum).toBeLessThanOrEqual(capacities[bin] ?? 0);
        });
      }),
      { numRuns: 400 },
    );
  });

  it("find packings that leave nothing over, where filling by size alone fails", () => {
    const random = seededRandom(3);
    const weights: number[] = [];
    for (let bin = 0; bin < 12; bin++) {
      const first = 26 + random.below(12);
      const second = 26 + random.below(12);
      weights.push(first, second, 100 - first - second);
    }
    const answer = fewestBins(weights, new Array<number>(20).fill(100));
    expect(answer).toMatchObject({ type: "packed", used: 12, atLeast: 12 });
  });

  it("say when the budget of steps ran out, and keep a bound that holds", () => {
    const random = seededRandom(7);
    const weights = Array.from({ length: 60 }, () => 5_000_000 + random.below(5_000_000));
    const answer = fewestBins(weights, new Array<number>(60).fill(20_000_000), 1);
    if (answer.type !== "packed") throw new Error("sixty bins hold sixty weights");
    expect(answer.atLeast).toBeLessThan(answer.used);
  });

  it("use nothing for nothing", () => {
    expect(fewestBins([], [3])).toEqual({ type: "packed", binOf: [], used: 0, atLeast: 0 });
  });
});
