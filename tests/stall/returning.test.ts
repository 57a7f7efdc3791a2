import { describe, expect, it } from "vitest";
import { Bundle } from "../../src/model/menu/bundles.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { rackView } from "../../src/stall/calls/counter/rack-view.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { accountDay } from "../../src/stall/state/account-day.ts";
import { carriedRack } from "../../src/stall/stock/rack.ts";
import { ids } from "../ids.ts";
import { accountOf, expectAccounts } from "./account.ts";
import { expectAgreement, expectFloorHolds, expectStockHolds } from "./invariants.ts";
import { customer, exampleMenu, OPENS, placing, type TestStall, testStall } from "./test-stall.ts";

const menu = {
  ...exampleMenu(),
  bundles: [
    Bundle.parse({
      id: "two-tees",
      name: "Any 2 tees",
      price: 4000,
      takes: [{ offers: ["longtail-tee"], quantity: 2 }],
    }),
  ],
};
const STOCK = [
  { sku: "tee.navy.L", counted: 6 },
  { sku: "tee.navy.XL", counted: 2 },
  { sku: "tee.sand.L", counted: 2 },
  { design: "longtail", counted: 12 },
].map((entry) => StockEntry.parse(entry));
const garment = (colour: string, size = "L") => ({ offer: "longtail-tee", colour, size });
const place = (more: object, ...lines: readonly object[]): Command => placing("ann", { lines, ...more });
const exchange = (n: number, instead: object, keeps = true): Command =>
  ({ type: "garment-exchanged", number: 101, n, instead, keeps, chance: 0.3 }) as unknown as Command; // plain ids
const AT = OPENS + 600_000;

/** An order of some garments, paid, pressed, and handed over if it is to be. */
function made(quantity: number, handed: boolean, of = menu): TestStall {
  const stall = testStall(of, STOCK);
  const paid = { paid: { tender: "cash" } };
  stall.run(place(paid, { ...garment("navy"), quantity }), OPENS);
  for (let n = 1; n <= quantity; n++) {
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + n * 60_000);
    stall.run({ type: "pressed", job: ids.job(`101-${n}`) }, OPENS + n * 60_000 + 30_000);
  }
  if (handed) stall.run({ type: "closed", number: 101, as: "collected" }, OPENS + 500_000);
  return stall;
}

/** The stall with a surcharge on XL from now on, in minor units. */
function withXL(stall: TestStall, surcharge: number): TestStall {
  const blanks = menu.blanks.map((blank) => ({
    ...blank,
    sizes: blank.sizes.map((size) => (size.id === "XL" ? { ...size, surcharge } : size)),
  }));
  stall.run({ type: "set-menu", menu: { ...menu, blanks } }, OPENS + 510_000);
  return stall;
}

function expectSound(stall: TestStall): void {
  expectStockHolds(stall.state);
  expectFloorHolds(stall.state);
  expectAgreement(stall.state, stall.store);
  expectAccounts(stall, AT + 900_000);
}

const day = ({ state }: TestStall) => state.dayTotals.get(accountDay(state, OPENS));
const onRack = ({ state }: TestStall) =>
  rackView(state, menu).garments.map(({ key, why, second }) => `${key} ${why}${second ? " second" : ""}`);

