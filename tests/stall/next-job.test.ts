import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Candidate, nextJob } from "../../src/stall/line/next-job.ts";
import type { Job } from "../../src/stall/state/shapes/job.ts";
import type { Order } from "../../src/stall/state/shapes/order.ts";

const NOW = 1_000_000_000;
const LIMITS = { lookAhead: 6, overtakenMost: 3 };
const hot = (fahrenheit: number) => ({ fahrenheit, readyAt: NOW });

type Given = {
  readonly fahrenheit: number;
  readonly overtaken?: number;
  readonly dueIn?: number;
  readonly number?: number;
  readonly turn?: number;
};

/** A line of one-garment orders, or of garments that share an order number. */
function lineOf(given: readonly Given[], pressed: readonly number[] = []): Candidate[] {
  const numbers = given.map(({ number }, index) => number ?? 101 + index);
  const orderOf = (number: number): Order => {
    const jobs = given.flatMap(({ turn }, index): Job[] =>
      numbers[index] === number
        ? [{ n: index + 1, line: 0, since: 0, stage: "waiting", turn: turn ?? index + 1, overtaken: 0 }]
        : [],
    );
    const done: Job[] = pressed.includes(number)
      ? [{ n: 99, line: 0, since: 0, stage: "pressed", press: "A" as never, turn: 0 }]
      : [];
    const due = given.find((_, index) => numbers[index] === number)?.dueIn;
    // Only what the choice reads; the rest of an order has no part in it.
    return {
      number,
      jobs: [...jobs, ...done],
      dueBy: due === undefined ? null : NOW + due * 1000,
    } as unknown as Order;
  };
  return given.map(({ fahrenheit, overtaken = 0, turn }, index) => ({
    placed: { turn: turn ?? index + 1, number: numbers[index] ?? 0, n: index + 1, work: "flat/film" },
    order: orderOf(numbers[index] ?? 0),
    fahrenheit,
    overtaken,
    handlingSeconds: 75,
  }));
}

describe("the next job", () => {
  it("is the oldest for a platen that nobody set, or that none nearby suits", () => {
    expect(nextJob(lineOf([{ fahrenheit: 310 }, { fahrenheit: 365 }]), null, LIMITS, NOW)).toBe(0);
    expect(nextJob(lineOf([{ fahrenheit: 310 }, { fahrenheit: 320 }]), hot(365), LIMITS, NOW)).toBe(0);
    expect(nextJob([], hot(365), LIMITS, NOW)).toBeNull();
  });
  it("is one that the platen is hot for, within the look-ahead", () => {
    const line = [{ fahrenheit: 310 }, { fahrenheit: 310 }, { fahrenheit: 365 }];
    expect(nextJob(lineOf(line), hot(365), LIMITS, NOW)).toBe(2);
    expect(nextJob(lineOf(line), hot(365), { ...LIMITS, lookAhead: 1 }, NOW)).toBe(0);
  });
  it("passes nobody over who was passed over often enough, or is pressed again", () => {
    const often = [{ fahrenheit: 310, overtaken: 3 }, { fahrenheit: 365 }];
    expect(nextJob(lineOf(often), hot(365), LIMITS, NOW)).toBe(0);
    const again = [{ fahrenheit: 310, turn: -5 }, { fahrenheit: 365 }];
    expect(nextJob(lineOf(again), hot(365), LIMITS, NOW)).toBe(0);
  });
  it("brings an order that is begun together where those passed over must wait anyway", () => {
    const line = [
      { fahrenheit: 365, number: 101 },
      { fahrenheit: 365, number: 102 },
      { fahrenheit: 365, number: 101 },
    ];
    expect(nextJob(lineOf(line, [102]), hot(365), LIMITS, NOW)).toBe(1);
    // Here order 101 would be ready with its only garment: it keeps its place.
    expect(nextJob(lineOf(line.slice(0, 2), [102]), hot(365), LIMITS, NOW)).toBe(0);
  });

  it("never makes a garment late that would be in time, nor breaks the limits", () => {
    const given = fc.record({
      fahrenheit: fc.constantFrom(310, 365),
      overtaken: fc.integer({ min: 0, max: 3 }),
      dueIn: fc.integer({ min: 0, max: 1800 }),
    });
    fc.assert(
      fc.property(fc.array(given, { minLength: 1, maxLength: 9 }), (line) => {
        const candidates = lineOf(line);
        const index = nextJob(candidates, hot(365), LIMITS, NOW) ?? -1;
        expect(index).toBeLessThanOrEqual(LIMITS.lookAhead);
        const finish = (order: readonly Candidate[]): Map<Candidate, number> => {
          const ends = new Map<Candidate, number>();
          let [seconds, at] = [0, 365];
          for (const each of order) {
            // 310 to 365 °F at 18 °F a minute up, 15 down, as the floor expects it.
            const minutes = at === each.fahrenheit ? 0 : each.fahrenheit > at ? 55 / 18 : 55 / 15;
            seconds += minutes * 60 + 75;
            at = each.fahrenheit;
            ends.set(each, seconds);
          }
          return ends;
        };
        const passed = candidates.slice(0, index);
        const taken = candidates.slice(index, index + 1);
        const [before, after] = [finish(passed), finish([...taken, ...passed])];
        for (const each of passed) {
          expect(each.overtaken).toBeLessThan(3);
          const due = ((each.order.dueBy ?? 0) - NOW) / 1000;
          if ((before.get(each) ?? 0) <= due - 0.01) expect(after.get(each)).toBeLessThanOrEqual(due + 0.01);
        }
      }),
      { numRuns: 500 },
    );
  });
});
