import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cannotHold } from "../../src/maths/bins/bin-bounds.ts";
import { dive } from "../../src/maths/bins/bin-dives.ts";
import { remaindersForbid } from "../../src/maths/bins/bin-residues.ts";
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

  it("are proven where loads of one stall leave remainders that thirteen circuits cannot share", () => {
    // In 480ths of an ampere; 124,538 of them on circuits of 9,600 would be 12.97 circuits by their sum.
    const counted: readonly (readonly [weight: number, count: number])[] = [
      [7500, 8],
      [6000, 2],
      [5000, 3],
      [4000, 1],
      [2500, 2],
      [2000, 1],
      [1500, 4],
      [1200, 1],
      [1000, 6],
      [800, 2],
      [750, 7],
      [500, 5],
      [300, 6],
      [250, 2],
      [240, 3],
      [200, 4],
      [60, 2],
      [48, 1],
    ];
    const weights = counted.flatMap(([weight, count]) => new Array<number>(count).fill(weight));
    const circuits = (count: number) => new Array<number>(count).fill(9600);
    expect(remaindersForbid(weights, circuits(13))).toBe(true);
    expect(remaindersForbid(weights, circuits(14))).toBe(false);
    expect(fewestBins(weights, circuits(20))).toMatchObject({ used: 14, atLeast: 14 });
  });

  it("found by dives are packings", () => {
    const random = seededRandom(3);
    let found = 0;
    for (let round = 0; round < 60; round++) {
      const weights = Array.from({ length: 30 }, () => 1 + random.below(40)).sort((a, b) => b - a);
      const capacities = new Array<number>(12).fill(60);
      const binOf = dive(weights, capacities);
      if (binOf === null) continue;
      found++;
      const held = capacities.map((_, bin) =>
        weights.reduce((sum, weight, item) => sum + (binOf[item] === bin ? weight : 0), 0),
      );
      expect(Math.max(...held)).toBeLessThanOrEqual(60);
      expect(held.reduce((sum, one) => sum + one, 0)).toBe(weights.reduce((sum, weight) => sum + weight, 0));
    }
    expect(found).toBeGreaterThan(20);
  });

  it("never call a packing impossible by a bound", () => {
    const random = seededRandom(11);
    for (let round = 0; round < 300; round++) {
      // Bins cut into pieces: the pieces go into the bins, so no bound may say otherwise.
      const capacities = Array.from({ length: 1 + random.below(8) }, () => 5 + random.below(60));
      const weights: number[] = [];
      for (const capacity of capacities)
        for (let left = capacity; left > 0; ) {
          const piece = 1 + random.below(left);
          weights.push(piece);
          left -= piece;
        }
      weights.sort((a, b) => b - a);
      expect(cannotHold(weights, capacities, true)).toBe(false);
      if (round % 10 === 0) expect(remaindersForbid(weights, capacities)).toBe(false);
    }
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
