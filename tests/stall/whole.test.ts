import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Identity } from "../../src/fair/reports.ts";
import { asPart, type StallPart, WholeStall } from "../../src/model/accounts/whole-stall.ts";
import { ok, type Result } from "../../src/model/basics/result.ts";
import type { FileFault } from "../../src/model/orders/refusal.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { stockView } from "../../src/stall/calls/counter/stock-view.ts";
import { boardView, menuView, orderView } from "../../src/stall/calls/views.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import type { JournalEntry } from "../../src/stall/state/shapes/event.ts";
import { lastRows, partRows } from "../../src/stall/storage/loading.ts";
import { loadState, write } from "../../src/stall/storage/records.ts";
import { type Cursor, FIRST_PAGE, type SavedPage, savedPage } from "../../src/stall/storage/snapshot.ts";
import { ids } from "../ids.ts";
import { accountOf } from "./account.ts";
import { rowsOf } from "./rows.ts";
import { customer, exampleMenu, MemoryStore, OPENS, type TestStall, testStall } from "./test-stall.ts";

const STOCK = [
  { sku: "tee.navy.L", counted: 6 },
  { design: "longtail", counted: 9 },
].map((entry) => StockEntry.parse(entry));
const DAY = "2027-06-12";

/** A short day that contains every kind of record. */
function lived(steps: readonly number[]): { stall: TestStall; now: number } {
  const stall = testStall(exampleMenu(), STOCK);
  let now = OPENS;
  const lines = [{ offer: ids.offer("longtail-tee"), colour: "navy", size: "L", quantity: 1 }];
  const of = (name: string) => ({ customer: customer(name), lines, asks: [0] });
  const commands = [
    { type: "place", ...of("ann"), takenBy: "counter", chance: 0.3 },
    { type: "hold", ...of("ben"), takenBy: "text" },
    { type: "pull", press: ids.press("A") },
    { type: "pressed", job: ids.job("101-1") },
    { type: "paid", number: 101, tender: "card" },
    { type: "closed", number: 101, as: "collected" },
    { type: "spoiled", job: ids.job("102-1"), lost: "both", reason: "crooked" },
    { type: "close-day", day: DAY },
    { type: "reopen-day", day: DAY, reason: "the last box" },
    { type: "count-passers-by", people: 30, seconds: 200 },
    { type: "set-costs", day: DAY, costs: { blanks: [], transfers: [], fees: [] } },
    { type: "take-lessons", lessons: [{ id: "elsewhere", fair: "Elsewhere", day: "2026-05-02" }] },
    { type: "pause", reason: "rain" },
  ] as unknown as Command[]; // plain ids
  for (const at of steps) {
    const command = commands[at % commands.length];
    now += 20_000;
    if (command !== undefined) stall.run(command, now);
  }
  return { stall, now };
}

/** The file as it travels: through text, and read as its schema says. */
function file({ store }: TestStall, now: number): WholeStall {
  const parts: Record<string, unknown[]> = {};
  for (let from: Cursor | null = FIRST_PAGE; from !== null; ) {
    const page: SavedPage = savedPage(store, from);
    parts[page.part] = [...(parts[page.part] ?? []), ...page.rows.map((row): unknown => JSON.parse(row))];
    from = page.next;
  }
  const { journal, issued, pictures, ...people } = parts;
  const facts = { format: "stallpress-stall", version: 1, exportedAt: new Date(now).toISOString() };
  return WholeStall.parse({ ...facts, journal, issued, pictures, people });
}

/** The rows of a file's parts at its new place, or why they cannot be read. */
function loaded(
  parts: readonly StallPart[],
  identity: Identity,
  now: number,
): Result<MemoryStore, FileFault> {
  const store = new MemoryStore();
  for (const part of parts) {
    const rows = partRows(store, part);
    if (!rows.ok) return rows;
    write(store, rows.value);
  }
  const last = lastRows(store, identity, now);
  if (!last.ok) return last;
  write(store, last.value.writes);
  return ok(store);
}

/** A file in parts of this many rows of one list. */
const inParts = (whole: WholeStall, rows: number): StallPart[] =>
  Object.entries(asPart(whole)).flatMap(([list, all]) =>
    Array.from({ length: Math.ceil((all?.length ?? 0) / rows) }, (_, at) => ({
      [list]: all?.slice(at * rows, (at + 1) * rows),
    })),
  );

