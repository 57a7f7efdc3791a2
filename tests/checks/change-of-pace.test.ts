/**
 * How soon a change of pace is found, against the average run lengths of the two-sided cumulative sum with allowance 0.5 and
 * threshold 5 in D. C. Montgomery, "Introduction to Statistical Quality Control" (values from memory), and against the
 * Markov chain of D. Brook and D. A. Evans, "An approach to the probability distribution of cusum run length" (Biometrika
 * 1972) for one side.
 */
import { describe, expect, it } from "vitest";
import { normalShare } from "../../src/maths/lognormal.ts";
import { standardNormal } from "../../src/maths/normal-draw.ts";
import { type Random, seededRandom } from "../../src/maths/random.ts";
import { type Drift, drifted, STILL, THRESHOLD } from "../../src/stall/state/pace.ts";

const found = ({ sum }: Drift): boolean => sum > THRESHOLD;

/** Garments until a drift is found, on average over some runs, with its standard error. */
function runLength(random: Random, shift: number, sides: 1 | 2, runs: number) {
  const lengths = Array.from({ length: runs }, () => {
    let [up, down] = [STILL, STILL];
    for (let n = 1; ; n++) {
      const deviations = shift + standardNormal(random);
      up = drifted(up, deviations, 1);
      if (sides === 2) down = drifted(down, -deviations, 1);
      if (found(up) || found(down)) return n;
    }
  });
  const mean = lengths.reduce((sum, length) => sum + length, 0) / runs;
  const square = lengths.reduce((sum, length) => sum + (length - mean) ** 2, 0) / (runs - 1);
  return { mean, error: Math.sqrt(square / runs) };
}

/** The one-sided average run length from zero: states of width w, (I - Q) L = 1, by Gauss-Seidel. */
function byMarkovChain(shift: number, states: number): number {
  const width = (2 * THRESHOLD) / (2 * states - 1);
  const step = (from: number, to: number): number => {
    const upper = normalShare((to - from) * width + width / 2 + 0.5 - shift);
    return to === 0 ? upper : upper - normalShare((to - from) * width - width / 2 + 0.5 - shift);
  };
  const moves = Array.from({ length: states }, (_, from) =>
    Array.from({ length: states }, (_, to) => step(from, to)),
  );
  const lengths = new Array<number>(states).fill(1);
  for (let round = 0, change = 1; change > 1e-9 && round < 100_000; round++) {
    change = 0;
    for (const [from, row] of moves.entries()) {
      const others = row.reduce(
        (sum, share, to) => (to === from ? sum : sum + share * (lengths[to] ?? 0)),
        1,
      );
      const next = others / (1 - (row[from] ?? 0));
      change = Math.max(change, Math.abs(next - (lengths[from] ?? 0)) / next);
      lengths[from] = next;
    }
  }
  return lengths[0] ?? Number.NaN;
}

describe("a change of pace", () => {
  it.each([
    [0, 465, 400],
    [0.5, 38, 1500],
    [1, 10.4, 3000],
    [2, 4.01, 3000],
  ])("of %d deviations is found after about %d garments", (shift, published, runs) => {
    const { mean, error } = runLength(seededRandom(20270612), shift, 2, runs);
    expect(Math.abs(mean - published)).toBeLessThan(3 * error + 0.005 * published);
    expect(error / published).toBeLessThan(0.06);
  });

  it("to one side is found as soon as the Markov chain says", () => {
    const { mean, error } = runLength(seededRandom(7), 1, 1, 3000);
    expect(Math.abs(mean - byMarkovChain(1, 120))).toBeLessThan(3 * error);
  });
});
