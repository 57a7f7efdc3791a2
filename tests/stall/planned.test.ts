import { describe, expect, it } from "vitest";
import { Sku } from "../../src/model/basics/ids.ts";
import type { PricedPiece } from "../../src/stall/day/closeout-stock.ts";
import { plannedDay } from "../../src/stall/day/planned.ts";
import { skuKey } from "../../src/stall/state/counts.ts";
import { EMPTY_PIECE } from "../../src/stall/state/day-rows.ts";
import { keptPlan } from "./kept-plan.ts";
import { exampleMenu } from "./test-stall.ts";

const menu = exampleMenu();
const plan = keptPlan({
  owned: { "tee.navy.M": 2 },
  sold: [
    { offer: "longtail-tee", colour: "navy", size: "M", garments: 4 },
    { offer: "longtail-tee", colour: "sand", size: "M", garments: 6 },
  ],
});

/** Ten were there, one was spoiled and six were pressed: three are left. A piece costs 4.00 and keeps 80 % of it. */
const blank: PricedPiece = {
  key: skuKey(Sku.parse("tee.navy.M")),
  row: { ...EMPTY_PIECE, opening: 10, pressed: 6, spoiled: { crooked: 1 } },
  price: { cost: 400, worthPercent: 80 },
  opening: 10,
  left: 3,
};
const sales = {
  choices: [],
  offers: [{ offer: "longtail-tee", name: "Longtail", garments: 7, amount: 0, returned: 1 }],
  colours: [{ colour: "navy", name: "Navy", garments: 7, amount: 0, returned: 1 }],
  sizes: [{ size: "M", name: "M", garments: 7, amount: 0, returned: 1 }],
  hours: [],
  tenders: [],
} as unknown as Parameters<typeof plannedDay>[2]["sales"]; // as an account has it
const day = { sales, profit: 9000, blanks: [blank], transfers: [], waitMinutes: 5, readyLeft: 0 };

describe("a plan beside its day", () => {
  it("has the profit on the plan's basis: bought stock loses in worth, owned stock costs its worth", () => {
    // By hand: 8 bought lose 0.80 each, 7 used cost 3.20 each: 28.80. The account took 7 at 4.00: 28.00.
    expect(plannedDay(plan, menu, day).profit).toEqual({ ...plan.profit, actual: 9000 - 80 });
    // Nothing owned: the three that are left lose 0.80 each.
    expect(plannedDay({ ...plan, owned: {} }, menu, day).profit.actual).toBe(9000 - 240);
    expect(plannedDay(plan, menu, { ...day, profit: null }).profit.actual).toBeNull();
  });

  it("lists what was planned or sold by product, colour and size, what came back taken off", () => {
    const { offers, colours, sizes, garments, spoiled, blanksLeft } = plannedDay(plan, menu, day);
    expect(offers).toEqual([{ offer: "longtail-tee", name: "Longtail tee", planned: 10, sold: 6 }]);
    expect(colours.map(({ colour, planned, sold }) => [colour, planned, sold])).toEqual([
      ["sand", 6, 0],
      ["navy", 4, 6],
    ]);
    expect(sizes).toEqual([{ size: "M", name: "M", planned: 10, sold: 6 }]);
    expect([garments.actual, spoiled.actual, blanksLeft]).toEqual([6, 1, { planned: 3, actual: 3 }]);
  });
});
