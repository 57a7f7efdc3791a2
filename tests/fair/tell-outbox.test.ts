import { afterEach, expect, it, vi } from "vitest";
import { ring, type StallOf, tellStalls } from "../../src/fair/calls/alarm.ts";
import { addStall, change, create } from "../../src/fair/calls/organiser.ts";
import { route } from "../../src/fair/calls/texts.ts";
import type { Identity } from "../../src/fair/reports.ts";
import { FairTransactions } from "../../src/fair/transact.ts";
import type { StallId } from "../../src/model/basics/ids.ts";
import { CreateFair } from "../../src/model/fair/fair.ts";
import { ids } from "../ids.ts";
import { Life, Rows, storageFor } from "../simulation/whole/storage.ts";

const START = Date.parse("2027-06-01T12:00:00Z");
const DAY = 24 * 60 * 60 * 1000;
const OPENINGS = [{ opens: "2027-06-12T14:00:00Z", closes: "2027-06-12T22:00:00Z" }];
const key = (scope: string) => ({ scope, fingerprint: "same" });

afterEach(() => vi.restoreAllMocks());

/** A fair of this many stalls on a clock that the test moves; each stall notes the last news it got. */
function fairOf(stalls: number) {
  const clock = { now: START };
  vi.spyOn(Date, "now").mockImplementation(() => clock.now);
  const alarm = {
    at: null as number | null,
    set: (at: number) => {
      alarm.at = at;
    },
  };
  const rows = new Rows();
  const transactions = new FairTransactions(storageFor(rows, new Life(), alarm) as never); // the platform's, as far as a fair uses it
  create(
    transactions,
    key("made"),
    CreateFair.parse({ fair: "fair", name: "Fair", timeZone: "UTC", openings: OPENINGS }),
  );
  const told = new Map<StallId, Identity>();
  const calls = { now: 0, fails: new Set<StallId>() };
  const stallOf: StallOf = (_, { stall }) => ({
    open: async (identity) => {
      calls.now += 1;
      if (calls.fails.has(stall)) throw new Error("it does not answer");
      told.set(stall, identity);
    },
  });
  const names = Array.from({ length: stalls }, (_, n) => ids.stall(`stall-${n}`));
  for (const stall of names) addStall(transactions, 1, stall, stall);
  /** Runs the clock from alarm to alarm until none is set before `until`; returns the most calls of one alarm. */
  const runUntil = async (until: number): Promise<number> => {
    let most = 0;
    while (alarm.at !== null && alarm.at <= until) {
      clock.now = Math.max(clock.now, alarm.at);
      alarm.at = null;
      calls.now = 0;
      await ring(transactions, stallOf);
      most = Math.max(most, calls.now);
    }
    return most;
  };
  return { transactions, clock, rows, told, calls, names, stallOf, runUntil };
}

const newHours = (transactions: FairTransactions, name: string) =>
  change(transactions, 1, key(name), { name, openings: OPENINGS }, null);

it("tells 300 stalls of a change, at most 40 in one request", async () => {
  const { transactions, told, calls, names, stallOf, runUntil, clock } = fairOf(300);
  await runUntil(clock.now + 60_000);
  expect(newHours(transactions, "New Fair")).toMatchObject({ ok: true, value: { name: "New Fair" } });
  calls.now = 0;
  await tellStalls(transactions, stallOf);
  expect(calls.now).toBe(40);
  expect(await runUntil(clock.now + 60_000)).toBeLessThanOrEqual(40);
  for (const stall of names) expect(told.get(stall)).toMatchObject({ fairName: "New Fair", edition: 1 });
});

it("tries a stall that does not answer again until it does, with the latest news only", async () => {
  const { transactions, told, calls, names, runUntil, clock } = fairOf(3);
  await runUntil(clock.now + 60_000);
  const [silent, other] = names as [StallId, StallId];
  calls.fails.add(silent);
  newHours(transactions, "Second");
  await runUntil(clock.now + 60_000);
  expect([told.get(silent)?.fairName, told.get(other)?.fairName]).toEqual(["Fair", "Second"]);
  newHours(transactions, "Third");
  calls.fails.delete(silent);
  await runUntil(clock.now + 10 * 60_000);
  expect(told.get(silent)).toMatchObject({ fairName: "Third", edition: 2 });
});

