import poissonCdf from "@stdlib/stats-base-dists-poisson-cdf";
import poissonQuantile from "@stdlib/stats-base-dists-poisson-quantile";
import { describe, expect, it } from "vitest";
import { finished } from "../../src/maths/work.ts";
import type { PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import { blankSlopes } from "../../src/planning/bring/search/marginal-values.ts";
import { daysOf } from "./days.ts";
import { inventedFair } from "./invented.ts";
import { planned } from "./planned.ts";

const [PRICE, COST, WORTH] = [2000, 800, 400] as const;

/** One sku whose asks are Poisson: a certain crowd of which a certain share buys one each. */
const fairOf = (asked: number, more: Partial<PlanRequestSent>): PlanRequestSent => ({
  scenarios: 1000,
  traffic: { kind: "total", passersBy: { low: 1000, likely: 1000, high: 1000 } },
  buying: { share: { low: asked / 1000, likely: asked / 1000, high: asked / 1000 }, bunching: 0 },
  blanks: [
    {
      id: "tote",
      cost: COST / 100,
      leftoverWorth: WORTH / COST,
      colours: [{ id: "sand", share: 1 }],
      sizes: [{ id: "one", share: 1 }],
    },
  ],
  offers: [{ id: "tote", blank: "tote", price: PRICE / 100, share: 1 }],
  costs: {
    fixed: [{ name: "Pitch", cost: 100, kind: "pitch" }],
    crew: { people: 2, hours: 5, hourlyWage: 10 },
  },
  ...more,
});

/** Expected sales of a Poisson day from the distribution of @stdlib. */
function soldOf(asked: number, pieces: number): number {
  let sold = 0;
  for (let count = 0; count < pieces; count++) sold += 1 - poissonCdf(count, asked);
  return sold;
}

describe("a fair of several days", () => {
  it("brings one stock for the sum of its days: the newsvendor's quantity for a Poisson of their sum", () => {
    const { bring, money, demand } = planned(fairOf(30, { days: [{ crowd: 1 }, { crowd: 0.5 }] }));
    const ratio = (PRICE - COST) / (PRICE - WORTH);
    expect(Math.abs((bring.skus[0]?.bring ?? 0) - poissonQuantile(ratio, 45))).toBeLessThanOrEqual(1);
    expect(money.costs.filter(({ name }) => name === "Pitch")).toEqual([{ name: "Pitch", amount: 10_000 }]);
    expect(money.costs.find(({ name }) => name === "Wages")?.amount).toBe(2 * 2 * 5 * 1000);
    const closings = [1, 2].map((day) => demand.hours.findLast((hour) => hour.day === day));
    const within = (value: number | undefined, wanted: number) =>
      expect(Math.abs((value ?? 0) - wanted)).toBeLessThanOrEqual(1);
    for (const [place, share] of [
      ["p5", 0.05],
      ["p50", 0.5],
      ["p95", 0.95],
    ] as const)
      within(closings[0]?.soldThatDay?.[place], poissonQuantile(share, 30));
    // The second day sells from what the first left, so only its quiet days are Poisson's own.
    within(closings[1]?.soldThatDay?.p5, poissonQuantile(0.05, 15));
    expect(closings[1]?.soldBy.p50).toBeGreaterThan(40);
  });

  it("that restocks overnight brings what is best for two Poisson days of which only the last has leftovers", () => {
    const profitOf = (pieces: number) =>
      2 * (PRICE - COST) * soldOf(30, pieces) - (COST - WORTH) * (pieces - soldOf(30, pieces));
    const profits = Array.from({ length: 80 }, (_, pieces) => profitOf(pieces));
    const best = profits.indexOf(Math.max(...profits));
    const { bring, money } = planned(fairOf(30, { days: [{}, {}], restockOvernight: true }));
    expect(Math.abs((bring.skus[0]?.bring ?? 0) - best)).toBeLessThanOrEqual(1);
    const fees = 10_000 + 20_000;
    // Within three standard errors of 1,000 fairs.
    const error = (3 * PRICE * Math.sqrt(60)) / Math.sqrt(1000);
    expect(Math.abs(money.expectedProfit - (Math.max(...profits) - fees))).toBeLessThan(error);
    const between = money.costs.find(({ name }) => name === "Stock bought between days")?.amount ?? 0;
    const sold = soldOf(30, bring.skus[0]?.bring ?? 0);
    expect(Math.abs(between - COST * sold)).toBeLessThan((3 * COST * Math.sqrt(30)) / Math.sqrt(1000));
  });

  it("has the worth of one more that living its days again gives", () => {
    for (const restockOvernight of [false, true]) {
      const fair = inventedFair({
        seed: 11,
        blanks: 1,
        colours: 2,
        sizes: 3,
        designs: 2,
        passersBy: 1200,
        scenarios: 100,
      });
      const { shop, trial } = daysOf({ ...fair, days: [{ crowd: 0.7 }, {}], restockOvernight }, 60);
      const stock = Int32Array.from(shop.goods, (_, at) => (at < 6 ? 6 : 14));
      const slopes = blankSlopes(shop);
      const gain = finished(trial.slopes(stock, slopes));
      shop.goods.forEach((_, at) => {
        const changed = (by: number) =>
          finished(trial.gain(stock.map((count, other) => count + (other === at ? by : 0)))) - gain;
        expect(Math.abs((slopes.more[at] ?? 0) - changed(1))).toBeLessThanOrEqual(1e-6);
        expect(Math.abs((slopes.fewer[at] ?? 0) - changed(-1))).toBeLessThanOrEqual(1e-6);
      });
    }
  });
});
