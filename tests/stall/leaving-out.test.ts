import { describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { accountDay } from "../../src/stall/state/account-day.ts";
import { stageOf } from "../../src/stall/state/orders.ts";
import { ids } from "../ids.ts";
import { expectAccounts } from "./account.ts";
import { expectAgreement, expectFloorHolds, expectStockHolds } from "./invariants.ts";
import { customer, exampleMenu, OPENS, type TestStall, testStall } from "./test-stall.ts";

const menu = exampleMenu();
const STOCK = [
  { sku: "tee.navy.L", counted: 1 },
  { sku: "tee.sand.L", counted: 5 },
  { design: "longtail", counted: 9 },
].map((entry) => StockEntry.parse(entry));
const LEAVE: Command = { type: "left-out", number: 101 };

/** Navy and sand, ordered and paid together; then the only navy blank is scorched. */
function scorched(): TestStall {
  const rules = { ...menu.rules, payment: "before-handover", taxPartsPerMillion: 72_500 } as const;
  const stall = testStall({ ...menu, rules }, STOCK);
  const line = (colour: string) => ({ offer: "longtail-tee", colour, size: "L", quantity: 1 });
  const place = { type: "place", customer: customer("ann"), takenBy: "text", chance: 0 };
  stall.run({ ...place, lines: [line("navy"), line("sand")], asks: [] } as unknown as Command, OPENS); // plain ids
  stall.run({ type: "paid", number: 101, tender: "card" }, OPENS);
  stall.run({ type: "pull", press: ids.press("A") }, OPENS + 1000);
  const spoil = { type: "spoiled", job: ids.job("101-1"), lost: "both", reason: "scorched" } as const;
  stall.run(spoil, OPENS + 60_000);
  expect(stall.state.order(101)?.jobs.map(({ stage }) => stage)).toEqual(["short", "waiting"]);
  return stall;
}

describe("removing short garments", () => {
  it("lowers the sum, owes the difference, and makes the order ready with what is pressed", () => {
    const stall = scorched();
    const before = stall.state.order(101);
    expect(stall.run({ type: "pull", press: ids.press("A") }, OPENS + 70_000).refusal).toBeNull();
    stall.run({ type: "pressed", job: ids.job("101-2") }, OPENS + 120_000);
    const half = stall.state.order(101);
    if (half === undefined) throw new Error("the order stands");
    expect(stageOf(half)).toBe("pressing");
    const { events, refusal } = stall.run(LEAVE, OPENS + 130_000);
    expect(refusal).toBeNull();
    expect(events.map(({ type }) => type)).toEqual(["left-out"]);
    const after = stall.state.order(101);
    // Two at $24 and 7.25 % are $51.48; one is $25.74.
    expect([before?.total, after?.total, after?.paid?.amount, after?.giveBack]).toEqual([
      5148, 2574, 2574, 2574,
    ]);
    expect(after?.readyAt).toBe(OPENS + 130_000);
    expect(stall.run({ type: "closed", number: 101, as: "collected" }, OPENS + 140_000).refusal).toBeNull();
    expectStockHolds(stall.state);
    expectFloorHolds(stall.state);
    expectAgreement(stall.state, stall.store);
    expect(stall.state.dayTotals.get(accountDay(stall.state, OPENS))?.takings.card).toMatchObject({
      payments: 1,
      amount: 2574,
    });
  });

  it("is only for what is short, only for its own customer, and never for all of an order", () => {
    const stall = scorched();
    const stranger = { ...LEAVE, byCustomer: customer("ben") };
    expect(stall.run(stranger, OPENS + 70_000).refusal).toEqual({ code: "no-such-order", number: 101 });
    const own = { ...LEAVE, byCustomer: customer("ann") };
    expect(stall.run(own, OPENS + 70_000).refusal).toBeNull();
    expect(stall.run(LEAVE, OPENS + 71_000).refusal).toMatchObject({ code: "wrong-stage" });
    const none = StockEntry.parse({ sku: "tee.sand.L", counted: 0 });
    stall.run({ type: "change-stock", entries: [none] }, OPENS + 72_000);
    expect(stall.run(LEAVE, OPENS + 73_000).refusal).toMatchObject({ needs: "dropped as a whole" });
  });

  it("finds nothing short if the spoiled tap is taken back", () => {
    const stall = scorched();
    const job = ids.job("101-1");
    const unspoil = () => stall.run({ type: "undo-spoiled", job }, OPENS + 65_000).refusal;
    expect(unspoil()).toBeNull();
    expect(stall.state.order(101)?.jobs.map(({ stage }) => stage)).toEqual(["waiting", "waiting"]);
    expect(stall.state.count("sku:tee.navy.L" as never).spoiled).toBe(0); // a brand for a test's own key
    expect(unspoil()).toMatchObject({ code: "wrong-stage" });
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 66_000);
    expect(stall.state.order(101)?.jobs[0]?.stage).toBe("pressing");
    expect(unspoil()).toMatchObject({ code: "wrong-stage" });
    expectAgreement(stall.state, stall.store);
    expectStockHolds(stall.state);
    expectFloorHolds(stall.state);
    expectAccounts(stall, OPENS + 300_000);
  });

  it("hands the difference back once, before the order is over or after, and takes that back", () => {
    const stall = scorched();
    const give = (undo: boolean) =>
      stall.run({ type: undo ? "undo-given-back" : "given-back", number: 101 }, OPENS + 80_000).refusal;
    const money = () => [stall.state.anyOrder(101)?.giveBack, stall.state.anyOrder(101)?.gaveBack];
    expect(give(false)).toMatchObject({ code: "wrong-stage" });
    stall.run(LEAVE, OPENS + 70_000);
    expect(money()).toEqual([2574, undefined]);
    expect(give(true)).toMatchObject({ code: "wrong-stage" });
    expect(give(false)).toBeNull();
    expect(money()).toEqual([undefined, 2574]);
    expect(give(false)).toMatchObject({ code: "wrong-stage" });
    expect(give(true)).toBeNull();
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 90_000);
    stall.run({ type: "pressed", job: ids.job("101-2") }, OPENS + 100_000);
    stall.run({ type: "closed", number: 101, as: "collected" }, OPENS + 110_000);
    expect(money()).toEqual([2574, undefined]);
    expect(give(false)).toBeNull();
    expect(money()).toEqual([undefined, 2574]);
    expectAgreement(stall.state, stall.store);
    expectAccounts(stall, OPENS + 300_000);
  });

  it("a paid order that was dropped can have its money given back, an unpaid one not", () => {
    const stall = scorched();
    stall.run({ type: "closed", number: 101, as: "dropped", byCustomer: customer("ann") }, OPENS + 70_000);
    expect(stall.run({ type: "closed", number: 101, as: "refunded" }, OPENS + 80_000).refusal).toBeNull();
    stall.run({ type: "undo-closed", number: 101, was: "refunded" }, OPENS + 81_000);
    expect(stall.state.anyOrder(101)?.closed?.as).toBe("dropped");
    expectAgreement(stall.state, stall.store);
  });
});

