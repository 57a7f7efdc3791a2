/**
 * Worked examples of the single-period stock problem, put to the public plan function as offers whose
 * demand is stated. Sources: Cachon & Terwiesch, Matching Supply with Demand; Nahmias & Olsen, Production
 * and Operations Analysis, 7th ed., ch. 5; Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed.,
 * ch. 4; IEOR lecture notes (NeoPrimate/IEOR, newsvendor/capacity_constrained).
 */
import { describe, expect, it } from "vitest";
import type { StatedDemand } from "../../src/model/planning/plan-given.ts";
import type { PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import { planned } from "../planning/planned.ts";

type Item = {
  readonly price: number;
  readonly cost: number;
  readonly worth: number;
  readonly demand: StatedDemand;
  readonly exactly?: number;
};

function stallOf(items: readonly Item[], budget?: number): PlanRequestSent {
  return {
    scenarios: 100,
    blanks: items.map(({ cost, worth }, at) => ({
      id: `item-${at + 1}`,
      cost,
      leftoverWorth: worth / cost,
      colours: [{ id: "only", share: 1 }],
      sizes: [{ id: "one", share: 1 }],
    })),
    skus: items.flatMap(({ exactly }, at) =>
      exactly === undefined ? [] : [{ sku: `item-${at + 1}.only.one`, minimum: exactly, maximum: exactly }],
    ),
    offers: items.map(({ price, demand }, at) => ({
      id: `offer-${at + 1}`,
      blank: `item-${at + 1}`,
      price,
      demand,
    })),
    ...(budget === undefined ? {} : { limits: { budget } }),
  };
}

function stated(item: Item) {
  const line = planned(stallOf([item])).stated[0];
  if (line === undefined) throw new Error("the offer was not planned by itself");
  return { ...line, expectedProfit: line.expectedProfit / 100 };
}

describe("Cachon & Terwiesch", () => {
  const wetsuit = {
    price: 190,
    cost: 110,
    worth: 90,
    demand: { kind: "normal", mean: 3192, deviation: 1181 },
  } as const;
  const book = {
    price: 20,
    cost: 12,
    worth: 8,
    demand: { kind: "normal", mean: 200, deviation: 80 },
  } as const;
  const basket = { price: 55, cost: 32, worth: 20, demand: { kind: "poisson", mean: 4.5 } } as const;
  const table = {
    price: 12,
    cost: 6,
    worth: 2.5,
    demand: {
      kind: "table",
      rows: [
        0.0181, 0.0733, 0.1467, 0.1954, 0.1954, 0.1563, 0.1042, 0.0595, 0.0298, 0.0132, 0.0053, 0.0019,
        0.0006, 0.0002, 0.0001,
      ].map((chance, at) => ({ garments: 5000 * (at + 1), chance })),
    },
  } as const;

  it("the wetsuit: 4186 of them, 222 296.50", () => {
    const line = stated(wetsuit);
    expect(line.criticalRatio).toBeCloseTo(0.8, 9);
    expect(line.exactQuantity).toBeCloseTo(4185.95, 2);
    expect(line.quantity).toBe(4186);
    expect(line.expectedProfit).toBeCloseTo(222_296.5, 1);
    expect(line.expectedSold).toBeCloseTo(3060.16, 1);
    expect(line.expectedUnmet).toBeCloseTo(131.84, 1);
    expect(line.expectedLeftOver).toBeCloseTo(1125.84, 1);
  });

  it("the second order: underage 22, overage 20, 3263 of them", () => {
    const line = stated({ price: 42, cost: 20, worth: 0, demand: wetsuit.demand });
    expect(line.criticalRatio).toBeCloseTo(0.52381, 5);
    expect(line.quantity).toBe(3263);
  });

  it("the bookshop: 234 of them; 300 would earn 1151.44", () => {
    const line = stated(book);
    expect(line.criticalRatio).toBeCloseTo(2 / 3, 9);
    expect(line.exactQuantity).toBeCloseTo(234.458, 3);
    expect(line.quantity).toBe(234);
    expect(stated({ ...book, exactly: 300 }).expectedProfit).toBeCloseTo(1151.44, 2);
    expect(1 - stated({ ...book, exactly: 400 }).oddsEnough).toBeCloseTo(0.00621, 5);
  });

  it("the tea basket, Poisson: 5 of them", () => {
    const line = stated(basket);
    expect(line.criticalRatio).toBeCloseTo(0.657143, 6);
    expect(line.quantity).toBe(5);
    expect(stated({ ...basket, exactly: 4 }).expectedSold).toBeCloseTo(3.411917, 6);
    expect(stated({ ...basket, exactly: 6 }).expectedLeftOver).toBeCloseTo(1.823117, 6);
    expect(stated({ ...basket, exactly: 7 }).oddsEnough).toBeCloseTo(0.913414, 6);
    expect(stated({ ...basket, exactly: 8 }).expectedProfit).toBeCloseTo(59.134678, 5);
    expect(1 - stated({ ...basket, exactly: 3 }).oddsEnough).toBeCloseTo(0.657704, 6);
  });

  it("the discrete table: 30 000 of them", () => {
    const line = stated(table);
    expect(line.criticalRatio).toBeCloseTo(0.631579, 6);
    expect(line.quantity).toBe(30_000);
    expect(line.oddsEnough).toBeCloseTo(0.7852, 4);
    expect(stated({ ...table, exactly: 50_000 }).expectedLeftOver).toBeCloseTo(25_061, 0);
    expect(stated({ ...table, exactly: 75_000 }).expectedProfit).toBeCloseTo(-25_000, 0);
  });
});

describe("Nahmias & Olsen, the newsstand", () => {
  const weeks = [
    15, 19, 9, 12, 9, 22, 4, 7, 8, 11, 14, 11, 6, 11, 9, 18, 10, 0, 14, 12, 8, 9, 5, 4, 4, 17, 18, 14, 15, 8,
    6, 7, 12, 15, 15, 19, 9, 10, 9, 16, 8, 11, 11, 18, 15, 17, 19, 14, 14, 17, 13, 12,
  ];
  const prices = { price: 75, cost: 25, worth: 10 };

  it("normal demand: 15.22, so 15", () => {
    const line = stated({ ...prices, demand: { kind: "normal", mean: 11.7308, deviation: 4.7408 } });
    expect(line.criticalRatio).toBeCloseTo(0.769231, 6);
    expect(line.exactQuantity).toBeCloseTo(15.22, 2);
    expect(line.quantity).toBe(15);
    expect(line.expectedProfit).toBeCloseTo(492.69, 0);
  });

  it("52 observed weeks: 15, and the profit of 13 to 16", () => {
    const demand = { kind: "observed", days: weeks } as const;
    const line = stated({ ...prices, demand });
    expect(line.quantity).toBe(15);
    expect(line.oddsEnough).toBeCloseTo(0.7885, 4);
    const profits = [13, 14, 15, 16].map((exactly) => stated({ ...prices, demand, exactly }).expectedProfit);
    expect(profits.map((profit) => Math.round(profit * 100) / 100)).toEqual([477.5, 488.75, 493.75, 492.5]);
  });
});

describe("Snyder & Shen", () => {
  it("example 4.2 and 4.3: N(50, 8), 56.60395592743389", () => {
    const item = {
      price: 1,
      cost: 0.3,
      worth: 0.12,
      demand: { kind: "normal", mean: 50, deviation: 8 },
    } as const;
    const line = stated(item);
    expect(line.exactQuantity).toBeCloseTo(56.60395592743389, 8);
    // Whole pieces: the profit of 57 lies just under the book's 33.002394806823354 for 56.604.
    expect(line.quantity).toBe(57);
    expect(line.expectedProfit).toBeLessThan(33.002394806823354);
    expect(line.expectedProfit).toBeCloseTo(33.0024, 2);
    expect(0.7 * 50 - stated({ ...item, exactly: 60 }).expectedProfit).toBeCloseTo(2.156131552870387, 8);
  });

  it("the open library's Poisson(50): 56, cost 1.797235211809178", () => {
    const line = stated({ price: 1, cost: 0.3, worth: 0.12, demand: { kind: "poisson", mean: 50 } });
    expect(line.quantity).toBe(56);
    expect(0.7 * 50 - line.expectedProfit).toBeCloseTo(1.797235211809178, 8);
  });

  it("example 4.7: Poisson(6), 8, cost 3.5701069457709416; at 5, 6.590296024616343", () => {
    const item = { price: 5, cost: 1, worth: 0, demand: { kind: "poisson", mean: 6 } } as const;
    expect(stated(item).quantity).toBe(8);
    expect(4 * 6 - stated(item).expectedProfit).toBeCloseTo(3.5701069457709416, 8);
    expect(4 * 6 - stated({ ...item, exactly: 5 }).expectedProfit).toBeCloseTo(6.590296024616343, 8);
  });

  it("the library's readme: N(120, 10), 132.815515655446", () => {
    const line = stated({
      price: 20,
      cost: 2,
      worth: 0,
      demand: { kind: "normal", mean: 120, deviation: 10 },
    });
    expect(line.exactQuantity).toBeCloseTo(132.815515655446, 7);
    expect(18 * 120 - line.expectedProfit).toBeCloseTo(35.09966638649737, 1);
  });
});

describe("a budget over two items", () => {
  const two = [
    { price: 3, cost: 1, worth: 0, demand: { kind: "normal", mean: 100, deviation: 20 } },
    { price: 5, cost: 2, worth: 0.5, demand: { kind: "normal", mean: 50, deviation: 15 } },
  ] as const;

  it("lecture notes: without a budget 108.61 and 56.46", () => {
    const lines = planned(stallOf(two)).stated;
    expect(lines.map(({ exactQuantity }) => exactQuantity)).toEqual([
      expect.closeTo(108.614546, 5),
      expect.closeTo(56.460909, 5),
    ]);
  });

  it("lecture notes: with 150 about 87 and 32, exactly 86.535 and 31.732", () => {
    const plan = planned(stallOf(two, 150));
    expect(plan.stated.map(({ exactQuantity }) => exactQuantity)).toEqual([
      expect.closeTo(86.535256, 5),
      expect.closeTo(31.732372, 5),
    ]);
    const spent = plan.stated.reduce((sum, { outlay }) => sum + outlay, 0);
    expect(spent).toBeLessThanOrEqual(15_000);
    expect(spent).toBeGreaterThan(14_800);
    expect(plan.bring.binding).toContain("budget");
  });

  it("closed form for uniform demands (worked out here): 38.46 and 123.08", () => {
    const lines = planned(
      stallOf(
        [
          { price: 10, cost: 4, worth: 0, demand: { kind: "uniform", low: 0, high: 100 } },
          { price: 8, cost: 2, worth: 0, demand: { kind: "uniform", low: 0, high: 200 } },
        ],
        400,
      ),
    ).stated;
    expect(lines.map(({ exactQuantity }) => exactQuantity)).toEqual([
      expect.closeTo(38.461538, 5),
      expect.closeTo(123.076923, 5),
    ]);
  });
});
