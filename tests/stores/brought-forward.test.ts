/** Names of the crew are taken out of the facts in parts when a store of an earlier shape is opened. */

import { beforeEach, describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { Stall } from "../../src/stall/stall.ts";
import { orderKey } from "../../src/stall/state/orders.ts";
import type { JournalEntry } from "../../src/stall/state/shapes/event.ts";
import type { Order } from "../../src/stall/state/shapes/order.ts";
import { RECORDS_VERSION, readJournal, WRITE_BEHIND_MOST, write } from "../../src/stall/storage/records.ts";
import { FIRST_PAGE, savedPage } from "../../src/stall/storage/snapshot.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { Life, Rows, storageFor } from "../simulation/whole/storage.ts";
import { expectAgreement } from "../stall/invariants.ts";
import { customer, exampleMenu, type MemoryStore, OPENS, testStall } from "../stall/test-stall.ts";

const PART = 500;
/** Orders of the past: their rows and entries make several parts. */
const PAST = 700;
const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
const counts = [
  { sku: "tee.navy.L", counted: 6 },
  { design: "longtail", counted: 6 },
].map((entry) => StockEntry.parse(entry));

/** A store as shape 2 wrote it: one order open and paid, and one that is over. */
function shapeTwo(): MemoryStore {
  const { store } = testStall(exampleMenu(), counts);
  const unit = new UnitOfWork(store);
  const commands = [
    { type: "place", customer: customer("ann"), takenBy: "counter", lines, asks: [], chance: 0 },
    { type: "place", customer: customer("ben"), takenBy: "counter", lines, asks: [], chance: 0 },
    { type: "paid", number: 101, tender: "card" },
    { type: "paid", number: 102, tender: "cash" },
    { type: "closed", number: 102, as: "dropped" },
  ] as unknown as Command[]; // plain ids
  for (const command of commands) unit.carryOut(command, OPENS);
  write(store, unit.drain());
  for (const entry of [...readJournal(store)]) {
    const events = entry.events.map((event) =>
      event.type === "paid" ? { ...event, by: "Hortense" } : event,
    );
    store.put(`journal:${String(entry.sequence).padStart(10, "0")}`, { ...entry, events } as JournalEntry);
  }
  for (const key of ["order:000101", "past:000102"]) {
    const order = store.get(key) as Order;
    store.put(key, { ...order, paid: { ...order.paid, by: "Hortense" } });
  }
  store.put("records-version", 2);
  return store;
}

const named = ({ rows }: MemoryStore): string[] =>
  [...rows]
    .filter(([, row]) => JSON.stringify(row).includes("Hortense"))
    .map(([key]) => key)
    .sort();

/** Brings every part forward, and gives how many there were. */
function bringAll(store: MemoryStore): number {
  for (let parts = 0; ; parts++) {
    const { forward } = new UnitOfWork(store);
    if (forward.isDone) return parts;
    write(store, forward.part());
  }
}

describe("who took a payment, in a store of shape 2", () => {
  let store: MemoryStore;
  beforeEach(() => {
    store = shapeTwo();
  });

  it("is read from the people at once and stands in no fact, before any row is brought forward", () => {
    const before = new Map(store.rows);
    const opened = new UnitOfWork(store);
    expect(opened.people.atOrder(101).paidTo).toBe("Hortense");
    expect(opened.people.atOrder(102).paidTo).toBe("Hortense");
    const facts = [opened.state.order(101), opened.state.anyOrder(102), ...readJournal(store)];
    expect(JSON.stringify(facts)).not.toContain("Hortense");
    expect(store.rows).toEqual(before);
    expectAgreement(opened.state, store);
  });

  it("is kept if its order changes before its row is brought forward, and forgotten if the payment is undone", () => {
    const unit = new UnitOfWork(store);
    unit.carryOut({ type: "undo-closed", number: 102, was: "dropped" }, OPENS + 1000);
    unit.carryOut({ type: "undo-paid", number: 101 }, OPENS + 1000);
    unit.people.notePaidTo(101, null);
    write(store, unit.drain());
    expect(store.get("records-version")).toBe(RECORDS_VERSION);
    expect(new UnitOfWork(store).people.atOrder(102).paidTo).toBe("Hortense");
    bringAll(store);
    expect(named(store)).toEqual(["at-order:102"]);
  });

  it("stands in the people's rows only, once every part is brought forward", () => {
    expect(bringAll(store)).toBe(1);
    expect(named(store)).toEqual(["at-order:101", "at-order:102"]);
    expect(store.get("records-version")).toBe(RECORDS_VERSION);
    const opened = new UnitOfWork(store);
    expect(opened.people.atOrder(101).paidTo).toBe("Hortense");
    expectAgreement(opened.state, store);
  });

  it("is not taken over if the stall's people were erased", () => {
    store.put("erased", { at: OPENS, again: null });
    expect(new UnitOfWork(store).people.atOrder(101).paidTo).toBeUndefined();
    bringAll(store);
    expect(named(store)).toEqual([]);
  });

  it("is in no page of a saved file but that of the orders' people", () => {
    for (let page = savedPage(store, FIRST_PAGE); page.next !== null; page = savedPage(store, page.next))
      expect(page.rows.join()).not.toContain("Hortense");
  });
});

/** The same store with many past orders, in an object's storage that counts what is read and written at once. */
function largeObject() {
  const small = shapeTwo();
  const rows = new Rows();
  for (const [key, row] of small.rows) rows.put(key, row);
  const past = small.get("past:000102") as Order;
  for (let number = 103; number < 103 + PAST; number++)
    rows.put(`past:${orderKey(number)}`, { ...past, number });
  const alarm = {
    at: null as number | null,
    set: (at: number): void => {
      alarm.at = at;
    },
  };
  const storage = storageFor(rows, new Life(), alarm);
  const most = { read: 0, written: 0 };
  let read = 0;
  const counted = {
    ...storage,
    kv: {
      ...storage.kv,
      list: (options: Parameters<Rows["list"]>[0]) => {
        const page = storage.kv.list(options);
        read += page.length;
        return page;
      },
    },
  };
  const note = (): void => {
    most.read = Math.max(most.read, read);
    most.written = Math.max(most.written, rows.takeWritten().size);
    read = 0;
  };
  rows.takeWritten();
  const fair = { report: async () => ({ gateway: 0 }) };
  const make = (): Stall =>
    new Stall({ storage: counted } as never, { FAIR: { getByName: () => fair } } as never); // as far as the object uses them
  return { rows, alarm, make, most, note };
}

it("a large store is brought forward by its alarm, 500 rows at a time, and no call reads or writes more", async () => {
  const { rows, alarm, make, most, note } = largeObject();
  let stall = make();
  expect(stall.exists()).toBe(true);
  note();
  expect(most.written).toBe(0);
  expect(most.read).toBeLessThanOrEqual(WRITE_BEHIND_MOST + 50);
  let rings = 0;
  for (; rows.get("bring-forward") !== undefined || rings === 0; rings++) {
    expect(alarm.at).not.toBeNull();
    // Every other time the object has slept between two alarms.
    if (rings % 2 === 1) stall = make();
    await stall.alarm();
    note();
  }
  expect(rings).toBe(Math.ceil((PAST + 1 + [...rows.keysOf("journal:")].length) / PART));
  expect(most.read).toBeLessThanOrEqual(PART + WRITE_BEHIND_MOST + 50);
  expect(most.written).toBeLessThanOrEqual(2 * PART + 10);
  for (let number = 102; number < 103 + PAST; number++) {
    expect(JSON.stringify(rows.get(`past:${orderKey(number)}`))).not.toContain("Hortense");
    expect(rows.get(`at-order:${number}`)).toMatchObject({ paidTo: "Hortense" });
  }
});