describe("a refund by the garment", () => {
  it("gives back each garment's part of bundle and tax, and all of them the whole", () => {
    const stall = made(3, true);
    // $40 for two and $24 for one with 7.25 %: $68.64, which is $22.88 a garment.
    expect(stall.state.anyOrder(101)?.total).toBe(6864);
    const refund = (...jobs: readonly number[]): Command => ({
      type: "garment-refunded",
      number: 101,
      jobs,
      keeps: true,
    });
    expect(stall.run(refund(2), AT).refusal).toBeNull();
    expect(stall.state.anyOrder(101)).toMatchObject({
      total: 4576,
      paid: { amount: 4576 },
      closed: { as: "collected" },
    });
    expect(day(stall)?.takings.cash).toEqual({ payments: 1, amount: 6864, returns: 1, givenBack: 2288 });
    expectSound(stall);
    stall.run(refund(1, 3), AT + 1000);
    expect(stall.state.anyOrder(101)?.closed?.as).toBe("refunded");
    expect(day(stall)?.takings.cash?.givenBack).toBe(6864);
    expect(day(stall)?.taxGivenBack).toBe(day(stall)?.tax);
    expect(onRack(stall)).toEqual(["101-2 returned", "101-1 returned", "101-3 returned"]);
    expectSound(stall);
  });

  it("is refused for what is not pressed, not paid, or over", () => {
    const stall = testStall(menu, STOCK);
    stall.run(place({}, { ...garment("navy"), quantity: 2 }), OPENS);
    const refund: Command = { type: "garment-refunded", number: 101, jobs: [1], keeps: true };
    expect(stall.run(refund, AT).refusal).toMatchObject({ code: "wrong-stage", needs: "pressed" });
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 1000);
    stall.run({ type: "pressed", job: ids.job("101-1") }, OPENS + 60_000);
    expect(stall.run(refund, AT).refusal).toEqual({ code: "not-paid", number: 101 });
    stall.run({ type: "closed", number: 101, as: "dropped" }, AT);
    expect(stall.run(refund, AT).refusal).toMatchObject({ code: "wrong-stage", needs: "open or collected" });
  });
});

