/** Names of the crew are taken out of the facts when a store of an earlier shape is opened. */
import { expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import type { JournalEntry, Order } from "../../src/stall/state/facts.ts";
import { readJournal, write } from "../../src/stall/storage/records.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { expectAgreement } from "./invariants.ts";
import { customer, exampleMenu, OPENS, testStall } from "./test-stall.ts";

it("who took a payment stands in the people's rows only, once a store of shape 2 was opened", () => {
  const counts = [
    { sku: "tee.navy.L", counted: 6 },
    { design: "longtail", counted: 6 },
  ].map((entry) => StockEntry.parse(entry));
  const { store } = testStall(exampleMenu(), counts);
  const unit = new UnitOfWork(store);
  const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
  const commands = [
    { type: "place", customer: customer("ann"), takenBy: "counter", lines, asks: [], chance: 0 },
    { type: "place", customer: customer("ben"), takenBy: "counter", lines, asks: [], chance: 0 },
    { type: "pay", number: 101, tender: "card" },
    { type: "pay", number: 102, tender: "cash" },
    { type: "close", number: 102, as: "dropped" },
  ] as unknown as Command[]; // plain ids
  for (const command of commands) unit.carryOut(command, OPENS);
  write(store, unit.take());
  // As shape 2 wrote it.
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

  const opened = new UnitOfWork(store);
  const named = [...store.rows].filter(([, row]) => JSON.stringify(row).includes("Hortense"));
  expect(named.map(([key]) => key).sort()).toEqual(["at-order:101", "at-order:102"]);
  expect(opened.people.atOrder(101).paidTo).toBe("Hortense");
  expectAgreement(opened.state, store);
});
