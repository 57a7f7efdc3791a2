/** Neighbouring sizes, youth sizes and designs of one day, worked by hand from certain demand. */
import { describe, expect, it } from "vitest";
import type { PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import { planFair } from "../../src/planning/plan.ts";
import { request } from "./invented.ts";
import { planned } from "./planned.ts";

type Size = { id: string; share: number; youth?: boolean };
const fair = (sizes: readonly Size[], gone: string, more: Partial<PlanRequestSent>): PlanRequestSent => ({
  scenarios: 100,
  way: "press-on-site",
  blanks: [
    {
      id: "tee",
      cost: 2,
      leftoverWorth: 1,
      sureness: 100_000,
      colours: [{ id: "navy", share: 1 }],
      sizes: [...sizes],
    },
  ],
  skus: [{ sku: `tee.navy.${gone}`, maximum: 0 }],
  designs: [{ id: "tern", cost: 1, leftoverWorth: 1 }],
  offers: [{ id: "tern-tee", blank: "tee", design: "tern", price: 20, share: 1 }],
  traffic: { kind: "total", passersBy: { low: 2000, likely: 2000, high: 2000 } },
  buying: { share: { low: 0.05, likely: 0.05, high: 0.05 }, bunching: 0, sureness: 100_000 },
  ...more,
});
const soldIn = ({ sold }: ReturnType<typeof planned>, size?: string) =>
  sold.reduce((sum, row) => sum + (size === undefined || row.size === size ? row.garments : 0), 0);
/** Of 100 asks a day; the mean of 100 days is off by 1 in most. */
const NEAR = 4;

describe("a neighbouring size", () => {
  const sizes = [
    { id: "M", share: 0.6 },
    { id: "L", share: 0.4 },
  ];

  it("is taken by those who would, when theirs is gone", () => {
    for (const share of [0, 0.5, 1]) {
      const plan = planned(fair(sizes, "L", { substitution: { anotherSize: share } }));
      expect(Math.abs(soldIn(plan) - (60 + 40 * share))).toBeLessThan(NEAR);
    }
  });

  it("is the larger one first", () => {
    const three = [
      { id: "S", share: 0.3 },
      { id: "M", share: 0.4 },
      { id: "L", share: 0.3 },
    ];
    const plan = planned(fair(three, "M", { substitution: { anotherSize: 1 } }));
    expect(Math.abs(soldIn(plan, "L") - 70)).toBeLessThan(NEAR);
    expect(Math.abs(soldIn(plan, "S") - 30)).toBeLessThan(NEAR);
  });

  it("is never a youth size for an adult one", () => {
    const [medium, large] = sizes;
    const apart = [
      { ...medium, id: "M", share: 0.6, youth: true },
      { ...large, id: "L", share: 0.4 },
    ];
    const plan = planned(fair(apart, "L", { substitution: { anotherSize: 1 } }));
    expect(Math.abs(soldIn(plan) - 60)).toBeLessThan(NEAR);
  });
});

describe("a design of one day", () => {
  const days = [
    { name: "Saturday", crowd: 1 },
    { name: "Sunday", crowd: 1 },
  ];
  const two = (onlyOnDays: number[]): PlanRequestSent => ({
    ...fair([{ id: "M", share: 1 }], "M", {}),
    skus: [],
    days,
    designs: [
      { id: "tern", cost: 1, leftoverWorth: 1 },
      { id: "saturday", cost: 1, leftoverWorth: 1, onlyOnDays },
    ],
    offers: [
      { id: "tern-tee", blank: "tee", design: "tern", price: 20, share: 1 },
      { id: "saturday-tee", blank: "tee", design: "saturday", price: 20, share: 1 },
    ],
  });
  const soldOf = (plan: ReturnType<typeof planned>, offer: string) =>
    plan.sold.reduce((sum, row) => sum + (row.offer === offer ? row.garments : 0), 0);

  it("sells on its day alone, and the other day's customers take what there is", () => {
    const plan = planned(two([1]));
    // 100 orders a day: on Saturday half of each, on Sunday only the other.
    expect(Math.abs(soldOf(plan, "saturday-tee") / soldIn(plan) - 0.25)).toBeLessThan(0.08);
    expect(Math.abs(soldIn(plan) - 200)).toBeLessThan(2 * NEAR);
    const both = planned(two([1, 2]));
    expect(Math.abs(soldOf(both, "saturday-tee") / soldIn(both) - 0.5)).toBeLessThan(0.12);
  });

  it("of a day that the fair does not have is a fault", () => {
    const outcome = planFair(request(two([3])));
    expect(outcome.ok ? [] : outcome.refusal.map(({ pointer }) => pointer)).toEqual([
      "#/designs/1/onlyOnDays",
    ]);
  });
});
