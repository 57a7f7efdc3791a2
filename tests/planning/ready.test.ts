/** Garments that are decorated already are brought and sold, and nothing is bought for them. */
import { describe, expect, it } from "vitest";
import type { PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import { prepare } from "../../src/planning/request/prepare.ts";
import { request } from "./invented.ts";
import { planned } from "./planned.ts";

const OWNED = 12;
const shirt: PlanRequestSent = {
  scenarios: 100,
  traffic: { kind: "total", passersBy: { low: 1000, likely: 1000, high: 1000 } },
  buying: { share: { low: 0.04, likely: 0.04, high: 0.04 }, bunching: 0 },
  blanks: [
    {
      id: "tee",
      cost: 4,
      leftoverWorth: 0.5,
      colours: [{ id: "sand", share: 1 }],
      sizes: [{ id: "M", share: 1 }],
    },
  ],
  designs: [{ id: "otter", cost: 2 }],
  offers: [{ id: "otter-tee", blank: "tee", design: "otter", price: 20, share: 1 }],
  presses: [{ platen: "flat", count: 3, garmentsPerHour: 60 }],
  way: "press-on-site",
};
const line = { offer: "otter-tee", colour: "sand", size: "M", owned: OWNED };
const ready = [line];

describe("garments that are decorated already", () => {
  it("take the place of as many blanks and transfers, and save what those cost", () => {
    const [without, with12] = [planned(shirt), planned({ ...shirt, ready })];
    const bought = ({ bring }: typeof without) => [bring.skus[0]?.bring ?? 0, bring.transfers[0]?.bring ?? 0];
    const [before, after] = [bought(without), bought(with12)];
    // About 40 are asked for: all twelve sell, so every quantity moves down by twelve.
    expect(before.map((count, at) => count - (after[at] ?? 0))).toEqual([OWNED, OWNED]);
    expect(with12.bring.ready).toMatchObject([{ bring: OWNED, buy: 0, owned: OWNED, cost: 0 }]);
    const saved = with12.money.expectedProfit - without.money.expectedProfit;
    expect(Math.abs(saved - OWNED * 600)).toBeLessThan(OWNED * 6);
    expect(with12.summary[0]).toContain("12 garments printed already");
  });

  it("are part of a plan that prints ahead, which makes only the rest", () => {
    const { bring } = planned({ ...shirt, ready, way: "print-ahead" });
    const made = bring.ready[0];
    expect(made).toMatchObject({ owned: OWNED, buy: (made?.bring ?? 0) - OWNED });
    expect(bring.shopping.map(({ need }) => need)).toEqual([made?.buy, made?.buy]);
    expect(bring.outlay).toBe(600 * (made?.buy ?? 0));
  });

  it("are refused if nothing is sold as they are, or if they are listed twice", () => {
    const unknown = prepare(request({ ...shirt, ready: [{ ...line, size: "5XL" }, ...ready, ...ready] }));
    expect(unknown.ok ? [] : unknown.refusal.map(({ pointer }) => pointer)).toEqual([
      "#/ready/2",
      "#/ready/0",
    ]);
  });

  it("of a design with a date have no worth for the next fair", () => {
    const dated = { ...shirt, designs: [{ id: "otter", cost: 2, leftoverWorth: 1, day: "2027-06-12" }] };
    const kept = { ...shirt, designs: [{ id: "otter", cost: 2, leftoverWorth: 1 }] };
    const brought = (one: PlanRequestSent) => planned(one).bring.transfers[0]?.bring ?? 0;
    expect(brought(dated)).toBe(brought(shirt));
    expect(brought(kept)).toBeGreaterThan(brought(dated));
  });
});
