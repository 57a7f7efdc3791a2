/** When the chime rings: for an order that has joined the line, paid if payment comes first. */

import { describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { joined } from "../../src/screens/client/sound/new-orders.ts";
import { queueView } from "../../src/stall/calls/queue-view.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { ids } from "../ids.ts";
import { customer, exampleMenu, OPENS, testStall } from "../stall/test-stall.ts";

const example = exampleMenu();
const menu = { ...example, rules: { ...example.rules, payment: "before-pressing" as const } };

describe("the chime for new orders", () => {
  it("rings once for each paid order, and for nothing that only moves in the line", () => {
    const stock = [
      { sku: "tee.navy.L", counted: 9 },
      { design: "longtail", counted: 9 },
    ];
    const stall = testStall(
      menu,
      stock.map((entry) => StockEntry.parse(entry)),
    );
    let before: number | undefined;
    const look = (): readonly [isNew: boolean, number: number | undefined] => {
      const { newest } = queueView(stall.state, menu, OPENS);
      const { last, isNew } = joined(before, newest);
      before = last;
      return [isNew, newest?.number];
    };
    const run = (command: object): void => {
      expect(stall.run(command as Command, OPENS).refusal).toBeNull(); // plain ids
    };
    const place = (name: string): void =>
      run({
        type: "place",
        takenBy: "counter",
        chance: 0,
        asks: [],
        customer: customer(name),
        lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }],
      });
    const pay = (number: number): void => run({ type: "paid", number, tender: "cash" });
    place("ann");
    pay(101);
    // What is there when the page opens is no news.
    expect(look()).toEqual([false, 101]);
    place("ben");
    place("cat");
    expect(look()).toEqual([false, 101]);
    pay(103);
    expect(look()).toEqual([true, 103]);
    expect(look()).toEqual([false, 103]);
    run({ type: "closed", number: 103, as: "dropped" });
    expect(look()).toEqual([false, 101]);
    run({ type: "pull", press: ids.press("A") });
    run({ type: "spoiled", job: "101-1", lost: "both", reason: "crooked" });
    run({ type: "pull", press: ids.press("A") });
    run({ type: "pressed", job: "101-1" });
    expect(look()).toEqual([false, undefined]);
    pay(102);
    expect(look()).toEqual([true, 102]);
  });
});