describe("an exchange by the garment", () => {
  it("keeps an order that is still here, at the head of the line, and the old garment hangs on the rack", () => {
    const stall = made(2, false);
    stall.run(place({ customer: customer("ben") }, { ...garment("sand"), quantity: 1 }), OPENS + 400_000);
    const before = stall.state.order(101);
    expect(stall.run(exchange(1, garment("navy", "XL")), AT).refusal).toBeNull();
    expect(stall.state.order(101)).toMatchObject({ word: before?.word, readyAt: null, total: 4290 });
    expect(stall.state.orderIndex.waiting.flat.at(0)).toMatchObject({ number: 101, n: 1 });
    expect(onRack(stall)).toEqual(["101-99 exchanged"]);
    stall.run({ type: "pull", press: ids.press("A") }, AT + 1000);
    stall.run({ type: "pressed", job: ids.job("101-1") }, AT + 60_000);
    expect(stall.run({ type: "closed", number: 101, as: "collected" }, AT + 61_000).refusal).toBeNull();
    expectSound(stall);
  });

  it("makes a new order of one that was handed over, with what was paid carried over", () => {
    const stall = made(2, true);
    expect(stall.run(exchange(1, garment("sand")), AT).refusal).toBeNull();
    // Half of the bundle's $42.90 stays with each: the same price costs nothing.
    expect(stall.state.order(102)).toMatchObject({
      exchangeOf: "101-1",
      total: 2145,
      tax: 145,
      paid: { tender: "cash", amount: 2145 },
    });
    expect(stall.state.order(102)).not.toHaveProperty("due");
    expect(stall.state.anyOrder(101)).toMatchObject({ total: 2145, closed: { as: "collected" } });
    expectSound(stall);
    // The last garment of an order exchanges the whole of it.
    stall.run(exchange(2, garment("navy", "XL"), false), AT + 1000);
    expect(stall.state.anyOrder(101)?.closed?.as).toBe("exchanged");
    expect(onRack(stall)).toEqual(["101-1 exchanged"]);
    expectSound(stall);
  });

  it("costs the difference of the two prices, whatever bundle or discount covered the other", () => {
    const dearer = withXL(made(2, true), 300);
    dearer.run(exchange(1, garment("navy", "XL")), AT);
    // $3 more and 7.25 % of that.
    expect(dearer.state.order(102)).toMatchObject({ total: 2467, due: 322 });
    // The one that stays keeps its half too, and what is made instead keeps it in a second exchange.
    dearer.run(exchange(2, garment("sand")), AT + 1000);
    expect(dearer.state.order(103)).toMatchObject({ total: 2145, paid: { amount: 2145 } });
    const again = { ...exchange(1, garment("navy")), number: 103 } as Command; // the same command of another order
    dearer.run({ type: "pull", press: ids.press("A") }, AT + 2000);
    dearer.run({ type: "pressed", job: ids.job("103-1") }, AT + 3000);
    expect(dearer.run(again, AT + 4000).refusal).toBeNull();
    expect(dearer.state.order(103)).toMatchObject({ total: 2145, paid: { amount: 2145 } });
    expect(dearer.state.order(103)).not.toHaveProperty("due");
    expectSound(dearer);
  });

  it("of the same price costs nothing at any rate of tax, in or on the price, and of a gift too", () => {
    for (const taxInPrice of [true, false])
      for (let rate = 0; rate <= 250_000; rate += 7_321) {
        const rules = { ...menu.rules, taxInPrice, taxPartsPerMillion: rate };
        const stall = made(3, true, { ...menu, rules });
        const paid = stall.state.anyOrder(101)?.paid?.amount ?? 0;
        for (const n of [1, 2, 3]) stall.run(exchange(n, garment("navy")), AT + n);
        const made102 = [102, 103, 104].map((number) => stall.state.anyOrder(number));
        expect(made102.map((order) => order?.due ?? order?.giveBack ?? 0)).toEqual([0, 0, 0]);
        expect(made102.reduce((sum, order) => sum + (order?.total ?? 0), 0)).toBe(paid);
      }
    const gift = made(1, false);
    const off = { by: { amount: 2400 }, reason: "gift" } as const;
    gift.run({ type: "discounted", number: 101, jobs: [1], off }, AT);
    gift.run({ type: "given-back", number: 101 }, AT + 1000);
    gift.run({ type: "closed", number: 101, as: "collected" }, AT + 2000);
    expect(gift.run(exchange(1, garment("sand")), AT + 3000).refusal).toBeNull();
    expect(gift.state.order(102)).toMatchObject({
      total: 0,
      lines: [{ lowered: { by: 2400, reason: "gift" } }],
    });
    expectSound(gift);
  });

  it("of the same price changes no sum of an order that is still here, if a bundle covers it or not", () => {
    const stall = made(2, false);
    stall.run({ type: "change-stock", entries: [StockEntry.parse({ design: "kite", counted: 2 })] }, AT);
    const swap = exchange(1, { ...garment("sand"), offer: "red-kite-tee" });
    expect(stall.run(swap, AT).refusal).toBeNull();
    expect(stall.state.order(101)).toMatchObject({ total: 4290, paid: { amount: 4290 } });
    expect(stall.state.order(101)).not.toHaveProperty("due");
    expectSound(stall);
  });

  it("gives nothing up if the other one is gone", () => {
    const stall = made(1, true);
    stall.run({ type: "change-stock", entries: [StockEntry.parse({ sku: "tee.navy.XL", counted: 0 })] }, AT);
    const before = stall.state.anyOrder(101);
    expect(stall.run(exchange(1, garment("navy", "XL")), AT).refusal).toMatchObject({ code: "sold-out" });
    expect(stall.state.anyOrder(101)).toEqual(before);
    expect(onRack(stall)).toEqual([]);
  });
});

