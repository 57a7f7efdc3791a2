import { describe, expect, it } from "vitest";
import { seededRandom } from "../../src/maths/random.ts";
import { nextAttempt, Outbox, type Waiting } from "../../src/texting/sending/outbox.ts";

const row = (id: string, more: Partial<Waiting> = {}): Waiting => ({
  id,
  lane: "ann",
  dueAt: 0,
  attempts: 0,
  since: 0,
  ...more,
});

describe("trying again", () => {
  it("waits from 1 s doubling to 5 min, with jitter of at most a half", () => {
    for (let attempts = 0; attempts < 30; attempts++) {
      const longest = Math.min(1000 * 2 ** attempts, 300_000);
      const text = row("a", { attempts });
      expect(nextAttempt(text, 1000, 0)).toBe(1000 + longest / 2);
      expect(nextAttempt(text, 1000, 1)).toBe(1000 + longest);
    }
  });
  it("waits as long as it is asked to", () => {
    expect(nextAttempt(row("a"), 1000, 0.5, 90_000)).toBe(91_000);
  });
  it("gives up after two hours", () => {
    expect(nextAttempt(row("a"), 7_199_999, 0)).not.toBeNull();
    expect(nextAttempt(row("a"), 7_200_000, 0)).toBeNull();
  });
});

describe("the outbox", () => {
  it("holds a customer's next text back while the one before is tried again, and nobody else's", () => {
    const outbox = new Outbox<Waiting>();
    const [first, second, other] = [
      row("1", { attempts: 1, dueAt: 500 }),
      row("2", { since: 10 }),
      row("3", { lane: "ben", since: 20 }),
    ];
    for (const text of [second, first, other]) outbox.changed(undefined, text);
    expect(outbox.due(100, 40)).toEqual([other]);
    expect(outbox.nextDue(0)).toBe(0);
    outbox.changed(other, undefined);
    expect(outbox.nextDue(100)).toBe(500);
    outbox.changed(first, undefined);
    expect(outbox.due(100, 40)).toEqual([second]);
  });
  it("gives at most what is asked for, oldest first", () => {
    const outbox = new Outbox<Waiting>();
    for (let n = 0; n < 60; n++)
      outbox.changed(undefined, row(String(n), { lane: String(n % 7), since: 60 - n }));
    const due = outbox.due(0, 40);
    expect(due).toHaveLength(40);
    expect(due.map(({ since }) => since)).toEqual(due.map(({ since }) => since).sort((a, b) => a - b));
  });
  it("lets a text go that was put down by a clock set back since", () => {
    const outbox = new Outbox<Waiting>();
    const ahead = row("1", { since: 3_600_000, dueAt: 3_600_000 });
    outbox.changed(undefined, ahead);
    expect([outbox.nextDue(1000), outbox.due(1000, 40)]).toEqual([1000, [ahead]]);
    // One that waits to be tried again keeps waiting.
    const later = row("2", { lane: "ben", attempts: 1, dueAt: 2000 });
    outbox.changed(undefined, later);
    expect([outbox.nextDue(1000), outbox.nextDue(2000)]).toEqual([2000, 2000]);
    expect(outbox.due(2000, 40)).toEqual([later, ahead]);
  });
  it("agrees with looking through all rows, whatever happens to them", () => {
    const random = seededRandom(11);
    const outbox = new Outbox<Waiting>();
    const rows = new Map<string, Waiting>();
    for (let step = 0; step < 3000; step++) {
      const id = String(Math.floor(random.next() * 30));
      const before = rows.get(id);
      const after = random.chance(0.3)
        ? undefined
        : row(id, {
            lane: before?.lane ?? String(Math.floor(random.next() * 5)),
            since: before?.since ?? step,
            dueAt: step + Math.floor(random.next() * 100),
            attempts: random.chance(0.3) ? 1 : 0,
          });
      outbox.changed(before, after);
      if (after === undefined) rows.delete(id);
      else rows.set(id, after);
      const all = [...rows.values()];
      const free = all.filter(
        (text) =>
          !all.some(
            (earlier) =>
              earlier.lane === text.lane &&
              earlier.attempts > 0 &&
              earlier.id !== text.id &&
              (earlier.since < text.since || (earlier.since === text.since && earlier.dueAt < text.dueAt)),
          ),
      );
      const now = step + 50;
      const due = free.filter(({ dueAt }) => dueAt <= now).map((text) => text.id);
      expect(
        outbox
          .due(now, 99)
          .map((text) => text.id)
          .sort(),
      ).toEqual(due.sort());
      expect(outbox.nextDue(now)).toBe(
        free.length === 0 ? null : Math.min(...free.map(({ dueAt }) => dueAt)),
      );
    }
  });
});
