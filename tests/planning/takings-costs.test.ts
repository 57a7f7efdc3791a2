/** Costs that follow the takings, the presses and one's own time, worked again by hand from what the plan says it sells. */
import { describe, expect, it } from "vitest";
import type { PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import { planned } from "./planned.ts";

/** One garment at $20 with 10 % tax in the price; every figure certain, so that a plan's sales are known. */
const fair = (costs: PlanRequestSent["costs"]): PlanRequestSent => ({
  scenarios: 100,
  blanks: [
    {
      id: "tee",
      cost: 5,
      leftoverWorth: 1,
      colours: [{ id: "navy", share: 1 }],
      sizes: [{ id: "L", share: 1 }],
    },
  ],
  designs: [{ id: "tern", cost: 2, leftoverWorth: 1 }],
  offers: [{ id: "tern-tee", blank: "tee", design: "tern", price: 20, share: 1 }],
  traffic: { kind: "total", passersBy: { low: 1000, likely: 1000, high: 1000 } },
  buying: { share: { low: 0.05, likely: 0.05, high: 0.05 }, bunching: 0 },
  presses: [{ platen: "flat", count: 2, garmentsPerHour: 60 }],
  patienceMinutes: 60,
  opens: "10:00",
  closes: "18:00",
  ...(costs === undefined ? {} : { costs }),
});
const TAX = { rate: 0.1, included: true };
const sumOf = ({ money }: ReturnType<typeof planned>, name: string) =>
  money.costs.find((row) => row.name === name)?.amount;
const soldIn = ({ sold }: ReturnType<typeof planned>) =>
  sold.reduce((sum, { garments }) => sum + garments, 0);
/** Takings before tax in minor units, and the odd cents that rounding of the sales leaves. */
const netTakings = (plan: ReturnType<typeof planned>) => (soldIn(plan) * 2000) / 1.1;
const ROUNDING = 20;

describe("costs that follow the takings", () => {
  it("the pitch takes its share of the takings before tax, and its least fee if that is more", () => {
    const plain = planned(fair({ tax: TAX }));
    const shared = planned(fair({ tax: TAX, pitchShare: { share: "12 %" } }));
    const paid = sumOf(shared, "Pitch's share of the takings") ?? 0;
    expect(Math.abs(paid - 0.12 * netTakings(shared))).toBeLessThan(ROUNDING);
    expect(Math.abs(plain.money.expectedProfit - shared.money.expectedProfit - paid)).toBeLessThan(2);
    const least = planned(fair({ tax: TAX, pitchShare: { share: "12 %", atLeast: "$500" } }));
    expect(sumOf(least, "Pitch's share of the takings")).toBe(50_000);
    expect(plain.money.expectedProfit - least.money.expectedProfit).toBe(50_000);
  });

  it("a least fee is paid on the days that fall short of it, and only there", () => {
    const uncertain = {
      ...fair({ tax: TAX, pitchShare: { share: 0.1, atLeast: "$90" } }),
      buying: { share: { low: 0.02, likely: 0.05, high: 0.1 } },
    };
    const paid = sumOf(planned(uncertain), "Pitch's share of the takings") ?? 0;
    const mean = 0.1 * netTakings(planned(uncertain));
    // A mean of the larger of two is more than the larger of their means.
    expect(paid).toBeGreaterThan(Math.max(9000, mean) + 100);
  });

  it("a refund gives the price without its tax back, and the pitch's share of it falls away", () => {
    const plan = planned(fair({ tax: TAX, pitchShare: { share: 0.1 }, refundShare: "4 %" }));
    expect(Math.abs((sumOf(plan, "Refunds") ?? 0) - 0.04 * netTakings(plan))).toBeLessThan(ROUNDING);
    const paid = sumOf(plan, "Pitch's share of the takings") ?? 0;
    expect(Math.abs(paid - 0.1 * 0.96 * netTakings(plan))).toBeLessThan(ROUNDING);
  });

  it("an exchanged garment is made again, as a spoiled one is", () => {
    const spoiling = planned({ ...fair({}), spoilage: 0.05 });
    const exchanging = planned(fair({ exchangeShare: "5 %" }));
    expect(exchanging.money.expectedProfit).toBe(spoiling.money.expectedProfit);
    expect(exchanging.money.swings.map(({ what }) => what)).not.toContain("spoilage");
  });

  it("presses wear by the garment and by the hour; one's own time is a line that may be 0", () => {
    const plan = planned(
      fair({ wearPerPressing: "$0.25", wearPerHour: "$1.50", ownTime: { hours: 30, hourly: "$12" } }),
    );
    expect(Math.abs((sumOf(plan, "Wear of presses") ?? 0) - 25 * soldIn(plan))).toBeLessThan(2);
    expect(sumOf(plan, "Wear of presses by the hour")).toBe(2 * 8 * 150);
    expect(sumOf(plan, "Your own time")).toBe(36_000);
    expect(sumOf(planned(fair({ ownTime: { hours: 30 } })), "Your own time")).toBe(0);
  });

  it("break-even is beyond what is brought if the fixed costs are beyond all of it", () => {
    const fixed = (cost: string) => ({ fixed: [{ name: "Pitch", cost, kind: "pitch" as const }] });
    expect(planned(fair(fixed("$100"))).money.breakEven.beyondStock).toBe(false);
    expect(planned(fair(fixed("$3000"))).money.breakEven.beyondStock).toBe(true);
  });
});
