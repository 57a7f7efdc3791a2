import poissonQuantile from "@stdlib/stats-base-dists-poisson-quantile";
import { describe, expect, it } from "vitest";
import { PlanRequest } from "../../src/model/planning/plan-request.ts";
import { planFair } from "../../src/planning/plan.ts";
import { planned } from "./planned.ts";

const [PRICE, COST, WORTH] = [2000, 800, 0.5] as const;

const fairOf = (mean: number, priceBreaks: { from: number; off: number }[]) => ({
  scenarios: 1000,
  blanks: [
    {
      id: "tote",
      cost: COST / 100,
      leftoverWorth: WORTH,
      priceBreaks,
      colours: [{ id: "sand", share: 1 }],
      sizes: [{ id: "one", share: 1 }],
    },
  ],
  offers: [{ id: "tote", blank: "tote", price: PRICE / 100, demand: { kind: "poisson" as const, mean } }],
});

describe("price breaks", () => {
  /**
   * A newsvendor with a discount on all units: every quantity is tried here, over 1,000 days whose demand is Poisson
   * (quantiles of @stdlib). No code of the planner is used.
   */
  it("are taken if a newsvendor who tries every quantity takes them", () => {
    const found = [];
    for (const [mean, from, off] of [
      [40, 48, 0.1],
      [40, 60, 0.1],
      [40, 60, 0.4],
      [22, 30, 0.15],
    ] as const) {
      const days = Array.from({ length: 1000 }, (_, at) => poissonQuantile((at + 0.5) / 1000, mean));
      const profitOf = (pieces: number) => {
        const sold = days.reduce((sum, asked) => sum + Math.min(asked, pieces), 0) / days.length;
        const each = pieces >= from ? COST * (1 - off) : COST;
        return PRICE * sold + WORTH * COST * (1 - off) * (pieces - sold) - each * pieces;
      };
      const best = Math.max(...Array.from({ length: 120 }, (_, pieces) => profitOf(pieces)));
      const { bring } = planned(fairOf(mean, [{ from, off }]));
      const [line] = bring.skus;
      expect(profitOf(line?.bring ?? 0)).toBeGreaterThan(0.9999 * best);
      expect(line?.cost).toBe(Math.round((line?.buy ?? 0) * COST * ((line?.buy ?? 0) >= from ? 1 - off : 1)));
      expect(bring.outlay).toBe(line?.cost);
      found.push((line?.buy ?? 0) >= from);
    }
    expect(found).toContain(true);
    expect(found).toContain(false);
  });

  it("out of order are a fault with its place", () => {
    const outcome = planFair(
      PlanRequest.parse(
        fairOf(40, [
          { from: 24, off: 0.1 },
          { from: 12, off: 0.2 },
        ]),
      ),
    );
    expect(!outcome.ok && outcome.refusal.map(({ pointer }) => pointer)).toEqual([
      "#/blanks/0/priceBreaks/1",
    ]);
  });
});
