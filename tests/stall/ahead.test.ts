import { describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { accountDay } from "../../src/stall/state/account-day.ts";
import type { JournalEntry } from "../../src/stall/state/shapes/event.ts";
import { loadState, RECORDS_VERSION, WRITE_BEHIND_MOST } from "../../src/stall/storage/records.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { ids } from "../ids.ts";
import { expectAccounts } from "./account.ts";
import { expectAgreement } from "./invariants.ts";
import { exampleMenu, OPENS, placing, type TestStall, testStall } from "./test-stall.ts";

const A = ids.press("A");
const STOCK = [
  { sku: "tee.navy.L", counted: 500 },
  { design: "longtail", counted: 500 },
].map((entry) => StockEntry.parse(entry));

const stallWithStock = (): TestStall => testStall(exampleMenu(), STOCK, OPENS - 60_000);

const place = (n: number): Command => placing(`c${n}`, { asks: [0] });

/** A garment sold from placing to hand-over: five commands. */
function sell(stall: TestStall, n: number, at: number): void {
  const number = 101 + n;
  stall.run(place(n), at);
  stall.run({ type: "pull", press: A }, at + 1);
  stall.run({ type: "pressed", job: ids.job(`${number}-1`) }, at + 60_000);
  stall.run({ type: "paid", number, tender: "cash" }, at + 60_001);
  stall.run({ type: "closed", number, as: "collected" }, at + 60_002);
}

const entries = ({ store }: TestStall): readonly JournalEntry[] =>
  [...store.list({ prefix: "journal:" })].map(([, entry]) => entry as JournalEntry);

/** Entries since the last one at which everything was written out. */
const carrying = (stall: TestStall): number =>
  entries(stall)
    .toReversed()
    .findIndex(({ ahead }) => ahead === undefined);

describe("the account of a day, written ahead in the journal", () => {
  it("is the same however often the stall sleeps, across every point at which it is written out", () => {
    const stall = stallWithStock();
    for (let n = 0; n < 70; n++) {
      sell(stall, n, OPENS + n * 120_000);
      if (n % 3 === 0) stall.evict();
      if (n % 5 === 0) expectAgreement(stall.state, stall.store);
    }
    expectAccounts(stall, OPENS + 9_000_000);
    expect(entries(stall).length).toBeGreaterThan(2 * WRITE_BEHIND_MOST);
    expect(stall.state.dayTotals.get(accountDay(stall.state, OPENS))?.pressed).toBe(70);
  });

  it("writes none of its rows with most commands, and limits the entries that carry them", () => {
    const stall = stallWithStock();
    let writing = 0;
    for (let n = 0; n < 70; n++) {
      stall.store.rows.delete("day:2027-06-12");
      sell(stall, n, OPENS + n * 120_000);
      if (stall.store.rows.has("day:2027-06-12")) writing += 1;
      expect(carrying(stall)).toBeLessThan(WRITE_BEHIND_MOST);
      if (n % 7 === 0) stall.evict();
    }
    expect(writing).toBe(Math.floor(entries(stall).length / WRITE_BEHIND_MOST));
  });

  it("opens records of the first shape, in which every row was written alone, and goes on from there", () => {
    const stall = stallWithStock();
    for (let n = 0; n < 5; n++) sell(stall, n, OPENS + n * 120_000);
    const { store } = stall;
    for (const { ahead = [], ...entry } of entries(stall)) {
      for (const [key, row] of ahead) store.put(key, row);
      store.put(`journal:${String(entry.sequence).padStart(10, "0")}`, entry);
    }
    store.put("records-version", 1);
    stall.evict();
    expectAgreement(stall.state, store);
    expect(stall.state.writtenOut).toBe(stall.state.version);
    sell(stall, 5, OPENS + 3_600_000);
    expect(store.get("records-version")).toBe(RECORDS_VERSION);
    stall.evict();
    expectAgreement(stall.state, store);
    expectAccounts(stall, OPENS + 9_000_000);
  });

  it("goes as one with several commands in one transaction", () => {
    const stall = stallWithStock();
    const unit = new UnitOfWork(stall.store);
    const before = unit.state.version;
    for (let n = 0; n < 3; n++) unit.carryOut(place(n), OPENS + n);
    for (const [key, value] of unit.drain()) stall.store.put(key, value);
    expect(loadState(stall.store).version).toBe(before + 3);
    expectAgreement(unit.state, stall.store);
  });
});
