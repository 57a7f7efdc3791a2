import poissonQuantile from "@stdlib/stats-base-dists-poisson-quantile";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import { SheetRequest } from "../../src/model/planning/sheets.ts";
import { inventedFair } from "./invented.ts";
import { planned } from "./planned.ts";

/** Sheets of 12 x 12 in without margins for art of 6 x 6 in and smaller. */
const sheetsOf = (designs: readonly { id: string; width: number; height: number }[], first: number) =>
  SheetRequest.parse({
    designs: designs.map((design) => ({ ...design, name: design.id, count: 1 })),
    sheets: [
      {
        id: "square",
        name: "Square",
        width: 12,
        height: 12,
        margin: 0,
        gap: 0,
        prices: [
          { copies: 1, price: first },
          { copies: 10, price: Math.round(0.8 * first) },
        ],
      },
    ],
    extraLayoutPrice: 300,
    steps: 30_000,
  });

describe("transfers bought by the sheet", () => {
  it("cost what the sheets cost that the plan says to buy, in every way and within the budget", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.constantFrom("press-on-site", "print-ahead", "mixed"),
        fc.option(fc.integer({ min: 150, max: 900 }), { nil: undefined }),
        fc.integer({ min: 200, max: 1500 }),
        fc.integer({ min: 0, max: 20 }),
        (seed, way, budget, price, owned) => {
          const fair = inventedFair({
            seed,
            blanks: 1,
            colours: 2,
            sizes: 2,
            designs: 2,
            passersBy: 1200,
            scenarios: 100,
          });
          const { bring, parts, manners, money } = planned({
            ...fair,
            designs: fair.designs?.map((design, at) => (at === 0 ? { ...design, owned } : design)) ?? [],
            presses: [{ platen: "flat", count: 1, garmentsPerHour: 15 }],
            spoilage: 0.04,
            limits: budget === undefined ? {} : { budget },
            way,
            parts: {
              sheets: sheetsOf(
                [
                  { id: "design-1", width: 6, height: 6 },
                  { id: "design-2", width: 4, height: 3 },
                ],
                price,
              ),
            },
          } as PlanRequestSent);
          const bought = bring.shopping.filter(({ kind }) => kind === "transfer");
          const spent = bought.reduce((sum, { cost }) => sum + cost, 0);
          expect(spent).toBe(parts?.sheets?.cost.total ?? 0);
          const made = new Map(parts?.sheets?.transfers.map(({ design, made: count }) => [design, count]));
          for (const { item, buy } of bought) expect(buy).toBe(made.get(item) ?? 0);
          const all = bring.shopping.reduce((sum, { cost }) => sum + cost, 0);
          expect(Math.abs(bring.outlay - all)).toBeLessThanOrEqual(bring.shopping.length / 2 + 1);
          if (budget !== undefined) expect(bring.outlay).toBeLessThanOrEqual(budget * 100);
          expect(manners.find(({ manner }) => manner === way)?.profit).toBe(money.expectedProfit);
        },
      ),
      { numRuns: 5 },
    );
  });

  /**
   * A newsvendor who buys in batches: four transfers a sheet, one blank, demand Poisson (quantiles of @stdlib, even
   * over 1,000 days). Every number of sheets and of blanks is tried here, without any code of the planner.
   */
  it("come in as many sheets as a newsvendor with batches buys", () => {
    const days = Array.from({ length: 1000 }, (_, at) => poissonQuantile((at + 0.5) / 1000, 22));
    const [price, blank, worth, sheet] = [2000, 500, 400, 2600];
    let best = { profit: Number.NEGATIVE_INFINITY, sheets: 0 };
    const profitOf = (sheets: number, blanks: number) => {
      const most = Math.min(blanks, 4 * sheets);
      const sold = days.reduce((sum, asked) => sum + Math.min(asked, most), 0) / days.length;
      return price * sold - blank * blanks + worth * (blanks - sold) - sheet * sheets;
    };
    for (let sheets = 0; sheets < 12; sheets++) {
      for (let blanks = 0; blanks <= 4 * sheets; blanks++) {
        const profit = profitOf(sheets, blanks);
        if (profit > best.profit) best = { profit, sheets };
      }
    }
    const flat = sheetsOf([{ id: "only", width: 6, height: 6 }], sheet);
    const { bring, parts } = planned({
      scenarios: 1000,
      blanks: [
        {
          id: "tee",
          cost: 5,
          leftoverWorth: 0.8,
          colours: [{ id: "navy", share: 1 }],
          sizes: [{ id: "L", share: 1 }],
        },
      ],
      designs: [{ id: "only", cost: 3 }],
      offers: [
        { id: "only", blank: "tee", design: "only", price: 20, demand: { kind: "poisson", mean: 22 } },
      ],
      parts: {
        sheets: {
          ...flat,
          sheets: flat.sheets.map((size) => ({ ...size, prices: size.prices.slice(0, 1) })),
        },
      },
    });
    expect(parts?.sheets?.sheets).toBe(best.sheets);
    expect(bring.transfers[0]).toMatchObject({ buy: 4 * best.sheets, cost: sheet * best.sheets });
    const own = profitOf(parts?.sheets?.sheets ?? 0, bring.skus[0]?.bring ?? 0);
    expect(own).toBeGreaterThan(0.998 * best.profit);
  });
});
