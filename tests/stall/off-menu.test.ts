import { describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { queueView } from "../../src/stall/calls/queue-view.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { leftOf, offerParts } from "../../src/stall/stock/offers.ts";
import { ids } from "../ids.ts";
import { customer, exampleMenu, OPENS, testStall } from "./test-stall.ts";

const menu = exampleMenu();
const STOCK = [
  { sku: "tee.navy.L", counted: 2 },
  { sku: "tee.sand.L", counted: 2 },
  { design: "longtail", counted: 9 },
].map((entry) => StockEntry.parse(entry));
const piece = (sku: string, off: boolean): Command =>
  ({ type: "set-off-menu", piece: `sku:${sku}`, off }) as unknown as Command; // plain ids
const OFF = piece("tee.navy.L", true);
const wish = (type: "hold" | "place", takenBy: string, name: string): Command =>
  ({
    type,
    customer: customer(name),
    takenBy,
    lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }],
    asks: [0],
    chance: 0,
  }) as unknown as Command; // plain ids

describe("a blank taken off the menu", () => {
  it("is promised to nobody new, whatever is there, until it is put back", () => {
    const stall = testStall(menu, STOCK);
    stall.run(OFF, OPENS);
    const choice = offerParts(menu, ids.offer("longtail-tee"));
    if (choice === undefined) throw new Error("the example has the offer");
    expect(leftOf(stall.state, choice).map(({ colour }) => colour)).toEqual(["sand"]);
    expect(stall.run(wish("place", "text", "ann"), OPENS).refusal).toMatchObject({
      code: "sold-out",
      left: [{ colour: "sand", size: "L", free: 2 }],
    });
    expect(stall.run(wish("place", "counter", "ann"), OPENS).refusal).toMatchObject({ code: "sold-out" });
    const view = queueView(stall.state, menu, OPENS);
    expect(view.offMenu).toEqual(["tee.navy.L"]);
    expect(view.low.map(({ sku }) => sku)).not.toContain("tee.navy.L");
    stall.run(piece("tee.navy.L", false), OPENS);
    expect(stall.run(wish("place", "text", "ann"), OPENS).refusal).toBeNull();
    stall.evict();
    expect(stall.state.status.offMenu).toEqual([]);
  });

  it("still goes to whoever was asked to confirm, and to what was taken on paper", () => {
    const stall = testStall(menu, STOCK);
    stall.run(wish("hold", "text", "ann"), OPENS);
    stall.run(OFF, OPENS);
    expect(stall.run(wish("place", "text", "ann"), OPENS).refusal).toBeNull();
    const paper = { ...wish("place", "paper", "ben"), paper: { number: 900, takenAt: OPENS } } as Command;
    expect(stall.run(paper, OPENS).refusal).toBeNull();
  });

  it("is refused if the menu has no such piece", () => {
    const stall = testStall(menu, STOCK);
    expect(stall.run(piece("tee.pink.L", true), OPENS).refusal).toMatchObject({ code: "stock" });
  });
});