describe("an exchange from the rack", () => {
  const undo = (number: number, n = 1): Command => ({ type: "undo-garment-exchanged", number, n });
  /** A paid order of some garments, pressed or handed over, and another size on the rack, dropped by its customer. */
  function hanging(quantity: number, handed: boolean, price = 0): TestStall {
    const stall = made(quantity, handed);
    withXL(stall, price);
    stall.run(
      place({ customer: customer("ben") }, { ...garment("navy", "XL"), quantity: 1 }),
      OPENS + 520_000,
    );
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 530_000);
    stall.run({ type: "pressed", job: ids.job("102-1") }, OPENS + 580_000);
    stall.run({ type: "closed", number: 102, as: "dropped" }, OPENS + 590_000);
    expect(onRack(stall)).toEqual(["102-1 dropped"]);
    return stall;
  }
  const fromRack = (n = 1): Command => exchange(n, { ...garment("navy", "XL"), rack: "102-1" });
  const unsold = (stall: TestStall) =>
    stall.state.dayChoices.under().reduce((sum, [, row]) => sum + row.unsold, 0);
  const free = (stall: TestStall) => stall.state.free("sku:tee.navy.XL" as never); // a brand for a test's own key

  it("is theirs at once, without a press, in an order that is handed over", () => {
    const stall = hanging(1, true);
    const [left, before] = [free(stall), unsold(stall)];
    expect(stall.run(fromRack(), AT).refusal).toBeNull();
    expect(stall.state.anyOrder(103)).toMatchObject({
      exchangeOf: "101-1",
      jobs: [{ stage: "pressed" }],
      total: 2574,
      paid: { amount: 2574 },
      closed: { as: "collected" },
    });
    expect(stall.state.anyOrder(101)?.closed?.as).toBe("exchanged");
    expect(stall.state.anyOrder(102)?.soldOn).toEqual([1]);
    expect([onRack(stall), free(stall), unsold(stall)]).toEqual([["101-1 exchanged"], left, before]);
    expect(stall.state.orderIndex.backlog).toBe(0);
    expectSound(stall);
  });

  it("undone hangs there as it did, and its order may have it again", () => {
    const stall = hanging(1, true);
    const [item, order, before] = [
      stall.state.rack.get("102-1"),
      stall.state.anyOrder(101),
      stall.state.anyOrder(102),
    ];
    const was = unsold(stall);
    stall.run(fromRack(), AT);
    expect(stall.run(undo(103), AT + 1000).refusal).toBeNull();
    expect(stall.state.rack.get("102-1")).toEqual(item);
    expect([stall.state.anyOrder(101), stall.state.anyOrder(102)]).toEqual([order, before]);
    expect([onRack(stall), unsold(stall)]).toEqual([["102-1 dropped"], was]);
    expect(stall.state.anyOrder(103)).toMatchObject({ closed: { as: "dropped" }, paid: null });
    // The garment of the undone order hangs elsewhere: that order cannot come back.
    const again: Command = { type: "undo-closed", number: 103, was: "dropped" };
    expect(stall.run(again, AT + 2000).refusal).toMatchObject({ needs: "exchanged once more" });
    expect(stall.run({ ...again, number: 102 }, AT + 3000).refusal).toBeNull();
    expectSound(stall);
  });

  it("waits for the difference if it costs more, and owes it if it costs less", () => {
    const dearer = hanging(1, true, 300);
    dearer.run(fromRack(), AT);
    expect(dearer.state.order(103)).toMatchObject({ total: 2896, due: 322, readyAt: AT });
    expect(dearer.run({ type: "paid", number: 103, tender: "cash" }, AT).refusal).toBeNull();
    expect(dearer.run({ type: "closed", number: 103, as: "collected" }, AT).refusal).toBeNull();
    const cheaper = hanging(1, true, -300);
    cheaper.run(fromRack(), AT);
    expect(cheaper.state.anyOrder(103)).toMatchObject({
      total: 2252,
      giveBack: 322,
      closed: { as: "collected" },
    });
    const owed = () => rackView(cheaper.state, menu).owed.map(({ number }) => number);
    expect(owed()).toEqual([103]);
    expect(cheaper.run(undo(103), AT + 1000).refusal).toBeNull();
    expect(owed()).toEqual([]);
    cheaper.run(fromRack(), AT + 2000);
    expect(cheaper.run({ type: "given-back", number: 104 }, AT + 3000).refusal).toBeNull();
    expect([owed(), cheaper.run(undo(104), AT + 4000).refusal]).toMatchObject([[], { code: "wrong-stage" }]);
    for (const stall of [dearer, cheaper]) expectSound(stall);
  });

  it("leaves an order that is still here as ready as it was, and is undone there too", () => {
    const stall = hanging(2, false);
    const order = stall.state.order(101);
    expect(stall.run(fromRack(), AT).refusal).toBeNull();
    expect(stall.state.order(101)).toMatchObject({ readyAt: order?.readyAt, total: 4290 });
    expect(onRack(stall)).toEqual(["101-99 exchanged"]);
    expect(stall.run(undo(101), AT + 1000).refusal).toBeNull();
    expect(stall.state.order(101)?.jobs).toEqual(order?.jobs);
    expect(onRack(stall)).toEqual(["102-1 dropped"]);
    expectSound(stall);
    stall.run(fromRack(), AT + 2000);
    expect(stall.run({ type: "closed", number: 101, as: "collected" }, AT + 3000).refusal).toBeNull();
    expectSound(stall);
  });

  it("is refused for what is not for sale there, and gives nothing up", () => {
    const stall = hanging(2, true);
    const before = stall.state.anyOrder(101);
    const other = exchange(1, { ...garment("sand"), rack: "102-1" });
    const refused = { needs: "on the rack, and for sale" };
    expect(stall.run(other, AT).refusal).toMatchObject(refused);
    expect(stall.state.anyOrder(101)).toEqual(before);
    stall.run(fromRack(), AT + 1000);
    expect(stall.run(fromRack(2), AT + 2000).refusal).toMatchObject(refused);
    expectSound(stall);
  });

  it("of what was sold from the rack before counts nobody's wait twice", () => {
    const stall = hanging(1, false);
    const kept = day(stall)?.kept;
    const sold = { ...garment("navy", "XL"), quantity: 1, rack: "102-1" };
    stall.run(place({ customer: customer("cat"), paid: { tender: "cash" } }, sold), AT);
    stall.run(
      {
        type: "garment-exchanged",
        number: 103,
        n: 1,
        instead: garment("navy"),
        keeps: true,
        chance: 0.3,
      } as unknown as Command, // plain ids
      AT + 1000,
    );
    expect(day(stall)?.kept).toBe(kept);
    expect(stall.run(undo(103), AT + 2000).refusal).toBeNull();
    expect([day(stall)?.kept, stall.state.order(103)?.readyAt]).toEqual([kept, AT + 2000]);
    expectSound(stall);
  });
});

