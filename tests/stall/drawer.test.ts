import { describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { drawerOf } from "../../src/stall/day/drawer.ts";
import { noteTakers } from "../../src/stall/messages/takers.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { accountDay } from "../../src/stall/state/account-day.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { ids } from "../ids.ts";
import { expectAccounts, expectDrawer } from "./account.ts";
import { expectAgreement } from "./invariants.ts";
import { exampleMenu, OPENS, placing, type TestStall, testStall } from "./test-stall.ts";

const menu = { ...exampleMenu(), rules: { ...exampleMenu().rules, taxPartsPerMillion: 0 } };
const STOCK = [
  { sku: "tee.navy.L", counted: 9 },
  { design: "longtail", counted: 9 },
].map((entry) => StockEntry.parse(entry));
const place = (name: string, paid: object): Command => placing(name, { paid });

const drawer = ({ state }: TestStall) =>
  drawerOf(state, state.dayTotals.get(accountDay(state, OPENS))?.drawer);

describe("the drawer", () => {
  it("is what was in it, came in, went out and was paid out; card and tips stand apart", () => {
    const stall = testStall(menu, STOCK);
    expect(drawer(stall)).toBeNull();
    stall.run({ type: "float-set", amount: 10_000 }, OPENS);
    stall.run(place("ann", { tender: "cash", tip: 100 }), OPENS);
    stall.run(place("ben", { tender: "card" }), OPENS);
    const parts = [
      { tender: "cash", amount: 1000 },
      { tender: "card", amount: 1400 },
    ];
    stall.run(place("cat", { tender: "cash", parts }), OPENS);
    stall.run({ type: "paid-out", amount: 700, reason: "supplies" }, OPENS);
    expect(drawer(stall)).toMatchObject({
      expected: 10_000 + 2400 + 100 + 1000 - 700,
      tenders: [
        { tender: "cash", in: 3500, out: 0, tips: 100 },
        { tender: "card", in: 3800, out: 0, tips: 0 },
      ],
    });
    stall.run({ type: "closed", number: 101, as: "dropped" }, OPENS);
    expect(drawer(stall)).toMatchObject({ expected: 12_800, owed: [{ number: 101, amount: 2400 }] });
    stall.run({ type: "closed", number: 101, as: "refunded" }, OPENS);
    expect(drawer(stall)).toMatchObject({ expected: 10_400, owed: [] });
    stall.run({ type: "undo-closed", number: 101, was: "refunded" }, OPENS);
    expect(drawer(stall)).toMatchObject({ expected: 12_800, owed: [{ number: 101 }] });
    expectDrawer(stall);
    expectAgreement(stall.state, stall.store);
    expectAccounts(stall, OPENS + 60_000);
  });

  it("is handed over as it was counted, with the difference said once", () => {
    const stall = testStall(menu, STOCK);
    stall.run({ type: "float-set", amount: 5000 }, OPENS);
    stall.run(place("ann", { tender: "cash" }), OPENS);
    stall.run({ type: "drawer-counted", counted: 7350, handOver: true }, OPENS + 1000);
    expect(drawer(stall)).toMatchObject({
      expected: 7350,
      counts: [{ counted: 7350, expected: 7400, difference: -50, handOver: true }],
    });
    stall.run(place("ben", { tender: "cash" }), OPENS + 2000);
    stall.run({ type: "drawer-counted", counted: 9750, handOver: false }, OPENS + 3000);
    expect(drawer(stall)?.counts.at(-1)).toMatchObject({ difference: 0 });
    expectAgreement(stall.state, stall.store);
  });

  it("moves no money for what an exchange carries over", () => {
    const stall = testStall(menu, STOCK);
    stall.run({ type: "float-set", amount: 0 }, OPENS);
    stall.run(place("ann", { tender: "cash" }), OPENS);
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 1000);
    stall.run({ type: "pressed", job: ids.job("101-1") }, OPENS + 60_000);
    stall.run({ type: "closed", number: 101, as: "collected" }, OPENS + 61_000);
    const instead = { offer: "longtail-tee", colour: "navy", size: "L" };
    stall.run(
      { type: "garment-exchanged", number: 101, n: 1, instead, keeps: true, chance: 0 } as unknown as Command, // plain ids
      OPENS + 62_000,
    );
    expect(stall.state.order(102)?.paid).toMatchObject({ tender: "cash", amount: 2400 });
    expect(drawer(stall)).toMatchObject({ expected: 2400, tenders: [{ in: 2400, out: 0 }] });
    expectDrawer(stall);
    expectAgreement(stall.state, stall.store);
    expectAccounts(stall, OPENS + 90_000);
  });

  it("says who took what, in the people's rows only, and takes it back with the payment", () => {
    const unit = new UnitOfWork(testStall(menu, STOCK).store);
    const paid = {
      type: "paid",
      number: 101,
      tender: "cash",
      amount: 2400,
      tip: 100,
      dueBy: 0,
      turn: 0,
    } as const;
    noteTakers(unit, [paid], "MAYA", OPENS);
    noteTakers(unit, [{ ...paid, number: 102, tender: "card", tip: 0 }], "MAYA", OPENS);
    const day = accountDay(unit.state, OPENS);
    expect(unit.people.takers.get(day)).toEqual({ MAYA: { cash: 2500, card: 2400 } });
    noteTakers(unit, [{ type: "undo-paid", number: 101, leavesLine: false }], null, OPENS);
    expect(unit.people.takers.get(day)).toEqual({ MAYA: { cash: 0, card: 2400 } });
    const rows = unit.drain().filter(([, row]) => JSON.stringify(row)?.includes("MAYA"));
    expect(rows.map(([key]) => key.split(":")[0]).sort()).toEqual(["at-order", "taker"]);
  });
});