/** The records, with the journal's unwritten rows written out. */
function writtenOut({ rows }: MemoryStore): Record<string, unknown> {
  const written: Record<string, unknown> = Object.fromEntries(rows);
  for (const [key, value] of [...rows].sort(([one], [other]) => (one < other ? -1 : 1))) {
    if (!key.startsWith("journal:")) continue;
    const { ahead = [], ...entry } = value as JournalEntry; // written under this prefix only
    written[key] = entry;
    for (const [record, row] of ahead) written[record] = row;
  }
  return written;
}

describe("everything a stall owns", () => {
  it("comes back to the same records and the same views after any history", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 3, maxLength: 40 }),
        fc.integer({ min: 1, max: 9 }),
        (steps, rows) => {
          const { stall, now } = lived(steps);
          const { identity, menu } = stall.state;
          if (identity === null || menu === null) throw new Error("the stall is not set up");
          stall.store.put(`person:${customer("ann")}`, { name: "Wren", phone: "+12125550101" });
          const read = loaded(inParts(file(stall, now), rows), identity, now);
          if (!read.ok) throw new Error(read.refusal.code);
          const store = read.value;
          expect(writtenOut(store)).toEqual(writtenOut(stall.store));
          const again: TestStall = { ...stall, store, state: loadState(store) };
          const [one, other] = [stall.state, again.state];
          expect(rowsOf(other)).toEqual(rowsOf(one));
          expect(other.version).toBe(one.version);
          for (const view of [
            boardView,
            (state: typeof one) => stockView(state, menu),
            (state: typeof one) => menuView(state, menu, now),
          ])
            expect(view(other, now)).toEqual(view(one, now));
          for (const { number } of one.orders.values()) {
            const [theirs, ours] = [other.anyOrder(number), one.anyOrder(number)];
            if (theirs === undefined || ours === undefined) throw new Error(`order ${number} is gone`);
            expect(orderView(other, menu, theirs, now)).toEqual(orderView(one, menu, ours, now));
          }
          expect(accountOf(again, DAY, now)).toEqual(accountOf(stall, DAY, now));
        },
      ),
      { numRuns: 25 },
    );
  });

  it("goes on at another place under that place's own name, with one entry that says so", () => {
    const { stall, now } = lived([0, 2, 3]);
    const before = stall.state.identity;
    if (before === null) throw new Error("the stall is not set up");
    const identity = { ...before, fairName: "Marsh End Fair" };
    const read = loaded([asPart(file(stall, now))], identity, now);
    if (!read.ok) throw new Error(read.refusal.code);
    const store = read.value;
    const state = loadState(store);
    expect(state.identity).toEqual(identity);
    expect(state.version).toBe(stall.state.version + 1);
    expect(state.order(101)).toEqual(stall.state.order(101));
  });

  it("is refused with the reason if its journal has a gap or does not fit together", () => {
    const { stall, now } = lived([0, 2, 3]);
    const { identity } = stall.state;
    if (identity === null) throw new Error("the stall is not set up");
    const whole = file(stall, now);
    const faultOf = (journal: WholeStall["journal"]) => {
      const store = loaded([asPart({ ...whole, journal })], identity, now);
      return store.ok ? null : store.refusal;
    };
    expect(faultOf(whole.journal.filter((_, index) => index !== 2))).toEqual({
      code: "entry-missing",
      sequence: 3,
    });
    const placed = whole.journal.filter(({ events }) => !events.some(({ type }) => type === "placed"));
    expect(faultOf(placed.map((entry, index) => ({ ...entry, sequence: index + 1 })))).toMatchObject({
      code: "event-does-not-fit",
      error: expect.stringContaining("101"),
    });
    expect(
      faultOf(whole.journal.slice(1).map((entry, index) => ({ ...entry, sequence: index + 1 }))),
    ).not.toBeNull();
    const half = [{ type: "delivered", piece: "sku:tee.navy.L", pieces: 0.5 }];
    expect(
      faultOf([...whole.journal, { sequence: whole.journal.length + 1, at: now, events: half }]),
    ).toMatchObject({ code: "stock-below-nothing", piece: "sku:tee.navy.L" });
  });
});
