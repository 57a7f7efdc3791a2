import { describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { nextDue } from "../../src/stall/messages/agenda.ts";
import { countTexts } from "../../src/stall/messages/conversation.ts";
import { HEARTBEAT, lastReport, reportDue, reportOf } from "../../src/stall/messages/report-to-fair.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { write } from "../../src/stall/storage/records.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { bucketKey } from "../../src/time/bucket.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { exampleMenu, type MemoryStore, OPENS, placing, testStall } from "./test-stall.ts";

const QUARTER = 15 * MINUTE;
const COUNTS = [{ sku: "tee.navy.L" }, { design: "longtail" }].map((what) =>
  StockEntry.parse({ ...what, counted: 20 }),
);
const place = (name: string, quantity: number): Command =>
  placing(name, { lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity }] });

/** A stall's unit, and a function that reports to the fair as the alarm does. */
function unit() {
  const { store } = testStall(exampleMenu(), COUNTS);
  const own = new UnitOfWork(store);
  const run = (command: Command, now: number): void => {
    expect(own.carryOut(command, now).refusal).toBeNull();
    write(store, own.drain());
  };
  const report = (now: number) => {
    const made = reportOf(own, store, now);
    if (made === null) throw new Error("the stall is not open");
    own.people.pushed.set("", { version: made.version, at: now, toldAt: now, shares: made.shares });
    write(store, own.drain());
    return made;
  };
  return { own, store, run, report };
}
const keys = (report: { readonly buckets: readonly (readonly [string, unknown])[] }): readonly string[] =>
  report.buckets.map(([key]) => key).sort();
const stored = (store: MemoryStore): UnitOfWork => new UnitOfWork(store);

describe("a report", () => {
  it("brings the buckets that changed, whole, and nothing that the fair knows", () => {
    const { run, report } = unit();
    run(place("ann", 2), OPENS);
    expect(keys(report(OPENS + 5000))).toEqual([bucketKey(OPENS)]);
    run(place("ben", 1), OPENS + QUARTER);
    const second = report(OPENS + QUARTER + 5000);
    expect(keys(second)).toEqual([bucketKey(OPENS + QUARTER)]);
    expect(second.buckets[0]?.[1]).toMatchObject({ placed: 1, garments: 1, backlogChange: 1 });
    expect([second.backlog, second.paused]).toEqual([3, false]);
  });

  it("after a time out of reach brings all that happened meanwhile", () => {
    const { own, run, report } = unit();
    report(OPENS);
    for (const n of [1, 2, 3]) run(place(`guest${n}`, 1), OPENS + n * QUARTER);
    expect(lastReport(own).at).toBe(OPENS);
    const late = report(OPENS + 3 * QUARTER + MINUTE);
    expect(late.buckets.reduce((sum, [, bucket]) => sum + bucket.placed, 0)).toBe(3);
    expect(late.buckets.map(([, { backlogChange }]) => backlogChange)).toEqual([1, 1, 1]);
  });

  it("brings texts that were counted after the last one, in a quarter that is over too", () => {
    const { own, store, report } = unit();
    report(OPENS);
    const end = OPENS + QUARTER - 1000;
    countTexts(own, end, { textsIn: 1, textsOut: 2, segmentsOut: 3 });
    write(store, own.drain());
    expect(reportDue(own, end + 2000)).toBe(end + 2000);
    const next = report(end + 2000);
    expect(
      next.buckets.map(([key, { textsIn, textsOut, segmentsOut }]) => [key, textsIn, textsOut, segmentsOut]),
    ).toEqual([[bucketKey(OPENS), 1, 2, 3]]);
    expect(reportDue(own, end + 3000)).toBeNull();
  });

  it("brings takings only if the menu shares them, and every bucket again when that changes", () => {
    const { run, report } = unit();
    const menu = exampleMenu();
    const sharing = (shareTakings: boolean): Command => ({
      type: "set-menu",
      menu: { ...menu, rules: { ...menu.rules, shareTakings } },
    });
    run(place("ann", 1), OPENS);
    run({ type: "paid", number: 101, tender: "cash", amount: 2500 } as Command, OPENS + 1000);
    run({ type: "closed", number: 101, as: "dropped" }, OPENS + MINUTE);
    const takings = ({ buckets }: ReturnType<typeof report>) => buckets.map(([, bucket]) => bucket.takings);
    const kept = report(OPENS + 2 * MINUTE);
    expect([kept.shares, takings(kept)]).toEqual([null, [0]]);
    run(sharing(true), OPENS + 3 * MINUTE);
    const shared = report(OPENS + 3 * MINUTE);
    expect([shared.shares, takings(shared)]).toEqual([menu.currency, [2500]]);
    run(sharing(false), OPENS + 4 * MINUTE);
    expect(takings(report(OPENS + 4 * MINUTE))).toEqual([0]);
  });
});

describe("a sign of life", () => {
  it("is due only while the crew's screens ask for something, and not more often than that", () => {
    const { own, report } = unit();
    report(OPENS);
    // Nobody is there: nothing is due, however long it lasts.
    expect(reportDue(own, OPENS + 10 * HEARTBEAT)).toBeNull();
    own.noticed.crewAt = OPENS + HEARTBEAT - 1;
    expect(reportDue(own, OPENS + HEARTBEAT - 1)).toBeNull();
    own.noticed.crewAt = OPENS + HEARTBEAT;
    expect(reportDue(own, OPENS + HEARTBEAT)).toBe(OPENS + HEARTBEAT);
    expect(nextDue(own, OPENS + HEARTBEAT)).toBe(OPENS + HEARTBEAT);
    const sign = report(OPENS + HEARTBEAT);
    expect([sign.crewAt, sign.buckets]).toEqual([OPENS + HEARTBEAT, []]);
    expect(reportDue(own, OPENS + HEARTBEAT)).toBeNull();
  });

  it("is due at once if the clock was set back since the last one", () => {
    const { own, report } = unit();
    report(OPENS + 4 * QUARTER);
    expect(reportDue(own, OPENS)).toBe(OPENS);
    report(OPENS);
    own.noticed.textsAt = OPENS + 4 * QUARTER;
    expect(reportDue(own, OPENS + 1)).toBeNull();
  });

  it("is not due for a stall that has slept until a screen asks again", () => {
    const { store, report } = unit();
    report(OPENS);
    const woken = stored(store);
    expect(reportDue(woken, OPENS + 20 * HEARTBEAT)).toBeNull();
    expect(woken.noticed.crewAt).toBeNull();
  });
});