describe("taking another garment instead of a short one", () => {
  const garment = (colour: string, offer = "longtail-tee") => ({ offer, colour, size: "L" });
  const instead = (wanted: object, other: object): Command =>
    ({ type: "taken-instead", number: 101, wanted, instead: other }) as unknown as Command; // plain ids

  it("keeps number, word, place and sum, moves the sale, and is pressed as any other", () => {
    const stall = scorched();
    const before = stall.state.order(101);
    const { events, refusal } = stall.run(instead(garment("navy"), garment("sand")), OPENS + 70_000);
    expect(refusal).toBeNull();
    expect(events.map(({ type }) => type)).toEqual(["asked", "taken-instead"]);
    const after = stall.state.order(101);
    expect(after).toMatchObject({ word: before?.word, total: 5148, paid: { amount: 5148 } });
    expect(after?.giveBack).toBeUndefined();
    expect(after?.lines.map(({ colour, quantity }) => [colour, quantity])).toEqual([
      ["navy", 0],
      ["sand", 2],
    ]);
    expect(after?.jobs.map(({ n, line, stage }) => [n, line, stage])).toEqual([
      [1, 1, "waiting"],
      [2, 1, "waiting"],
    ]);
    for (const [n, at] of [
      [1, 80_000],
      [2, 140_000],
    ] as const) {
      stall.run({ type: "pull", press: ids.press("A") }, OPENS + at);
      expect(
        stall.run({ type: "pressed", job: ids.job(`101-${n}`) }, OPENS + at + 30_000).refusal,
      ).toBeNull();
    }
    expect(stall.run({ type: "closed", number: 101, as: "collected" }, OPENS + 200_000).refusal).toBeNull();
    expectStockHolds(stall.state);
    expectFloorHolds(stall.state);
    expectAgreement(stall.state, stall.store);
    expectAccounts(stall, OPENS + 300_000);
  });

  it("is refused for what is not short, at another price, beyond what is left, and to a stranger", () => {
    const stall = scorched();
    const at = OPENS + 70_000;
    expect(stall.run(instead(garment("sand"), garment("navy")), at).refusal).toMatchObject({
      needs: "short of it",
    });
    expect(stall.run(instead(garment("navy"), garment("navy")), at).refusal).toMatchObject({
      code: "sold-out",
    });
    const stranger = { ...instead(garment("navy"), garment("sand")), byCustomer: customer("ben") };
    expect(stall.run(stranger as Command, at).refusal).toEqual({ code: "no-such-order", number: 101 });
    const dearer = menu.offers.map((offer) => ({ ...offer, price: offer.price + 100 }));
    const rules = { ...menu.rules, payment: "before-handover", taxPartsPerMillion: 72_500 } as const;
    stall.run({ type: "set-menu", menu: { ...menu, rules, offers: dearer } }, at);
    expect(stall.run(instead(garment("navy"), garment("sand")), at).refusal).toMatchObject({
      needs: "of the price of what is short",
    });
    expectAgreement(stall.state, stall.store);
  });
});
