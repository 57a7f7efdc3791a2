/** The pickup numbers that counters have beforehand, and what they take with them. */

import { describe, expect, it } from "vitest";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import { BLOCK_SIZE } from "../../src/model/orders/block-size.ts";
import type { DeviceId, Numbered } from "../../src/model/orders/counter.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { skuKey } from "../../src/stall/state/counts.ts";
import { stageOf } from "../../src/stall/state/orders.ts";
import { blockOf } from "../../src/stall/state/pickup-numbers.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { ids } from "../ids.ts";
import { expectAgreement, expectFloorHolds, expectStockHolds } from "./invariants.ts";
import { customer, exampleMenu, OPENS, type TestStall, testStall } from "./test-stall.ts";

const DAY = "2027-06-12";
const device = (name: string): DeviceId => name.padEnd(16, "_") as DeviceId; // a brand for a test's own id
const TILL = device("till");
const OTHER = device("other");

const stallWith = (navyL: number, rules: Partial<Menu["rules"]> = {}): TestStall => {
  const menu = exampleMenu();
  return testStall({ ...menu, rules: { ...menu.rules, ...rules } }, [
    StockEntry.parse({ sku: "tee.navy.L", counted: navyL }),
    StockEntry.parse({ design: "longtail", counted: 40 }),
  ]);
};

const CHANCES = Array.from({ length: BLOCK_SIZE }, (_, index) => index / BLOCK_SIZE);

/** The numbers given to a device that has this many unused ones. */
function give(stall: TestStall, to: DeviceId, have = 0, after = 0, now = OPENS): readonly Numbered[] {
  const { refusal } = stall.run({ type: "give-numbers", device: to, have, after, chances: CHANCES }, now);
  expect(refusal).toBeNull();
  return blockOf(stall.state, to).filter(({ number }) => number > after);
}

type Extras = Partial<Extract<Command, { readonly type: "place" }>>;

const place = (name: string, extras: Extras = {}, quantity = 1): Command =>
  ({
    type: "place",
    customer: customer(name),
    takenBy: "counter",
    lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity }],
    asks: [0],
    chance: 0.7,
    ...extras,
  }) as unknown as Command; // plain ids

const of = (given: Numbered | undefined, to = TILL) => ({ block: { device: to, ...(given as Numbered) } });

const stage = (stall: TestStall, number: number): string => {
  const order = stall.state.anyOrder(number);
  return order === undefined ? "none" : stageOf(order);
};

const PAID = { paid: { tender: "cash" } } as const;

describe("a counter's block of pickup numbers", () => {
  it("has twenty numbers and words that nobody else gets", () => {
    const stall = stallWith(9);
    const [one, two] = [give(stall, TILL), give(stall, OTHER)];
    stall.run(place("ann"), OPENS);
    const all = [...one, ...two];
    expect([one.length, two.length]).toEqual([BLOCK_SIZE, BLOCK_SIZE]);
    expect(new Set(all.map(({ number }) => number)).size).toBe(2 * BLOCK_SIZE);
    expect(new Set(all.map(({ word }) => word)).size).toBe(2 * BLOCK_SIZE);
    const [walkUp] = [...stall.state.orders.values()];
    expect(walkUp?.number).toBe(101 + 2 * BLOCK_SIZE);
    expect(all.map(({ word }) => word)).not.toContain(walkUp?.word);
    expectAgreement(stall.state, stall.store);
  });

  it("is filled up to twenty unused ones, and an answer that was lost costs no number", () => {
    const stall = stallWith(9);
    const first = give(stall, TILL);
    expect(give(stall, TILL)).toEqual(first);
    const last = first.at(-1)?.number ?? 0;
    expect(give(stall, TILL, 15, last).map(({ number }) => number)).toEqual([121, 122, 123, 124, 125]);
    expect(give(stall, TILL, 15, last)).toHaveLength(5);
    expect(give(stall, TILL, BLOCK_SIZE, 125)).toEqual([]);
  });

  it("steps over the numbers kept for paper", () => {
    const stall = stallWith(9);
    for (let n = 0; n < 39; n++) give(stall, device(`d${n}`));
    const numbers = give(stall, device("last")).map(({ number }) => number);
    expect(numbers.slice(0, 2)).toEqual([881, 882]);
    expect(numbers.slice(-2)).toEqual([899, 1000]);
  });

  it("is released at the close of the day; its numbers stay good, and nobody else gets them", () => {
    const stall = stallWith(9);
    const [given] = give(stall, TILL);
    stall.run({ type: "close-day", day: DAY } as Command, OPENS + MINUTE);
    expect(stall.state.blocks.size).toBe(0);
    const fresh = give(stall, OTHER, 0, 0, OPENS + 2 * MINUTE).map(({ number }) => number);
    expect(fresh[0]).toBe(101 + BLOCK_SIZE);
    stall.run(place("ann", of(given)), OPENS + 3 * MINUTE);
    expect(stall.state.order(101)?.word).toBe(given?.word);
    expectAgreement(stall.state, stall.store);
  });

  it("is forgotten by the device that was first if a thirteenth asks", () => {
    const stall = stallWith(9);
    for (let n = 0; n < 13; n++) give(stall, device(`d${n}`));
    expect(stall.state.blocks.size).toBe(12);
    expect(blockOf(stall.state, device("d0"))).toEqual([]);
  });
});