describe("undoing what came back", () => {
  const refund = (...jobs: readonly number[]): Command => ({
    type: "garment-refunded",
    number: 101,
    jobs,
    keeps: true,
  });
  const undoRefund: Command = { type: "undo-garment-refunded", number: 101, jobs: [2] };
  const undoExchange = (number: number, n = 1): Command => ({ type: "undo-garment-exchanged", number, n });
  const money = (stall: TestStall) => {
    const { takings, tax, taxGivenBack, difference, differenceGivenBack, drawer } = day(stall) ?? {};
    const choices = stall.state.dayChoices
      .under()
      .map(([key, { amount, givenBack, garments, returned, unsold }]) => [
        key,
        amount - givenBack,
        garments - returned,
        unsold,
      ]);
    const taken = Object.values(takings ?? {}).reduce((sum, row) => sum + row.amount - row.givenBack, 0);
    const tender = drawer?.moves.cash;
    return {
      taken,
      tax: (tax ?? 0) - (taxGivenBack ?? 0),
      difference: (difference ?? 0) - (differenceGivenBack ?? 0),
      drawer: (tender?.in ?? 0) - (tender?.out ?? 0),
      choices,
    };
  };
  /** The same stall with its drawer opened before the first sale. */
  function counted(quantity: number, handed: boolean): TestStall {
    const stall = made(quantity, handed);
    stall.run({ type: "float-set", amount: 10_000 }, AT - 1000);
    return stall;
  }

  it.each([true, false])(
    "gives a refunded garment and its money back to its order, to the cent",
    (handed) => {
      const stall = counted(3, handed);
      const [order, account] = [stall.state.anyOrder(101), money(stall)];
      stall.run(refund(2), AT);
      expect(stall.run(undoRefund, AT + 1000).refusal).toBeNull();
      expect(stall.state.anyOrder(101)).toEqual(order);
      expect(money(stall)).toEqual(account);
      expect(onRack(stall)).toEqual([]);
      expectSound(stall);
      expect(stall.run(undoRefund, AT + 2000).refusal).toMatchObject({ code: "wrong-stage" });
    },
  );

  it("of a refund is refused once the garment is sold or gone", () => {
    const stall = made(3, true);
    stall.run(refund(2), AT);
    stall.run({ type: "unracked", key: ids.job("101-2"), as: "thrown" }, AT + 1000);
    expect(stall.run(undoRefund, AT + 2000).refusal).toMatchObject({ stage: "off the rack" });
    expectSound(stall);
  });

  it("makes an order that is still here what it was, if the other one is not on a press yet", () => {
    const stall = counted(2, false);
    const [order, account] = [stall.state.anyOrder(101), money(stall)];
    const free = stall.state.free("sku:tee.navy.XL" as never); // a brand for a test's own key
    stall.run(exchange(1, garment("navy", "XL")), AT);
    expect(stall.run(undoExchange(101), AT + 1000).refusal).toBeNull();
    const { lines, readyAt, ...after } = stall.state.order(101) ?? {};
    expect([{ lines: lines?.filter(({ quantity }) => quantity > 0), ...after }, readyAt]).toEqual([
      { ...order, readyAt: undefined },
      AT + 1000,
    ]);
    expect(stall.state.free("sku:tee.navy.XL" as never)).toBe(free); // as above
    expect(money(stall)).toMatchObject({ taken: account.taken, drawer: account.drawer });
    expect(onRack(stall)).toEqual([]);
    expectSound(stall);
    stall.run(exchange(1, garment("navy", "XL")), AT + 2000);
    stall.run({ type: "pull", press: ids.press("A") }, AT + 3000);
    expect(stall.run(undoExchange(101), AT + 4000).refusal).toMatchObject({ stage: "pressing" });
    expectSound(stall);
  });

  it.each([1, 2])(
    "ends the order made for one of %i that were handed over, and carries its money back",
    (n) => {
      const stall = counted(n, true);
      const [order, account] = [stall.state.anyOrder(101), money(stall)];
      stall.run(exchange(1, garment("sand")), AT);
      expect(stall.run(undoExchange(102), AT + 1000).refusal).toBeNull();
      expect(stall.state.anyOrder(101)).toEqual(order);
      expect(stall.state.anyOrder(102)).toMatchObject({ closed: { as: "dropped" }, paid: null });
      expect(money(stall)).toMatchObject({
        taken: account.taken,
        tax: account.tax,
        difference: account.difference,
        drawer: account.drawer,
      });
      expect(onRack(stall)).toEqual([]);
      expect(rackView(stall.state, menu).owed).toEqual([]);
      expectSound(stall);
    },
  );

  it("of an exchange is refused once its difference was paid, or by the order that was exchanged", () => {
    const stall = withXL(made(2, true), 300);
    stall.run(exchange(1, garment("navy", "XL")), AT);
    stall.run({ type: "paid", number: 102, tender: "card" }, AT + 1000);
    expect(stall.run(undoExchange(102), AT + 2000).refusal).toMatchObject({ stage: "changed or paid since" });
    const lone = made(1, true);
    lone.run(exchange(1, garment("sand")), AT);
    const undo: Command = { type: "undo-closed", number: 101, was: "exchanged" };
    expect(lone.run(undo, AT + 1000).refusal).toMatchObject({ needs: "undone from that order" });
    expectSound(stall);
  });
});