it("leaves a stall that hangs for later, so that the others do not wait for it", async () => {
  const { transactions, told, names, stallOf, runUntil, clock } = fairOf(2);
  await runUntil(clock.now + 60_000);
  const [hung, other] = names as [StallId, StallId];
  newHours(transactions, "Second");
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  const telling = tellStalls(transactions, (fair, stall) =>
    stall.stall === hung ? { open: () => new Promise<void>(() => undefined) } : stallOf(fair, stall),
  );
  await vi.runAllTimersAsync();
  await telling;
  vi.useRealTimers();
  expect(told.get(other)?.fairName).toBe("Second");
  expect(transactions.outbox.waiting()).toEqual([hung]);
  await runUntil(clock.now + 60_000);
  expect(told.get(hung)?.fairName).toBe("Second");
});

it("keeps news as undelivered if it came in the same millisecond as a delivery under way", async () => {
  const { transactions, told, calls, names, stallOf, runUntil, clock } = fairOf(1);
  await runUntil(clock.now + 60_000);
  newHours(transactions, "Second");
  const [only] = names as [StallId];
  const slow: StallOf = (fair, stall) => ({
    open: async (...news) => {
      // Changes again during the delivery.
      if (calls.now === 0) newHours(transactions, "Third");
      await stallOf(fair, stall).open(...news);
    },
  });
  calls.now = 0;
  await tellStalls(transactions, slow);
  expect(told.get(only)?.fairName).toBe("Second");
  await tellStalls(transactions, stallOf);
  expect(told.get(only)?.fairName).toBe("Third");
  expect(transactions.outbox.nextDue()).toBeUndefined();
});

it("erases who wrote no sooner than two days after a typing error in the hours, and 30 days after the last closing", async () => {
  const { transactions, clock, rows, runUntil } = fairOf(1);
  await runUntil(clock.now + 60_000);
  const sender = "a keyed hash";
  route(transactions, { message: "one", sender, text: "menu" }, null, () => undefined);
  const isKnown = () => rows.get(`sender:${sender}`) !== undefined;

  // The year before, corrected after four seconds.
  const typo = [{ opens: "2026-06-12T14:00:00Z", closes: "2026-06-12T22:00:00Z" }];
  change(transactions, 1, key("typo"), { name: "Fair", openings: typo }, null);
  await runUntil(clock.now + 4000);
  clock.now += 4000;
  newHours(transactions, "Put right");
  await runUntil(clock.now + 20 * DAY);
  expect(isKnown()).toBe(true);

  const closed = Date.parse("2027-06-12T22:00:00Z");
  await runUntil(closed + 30 * DAY - 1);
  expect(isKnown()).toBe(true);
  await runUntil(closed + 30 * DAY + 1);
  expect(isKnown()).toBe(false);
});

it("erases nobody when the clock jumps a year ahead and is corrected", async () => {
  const { transactions, clock, rows, runUntil } = fairOf(1);
  await runUntil(clock.now + 60_000);
  const sender = "a keyed hash";
  route(transactions, { message: "one", sender, text: "menu" }, null, () => undefined);
  const before = clock.now;
  clock.now += 365 * DAY;
  await runUntil(clock.now);
  expect(rows.get(`sender:${sender}`)).toBeDefined();
  clock.now = before + 60_000;
  route(transactions, { message: "two", sender, text: "menu" }, null, () => undefined);
  await runUntil(Date.parse("2027-06-12T22:00:00Z") + 30 * DAY - 1);
  expect(rows.get(`sender:${sender}`)).toBeDefined();
  await runUntil(Date.parse("2027-06-12T22:00:00Z") + 30 * DAY + 1);
  expect(rows.get(`sender:${sender}`)).toBeUndefined();
});