describe("an order with a number of a block", () => {
  it("has that number and word, and is paid in the same step", () => {
    const stall = stallWith(9, { payment: "before-pressing" });
    const [, given] = give(stall, TILL);
    stall.run(place("ann", { ...of(given), ...PAID, late: true }), OPENS + MINUTE);
    const order = stall.state.order(102);
    expect(order?.word).toBe(given?.word);
    expect(order?.paid).toEqual({ tender: "cash", amount: order?.total, at: OPENS + MINUTE });
    expect(stage(stall, 102)).toBe("waiting");
    expect(blockOf(stall.state, TILL).map(({ number }) => number)).not.toContain(102);
    expect(stall.state.status.nextNumber).toBe(121);
    expectAgreement(stall.state, stall.store);
  });

  it("exists once if it is sent again after its key was forgotten", () => {
    const stall = stallWith(9);
    const [given] = give(stall, TILL);
    stall.run(place("ann", of(given)), OPENS);
    const again = stall.run(place("ben", { ...of(given), late: true }), OPENS + MINUTE);
    expect(again).toEqual({ events: [], refusal: null });
    expect(stall.state.orders.size).toBe(1);
  });

  it("gets another number if an order or another device has it, and is never refused for that", () => {
    const stall = stallWith(9);
    const [mine] = give(stall, TILL);
    const [theirs] = give(stall, OTHER);
    stall.run(place("ann", of(mine)), OPENS);
    for (const [who, given, extras] of [
      ["ben", mine, {}],
      ["cat", theirs, {}],
      ["dan", { number: 4000, word: "heron" }, {}],
      ["eve", { number: 900, word: "heron" }, { late: true }],
    ] as const)
      expect(stall.run(place(who, { ...of(given), ...extras }, 2), OPENS).refusal).toBeNull();
    expect([...stall.state.orders.keys()].map(Number)).toEqual([101, 141, 142, 143, 144]);
    expectAgreement(stall.state, stall.store);
  });

  it("is short if it proves sold out afterwards, keeps its number and word, and gets the next stock", () => {
    const stall = stallWith(3, { payment: "before-pressing" });
    const [given] = give(stall, TILL);
    stall.run(place("ann", PAID, 2), OPENS);
    const late = { ...of(given), ...PAID, late: true } as const;
    expect(stall.run(place("ben", { ...PAID }, 2), OPENS).refusal?.code).toBe("sold-out");
    expect(stall.run(place("ben", late, 2), OPENS).refusal).toBeNull();
    expect(stall.state.order(101)?.jobs.map((job) => job.stage)).toEqual(["waiting", "short"]);
    expectStockHolds(stall.state);
    expectFloorHolds(stall.state);
    const entries = [StockEntry.parse({ sku: "tee.navy.L", delivered: 1 })];
    stall.run({ type: "change-stock", entries }, OPENS + MINUTE);
    expect(stall.state.order(101)?.jobs.map((job) => job.stage)).toEqual(["waiting", "waiting"]);
    expectAgreement(stall.state, stall.store);
  });

  it("is short too if it is off the menu by now, or taken unpaid if payment comes first", () => {
    const stall = stallWith(1, { payment: "before-pressing" });
    const [one, two] = give(stall, TILL);
    stall.run({ type: "set-off-menu", piece: skuKey(ids.sku("tee.navy.L")), off: true }, OPENS);
    expect(stall.run(place("ann", { ...of(one), late: true }), OPENS).refusal).toBeNull();
    expect(stage(stall, 101)).toBe("to-pay");
    stall.run(place("ben", { ...of(two), late: true }), OPENS);
    expect(stall.state.order(102)?.jobs[0]?.stage).toBe("short");
    expectAgreement(stall.state, stall.store);
  });
});

describe("an order that waits for its payment", () => {
  const UNTIL = OPENS + 20 * MINUTE;
  const waiting = (navyL = 1): TestStall => {
    const stall = stallWith(navyL, { payment: "before-pressing", payMinutes: 20 });
    stall.run(place("ann", { takenAt: OPENS - 60 * MINUTE }), OPENS);
    return stall;
  };

  it("waits from when the stall received it, however late", () => {
    const stall = waiting();
    stall.run({ type: "tick" }, UNTIL - 1);
    expect(stage(stall, 101)).toBe("to-pay");
    stall.run({ type: "tick" }, UNTIL);
    expect(stage(stall, 101)).toBe("dropped");
  });

  it("is kept as long again at a tap, also at one that arrived too late", () => {
    const stall = waiting();
    stall.run({ type: "kept-unpaid", number: 101 }, UNTIL - MINUTE);
    stall.run({ type: "tick" }, UNTIL + 18 * MINUTE);
    expect(stage(stall, 101)).toBe("to-pay");
    stall.run({ type: "tick" }, UNTIL + 19 * MINUTE);
    expect(stage(stall, 101)).toBe("dropped");
    expect(stall.run({ type: "kept-unpaid", number: 101 }, UNTIL + 30 * MINUTE).refusal).toBeNull();
    stall.run({ type: "tick" }, UNTIL + 49 * MINUTE);
    expect(stage(stall, 101)).toBe("to-pay");
    expectAgreement(stall.state, stall.store);
  });

  it("is open again once it is paid, and short if its stock went to somebody else", () => {
    const stall = waiting();
    stall.run({ type: "tick" }, UNTIL);
    stall.run(place("ben", PAID), UNTIL);
    expect(stall.run({ type: "paid", number: 101, tender: "card" }, UNTIL + MINUTE).refusal).toBeNull();
    expect(stall.state.order(101)?.jobs[0]?.stage).toBe("short");
    expect(stall.state.order(101)?.paid?.tender).toBe("card");
    expectStockHolds(stall.state);
    expectAgreement(stall.state, stall.store);
  });

  it("stays dropped if the crew dropped it when it was in line", () => {
    const stall = stallWith(2);
    stall.run(place("ann"), OPENS);
    stall.run({ type: "closed", number: 101, as: "dropped" }, OPENS);
    expect(stall.run({ type: "paid", number: 101, tender: "cash" }, OPENS).refusal?.code).toBe("wrong-stage");
  });
});