describe("the rack", () => {
  const buy = (rack: string, more: object = { paid: { tender: "cash" } }) =>
    place({ customer: customer("cat"), ...more }, { ...garment("navy"), quantity: 1, rack });

  it("sells what an order left without a press, once", () => {
    const stall = made(2, false);
    stall.run({ type: "closed", number: 101, as: "dropped" }, AT);
    expect(onRack(stall)).toEqual(["101-1 dropped", "101-2 dropped"]);
    const left = stall.state.free("sku:tee.navy.L" as never); // a brand for a test's own key
    expect(stall.run(buy("101-2"), AT).refusal).toBeNull();
    expect(stall.state.order(102)).toMatchObject({ readyAt: AT, total: 2574 });
    expect(stall.state.free("sku:tee.navy.L" as never)).toBe(left); // as above
    expect(stall.run(buy("101-2"), AT).refusal).toMatchObject({ code: "wrong-stage" });
    expect(stall.run({ type: "undo-pressed", job: ids.job("102-1") }, AT).refusal).toMatchObject({
      stage: "of the rack",
    });
    expect(stall.run({ type: "undo-closed", number: 101, was: "dropped" }, AT).refusal).toMatchObject({
      needs: "still here",
    });
    expect(stall.run({ type: "closed", number: 102, as: "collected" }, AT + 1000).refusal).toBeNull();
    expectSound(stall);
  });

  it("does not call an order ready again whose garment was thrown away from the rack since", () => {
    const stall = made(1, false);
    const undo: Command = { type: "undo-closed", number: 101, was: "dropped" };
    // The tap that threw it away at once is undone as a whole: the garment is still in the hand.
    stall.run({ type: "closed", number: 101, as: "dropped", keeps: false }, AT);
    expect(stall.run(undo, AT + 1000).refusal).toBeNull();
    stall.run({ type: "closed", number: 101, as: "dropped" }, AT + 2000);
    stall.run({ type: "unracked", key: ids.job("101-1"), as: "thrown" }, AT + 3000);
    expect(stall.run(undo, AT + 4000).refusal).toMatchObject({ code: "wrong-stage", needs: "still here" });
    expectSound(stall);
  });

  it("owes a paid order that was dropped its money until that is given back", () => {
    const stall = made(1, false);
    stall.run({ type: "closed", number: 101, as: "dropped" }, AT);
    expect(rackView(stall.state, menu).owed).toEqual([
      { number: 101, amount: { amount: 2574, currency: "USD" } },
    ]);
    stall.run({ type: "closed", number: 101, as: "refunded" }, AT + 1000);
    expect(rackView(stall.state, menu).owed).toEqual([]);
    stall.run({ type: "undo-closed", number: 101, was: "refunded" }, AT + 2000);
    expect(rackView(stall.state, menu).owed).toHaveLength(1);
    stall.run({ type: "undo-closed", number: 101, was: "dropped" }, AT + 3000);
    expect([rackView(stall.state, menu).owed, onRack(stall)]).toEqual([[], []]);
    expectSound(stall);
  });

  it("keeps a paid garment that was not fetched for its customer, until it is released or the day closes", () => {
    const stall = made(1, false);
    stall.run({ type: "closed", number: 101, as: "uncollected" }, AT);
    expect(rackView(stall.state, menu).garments[0]).toMatchObject({ keptFor: 101, why: "uncollected" });
    expect(stall.run(buy("101-1"), AT).refusal).toMatchObject({ stage: "not for sale" });
    stall.run({ type: "unracked", key: ids.job("101-1"), as: "released" }, AT);
    expect(stall.run(buy("101-1"), AT).refusal).toBeNull();
    const other = made(1, false);
    other.run({ type: "closed", number: 101, as: "uncollected" }, AT);
    other.run({ type: "close-day", day: accountDay(other.state, AT) }, AT + 1000);
    expect(rackView(other.state, menu).garments[0]?.keptFor).toBeNull();
    expectSound(stall);
    expectSound(other);
  });

  it("takes a garment pressed in the wrong size as good, and one that is crooked as a second", () => {
    const stall = testStall(menu, STOCK);
    stall.run(place({}, { ...garment("navy"), quantity: 1 }), OPENS);
    const spoil = (reason: string, rack: object): Command =>
      ({ type: "spoiled", job: "101-1", lost: "both", reason, rack }) as unknown as Command; // plain ids
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 1000);
    stall.run(spoil("wrong-size", { size: "XL" }), OPENS + 60_000);
    expect(onRack(stall)).toEqual(["101-99 wrong-size"]);
    // An XL was used, and the L is still there.
    const hand = (sku: string) => stall.state.free(`sku:tee.navy.${sku}` as never); // as above
    expect([hand("L"), hand("XL")]).toEqual([5, 1]);
    expect(stall.run({ type: "undo-spoiled", job: ids.job("101-1") }, OPENS + 61_000).refusal).toBeNull();
    expect([onRack(stall), hand("L"), hand("XL")]).toEqual([[], 5, 2]);
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 62_000);
    stall.run(spoil("crooked", {}), OPENS + 120_000);
    expect(onRack(stall)).toEqual(["101-99 misprint second"]);
    expectSound(stall);
  });

  it("sells a misprint at the price of a second, and takes it back as one", () => {
    const rules = { ...menu.rules, secondsPartsPerMillionOff: 333_333 };
    const stall = testStall({ ...menu, rules }, STOCK);
    stall.run(place({}, { ...garment("navy"), quantity: 1 }), OPENS);
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 1000);
    const spoiled = { type: "spoiled", job: "101-1", lost: "both", reason: "crooked", rack: {} };
    stall.run(spoiled as unknown as Command, OPENS + 60_000); // plain ids
    // A third off $24.00 is $8.00, and 7.25 % of the rest is $1.16.
    expect(stall.run(buy("101-99"), AT).refusal).toBeNull();
    expect(stall.state.order(102)).toMatchObject({
      total: 1716,
      tax: 116,
      lines: [{ each: 1600, asSecond: 800 }],
    });
    expect(accountOf(stall, "2027-06-12", AT).waste.seconds).toEqual({ garments: 1, less: 800 });
    stall.run({ type: "closed", number: 102, as: "collected" }, AT + 1000);
    // Exchanged for a good one just like it, that has today's full price.
    expect(
      stall.run({ ...exchange(1, garment("navy")), number: 102 } as Command, AT + 2000).refusal,
    ).toBeNull();
    expect(stall.state.order(103)).toMatchObject({ total: 2574, carried: 1716, due: 858 });
    expect(onRack(stall)).toEqual(["102-1 misprint second"]);
    expectSound(stall);
  });

  it("goes to the next fair, where its garments are sold like its own", () => {
    const stall = made(1, false);
    stall.run({ type: "closed", number: 101, as: "uncollected" }, AT);
    const next = testStall(menu, STOCK);
    const garments = carriedRack(stall.state);
    expect(next.run({ type: "bring-rack", garments }, OPENS).refusal).toBeNull();
    const [brought] = rackView(next.state, menu).garments;
    expect(brought).toMatchObject({ why: "brought", keptFor: null, offer: "longtail-tee", size: "L" });
    expect(carriedRack(next.state)).toEqual(garments);
    expect(next.run(buy(brought?.key ?? ""), OPENS + 1000).refusal).toBeNull();
    expect(next.run({ type: "closed", number: 101, as: "collected" }, OPENS + 2000).refusal).toBeNull();
    expect(onRack(next)).toEqual([]);
    expectSound(next);
  });

  it("takes no blank of another size off the count that lies on a press", () => {
    const stall = testStall(menu, STOCK);
    const [A, B] = [ids.press("A"), ids.press("B")];
    const spoil = { type: "spoiled", job: "101-1", lost: "both", reason: "wrong-size", rack: { size: "XL" } };
    stall.run(place({}, { ...garment("navy"), quantity: 1 }), OPENS);
    stall.run(place({}, { ...garment("navy", "XL"), quantity: 2 }), OPENS);
    stall.run({ type: "pull", press: A }, OPENS + 1000);
    stall.run({ type: "pull", press: B }, OPENS + 1000);
    // Of the two XL one lies on B; the other is in line and gives its blank up.
    stall.run(spoil as unknown as Command, OPENS + 60_000); // plain ids
    expect(stall.state.order(102)?.jobs.map(({ stage }) => stage)).toEqual(["pressing", "short"]);
    stall.run({ type: "pull", press: A }, OPENS + 61_000);
    // Now the only XL lies on B.
    expect(stall.run(spoil as unknown as Command, OPENS + 120_000).refusal).toBeNull(); // plain ids
    expect(stall.state.order(102)?.jobs[0]?.stage).toBe("pressing");
    expectSound(stall);
  });
});
