import { describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { stageOf } from "../../src/stall/state/orders.ts";
import { ids } from "../ids.ts";
import { expectAccounts } from "./account.ts";
import { expectAgreement, expectFloorHolds, expectStockHolds } from "./invariants.ts";
import { customer, exampleMenu, OPENS, type TestStall, testStall } from "./test-stall.ts";

const menu = exampleMenu();
const TAX = 72_500;
const stock = (navyXL: number) =>
  [
    { sku: "tee.navy.L", counted: 4 },
    { sku: "tee.navy.XL", counted: navyXL },
    { sku: "tee.sand.L", counted: 5 },
    { design: "longtail", counted: 9 },
    { design: "kite", counted: 2 },
  ].map((entry) => StockEntry.parse(entry));
const garment = (colour: string, size = "L", offer = "longtail-tee") => ({ offer, colour, size });
const line = (colour: string, size = "L", quantity = 1) => ({ ...garment(colour, size), quantity });
const change = (...changes: readonly object[]): Command =>
  ({ type: "changed", number: 101, changes }) as unknown as Command; // plain ids

const AT = OPENS + 60_000;

function stallWith(lines: readonly object[], navyXL = 2): TestStall {
  const rules = { ...menu.rules, payment: "before-handover", taxPartsPerMillion: TAX } as const;
  const stall = testStall({ ...menu, rules }, stock(navyXL));
  const place = { type: "place", takenBy: "text", chance: 0, asks: [] };
  stall.run({ ...place, customer: customer("ann"), lines } as unknown as Command, OPENS); // plain ids
  stall.run({ ...place, customer: customer("ben"), lines: [line("sand")] } as unknown as Command, OPENS);
  return stall;
}

function expectSound(stall: TestStall): void {
  expectStockHolds(stall.state);
  expectFloorHolds(stall.state);
  expectAgreement(stall.state, stall.store);
  expectAccounts(stall, OPENS + 900_000);
}

/** Presses and hands over all of an order. */
function finish(stall: TestStall, from: number): void {
  for (let at = from; stageOf(stall.state.anyOrder(101) ?? fail()) !== "ready"; at += 60_000) {
    stall.run({ type: "pull", press: ids.press("A") }, at);
    const on = stall.state.orderIndex.onPress.get(ids.press("A"));
    stall.run({ type: "pressed", job: ids.job(`${on?.number}-${on?.n}`) }, at + 30_000);
  }
}
const fail = (): never => {
  throw new Error("the order is gone");
};

describe("changing an order", () => {
  it("keeps number, word and turn, and moves the stock in one step", () => {
    const stall = stallWith([line("navy")], 1);
    const before = stall.state.order(101);
    const turn = before?.jobs[0];
    const { refusal } = stall.run(change({ type: "instead", jobs: [1], garment: garment("navy", "XL") }), AT);
    expect(refusal).toBeNull();
    const after = stall.state.order(101);
    expect([after?.word, after?.lines.at(-1)?.size]).toEqual([before?.word, "XL"]);
    expect(after?.jobs).toMatchObject([
      { n: 1, stage: "waiting", turn: turn?.stage === "waiting" ? turn.turn : -1 },
    ]);
    expect(stall.state.free("sku:tee.navy.L" as never)).toBe(4); // a brand for a test's own key
    expect(stall.state.free("sku:tee.navy.XL" as never)).toBe(0); // as above
    expectSound(stall);
  });

  it("keeps the price of what stays, takes today's for the rest, and the difference is due at hand-over", () => {
    const stall = stallWith([line("navy")]);
    stall.run({ type: "paid", number: 101, tender: "card" }, AT);
    const offers = menu.offers.map((offer) => ({ ...offer, price: offer.price + 500 }));
    const rules = { ...menu.rules, payment: "before-handover", taxPartsPerMillion: TAX } as const;
    stall.run({ type: "set-menu", menu: { ...menu, rules, offers } }, AT);
    expect(stall.run(change({ type: "add", line: line("sand") }), AT).refusal).toBeNull();
    // $24 stays, $29 is new: 7.25 % of $53 is $3.84.
    expect(stall.state.order(101)).toMatchObject({ total: 5684, paid: { amount: 2574 }, due: 3110 });
    const [kept, added] = stall.state.order(101)?.jobs ?? [];
    const other = stall.state.order(102)?.jobs[0];
    const turnOf = (job: typeof kept) => (job?.stage === "waiting" ? job.turn : Number.NaN);
    expect(turnOf(kept)).toBeLessThan(turnOf(other));
    expect(turnOf(added)).toBeGreaterThan(turnOf(other));
    finish(stall, AT + 60_000);
    const hand = { type: "closed", number: 101, as: "collected" } as const;
    expect(stall.run(hand, AT + 400_000).refusal).toEqual({ code: "not-paid", number: 101 });
    stall.run({ type: "paid", number: 101, tender: "cash" }, AT + 410_000);
    expect(stall.state.order(101)).toMatchObject({
      paid: {
        tender: "card",
        amount: 5684,
        parts: [
          { tender: "card", amount: 2574 },
          { tender: "cash", amount: 3110 },
        ],
      },
    });
    expect(stall.state.order(101)?.due).toBeUndefined();
    expect(stall.run(hand, AT + 420_000).refusal).toBeNull();
    expectSound(stall);
  });

  it("owes what a paid order costs less, and takes that first when it costs more again", () => {
    const stall = stallWith([line("navy", "L", 2)]);
    stall.run({ type: "paid", number: 101, tender: "cash" }, AT);
    stall.run(change({ type: "take-off", jobs: [2] }), AT);
    expect(stall.state.order(101)).toMatchObject({ total: 2574, paid: { amount: 2574 }, giveBack: 2574 });
    stall.run(change({ type: "add", line: line("sand", "L", 2) }), AT);
    expect(stall.state.order(101)).toMatchObject({ total: 7722, paid: { amount: 5148 }, due: 2574 });
    expect(stall.state.order(101)?.giveBack).toBeUndefined();
    // The number of a garment that left is not used again.
    expect(stall.state.order(101)?.jobs.map(({ n }) => n)).toEqual([1, 3, 4]);
    expectSound(stall);
  });

  it("gives nothing up if the new piece is gone, and says what is left", () => {
    const stall = stallWith([line("navy")], 0);
    const before = stall.state.order(101);
    const { events, refusal } = stall.run(
      change(
        { type: "instead", jobs: [1], garment: garment("navy", "XL") },
        { type: "add", line: line("sand") },
      ),
      AT,
    );
    expect(refusal).toMatchObject({ code: "sold-out", size: "XL" });
    expect(
      refusal?.code === "sold-out" && refusal.left.map(({ colour, size }) => `${colour} ${size}`),
    ).toEqual(["navy L", "sand L"]);
    expect(events).toMatchObject([{ type: "asked", size: "XL", unmet: "sold-out", instead: true }]);
    expect(stall.state.order(101)).toEqual(before);
    expectSound(stall);
  });

  it("may use the very piece that it gives up", () => {
    const stall = stallWith([line("navy", "XL", 2)]);
    const kite = garment("navy", "XL", "red-kite-tee");
    expect(stall.run(change({ type: "instead", jobs: [1, 2], garment: kite }), AT).refusal).toBeNull();
    expect(stall.state.order(101)?.jobs.map((job) => job.line)).toEqual([1, 1]);
    expectSound(stall);
  });

  it("is refused for a garment on a press, reserved for one, or pressed, and leaves the rest alone", () => {
    const stall = stallWith([line("navy", "L", 2)]);
    stall.run({ type: "pull", press: ids.press("A") }, AT);
    const first = change({ type: "instead", jobs: [1], garment: garment("sand") });
    expect(stall.run(first, AT).refusal).toEqual({ code: "on-press", number: 101, job: "101-1", press: "A" });
    stall.run({ type: "pressed", job: ids.job("101-1") }, AT + 60_000);
    expect(stall.run(first, AT + 61_000).refusal).toMatchObject({
      code: "wrong-stage",
      needs: "not pressed yet",
    });
    stall.run({ type: "set-reserve", press: ids.press("A"), on: true }, AT + 62_000);
    const second = change({ type: "instead", jobs: [2], garment: garment("sand") });
    const asked = stall.run(second, AT + 63_000);
    expect(asked.refusal).toMatchObject({ code: "on-press", job: "101-2" });
    expect(asked.events).toEqual([{ type: "reserve-asked-back", number: 101, n: 2 }]);
    stall.run({ type: "reserve-returned", press: ids.press("A"), jobs: [ids.job("101-2")] }, AT + 64_000);
    expect(stall.run(second, AT + 65_000).refusal).toBeNull();
    expectSound(stall);
  });

  it("is ready when the last garment that waited is taken off, and can then only be exchanged", () => {
    const stall = stallWith([line("navy", "L", 2)]);
    stall.run({ type: "pull", press: ids.press("A") }, AT);
    stall.run({ type: "pressed", job: ids.job("101-1") }, AT + 60_000);
    const { events } = stall.run(change({ type: "take-off", jobs: [2] }), AT + 70_000);
    expect(events.map(({ type }) => type)).toEqual(["changed"]);
    expect(stall.state.order(101)?.readyAt).toBe(AT + 70_000);
    expect(stall.run(change({ type: "add", line: line("sand") }), AT + 80_000).refusal).toMatchObject({
      code: "wrong-stage",
    });
    expectSound(stall);
  });

  it("is for its own customer, within the customer's limits, and never leaves an order empty", () => {
    const stall = stallWith([line("navy")]);
    const add = { type: "add", line: line("sand", "L", 4) };
    const by = (name: string, command: Command) => ({ ...command, byCustomer: customer(name) }) as Command;
    expect(stall.run(by("ben", change(add)), AT).refusal).toEqual({ code: "no-such-order", number: 101 });
    const many = Array.from({ length: 4 }, () => add);
    expect(stall.run(by("ann", change(...many)), AT).refusal).toMatchObject({ code: "too-many", most: 12 });
    expect(stall.run(change({ type: "take-off", jobs: [1] }), AT).refusal).toMatchObject({
      needs: "dropped as a whole",
    });
    expect(stall.run(change({ type: "take-off", jobs: [7] }), AT).refusal).toMatchObject({
      code: "no-such-job",
    });
    stall.run({ type: "pause", reason: "rain" }, AT);
    expect(stall.run(by("ann", change(add)), AT).refusal).toMatchObject({ code: "paused" });
    expect(
      stall.run(by("ann", change({ type: "instead", jobs: [1], garment: garment("sand") })), AT).refusal,
    ).toBeNull();
    expectSound(stall);
  });
});
