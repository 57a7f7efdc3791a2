import gammaQuantile from "@stdlib/stats-base-dists-gamma-quantile";
import { describe, expect, it } from "vitest";
import { daySoFar, type SoFar } from "../../src/stall/day/so-far.ts";
import { evenHours, keptPlan } from "./kept-plan.ts";
import { OPENS } from "./test-stall.ts";

const HOUR = 3_600_000;
const tee = { offer: "longtail-tee", colour: "navy", size: "M" } as const;
const cap = { offer: "wren-cap", colour: "black", size: "one" } as const;

/** Four hours, 10 garments in each, three tees for each cap; one day in ten is outside 24 to 56. */
const plan = keptPlan({
  garments: { likely: 40, low: 24, high: 56 },
  hours: evenHours(4, [10, 6, 14]),
  sold: [
    { ...tee, garments: 30 },
    { ...cap, garments: 10 },
  ],
});
const piece = (name: string, of: { readonly offer: string }, free: number, loses: number | null = 100) => ({
  name,
  free,
  loses,
  uses: ({ offer }: { readonly offer: string }) => offer === of.offer,
});
const at = (hours: number, so: Partial<SoFar> = {}): SoFar => ({
  now: OPENS + hours * HOUR,
  opening: { opens: OPENS, closes: OPENS + 4 * HOUR },
  planDay: 1,
  ordered: [],
  earlier: [],
  pieces: [],
  rack: [],
  ...so,
});
const sold = (tees: number, caps: number) => [
  { ...tee, garments: tees },
  { ...cap, garments: caps },
];

describe("how a day is going", () => {
  it("lies within the plan's range by now, below it or above it", () => {
    // By half past eleven, a plan of 10 an hour has 15, between 9 and 21.
    const going = (tees: number) => daySoFar(plan, at(1.5, { ordered: sold(tees, 0) }));
    expect(going(15).plannedByNow).toEqual({ likely: 15, low: 9, high: 21 });
    expect([8, 9, 21, 22].map((tees) => going(tees).pace)).toEqual(["below", "within", "within", "above"]);
  });

  it("expects the plan's own day before it begins and what was ordered once it is over", () => {
    expect(daySoFar(plan, at(-1)).wholeDay.likely).toBe(40);
    const over = daySoFar(plan, at(5, { ordered: sold(20, 5) }));
    expect([over.dayGone, over.wholeDay]).toEqual([1, { likely: 25, low: 25, high: 25 }]);
    expect(daySoFar(plan, at(1, { opening: null })).closes).toBeNull();
  });

  it("moves towards what comes, by as much as the plan is in doubt", () => {
    // By hand: spread 32 / 3.29 is 9.727; beyond chance 94.61 - 40 = 54.61, so the plan is worth 1600 / 54.61 = 29.3 orders.
    // Half the day: 20 planned, 30 came; the factor is (29.3 + 30) / (29.3 + 20) = 1.203.
    const { wholeDay } = daySoFar(plan, at(2, { ordered: sold(22, 8) }));
    expect(wholeDay.likely).toBeCloseTo(30 + 20 * 1.203, 1);
    expect(wholeDay.low).toBeLessThan(wholeDay.likely);
    expect(wholeDay.low).toBeGreaterThan(30);
  });

  it("gives the range that the gamma prior itself gives, to a garment", () => {
    // Against @stdlib's quantiles: the rate of the rest of the day is gamma, and counts stray about it by chance besides.
    const { wholeDay } = daySoFar(plan, at(2, { ordered: sold(15, 5) }));
    const shape = 29.3 + 20;
    const rate = shape / 20;
    const chance = (share: number): number => {
      const doubt = gammaQuantile(share, shape, rate) - 20;
      return 20 + Math.sign(doubt) * Math.hypot(doubt, 1.6449 * Math.sqrt(20));
    };
    expect(Math.abs(wholeDay.low - 20 - chance(0.05))).toBeLessThan(1);
    expect(Math.abs(wholeDay.high - 20 - chance(0.95))).toBeLessThan(1);
  });

  it("says what runs out and when, the first to go at the front", () => {
    const pieces = [piece("Tee", tee, 5), piece("Cap", cap, 1), piece("Tee transfer", tee, 500)];
    const { runsOut } = daySoFar(plan, at(2, { ordered: sold(15, 5), pieces }));
    // Ten an hour as planned, a quarter of them caps: a cap in 24 minutes, five tees in 40.
    expect(runsOut).toEqual([
      { name: "Cap", free: 1, at: new Date(OPENS + 2 * HOUR + 24 * 60_000).toISOString() },
      { name: "Tee", free: 5, at: new Date(OPENS + 2 * HOUR + 40 * 60_000).toISOString() },
    ]);
    expect(daySoFar(plan, at(2, { pieces: [piece("Tee", tee, 0)] })).runsOut[0]?.at).toBe(
      new Date(OPENS + 2 * HOUR).toISOString(),
    );
  });

  it("says what to mark down once a quarter of the day has gone, the dearest loss first", () => {
    const pieces = [piece("Tee", tee, 40, 10), piece("Cap", cap, 20, 100), piece("Bag", cap, 20, null)];
    expect(daySoFar(plan, at(0.9, { pieces })).comesHome).toEqual([]);
    const { comesHome } = daySoFar(plan, at(2, { ordered: sold(15, 5), pieces }));
    expect(comesHome).toEqual([
      { name: "Cap", free: 20, left: 15, loses: 1500 },
      { name: "Tee", free: 40, left: 25, loses: 250 },
      { name: "Bag", free: 20, left: 15, loses: null },
    ]);
  });

  it("says what not to press ahead: as many hang on the rack as will still be sold", () => {
    const rack = [
      { ...cap, name: "Wren cap", garments: 5 },
      { ...tee, name: "Longtail tee", garments: 14 },
    ];
    const { stopPressing } = daySoFar(plan, at(2, { ordered: sold(15, 5), rack }));
    expect(stopPressing).toEqual([{ name: "Wren cap", onRack: 5, stillToSell: 5 }]);
  });

  it("follows what people choose today, by as much as the plan's shares are worth", () => {
    const pieces = [piece("Cap", cap, 8)];
    // By hand: (60 / 4 + 20) / 80 of 20 garments is 8.75 caps; the plan alone has 5.
    expect(daySoFar(plan, at(2, { ordered: sold(0, 20), pieces })).runsOut).toHaveLength(1);
    expect(daySoFar(plan, at(2, { ordered: sold(15, 5), pieces })).runsOut).toEqual([]);
  });

  it("has each of several days in its own range, learns from the days before, and lets stock last for the days after", () => {
    // 10 an hour on the first day, 5 an hour on the second.
    const twoDays = {
      ...plan,
      days: 2,
      garments: { likely: 60, low: 40, high: 80 },
      hours: [...evenHours(4, [10, 6, 14], 1), ...evenHours(4, [5, 3, 7], 2)],
    };
    const pieces = [piece("Tee", tee, 40)];
    const first = daySoFar(twoDays, at(2, { ordered: sold(15, 5), pieces }));
    expect(first.planDay).toEqual({ day: 1, of: 2 });
    expect(first.plannedByNow).toEqual({ likely: 20, low: 12, high: 28 });
    // As planned: three in four of 20 today and of 20 tomorrow are tees.
    expect(first.wholeDay.likely).toBeCloseTo(40, 5);
    expect(first.comesHome).toEqual([{ name: "Tee", free: 40, left: 10, loses: 1000 }]);

    const second = daySoFar(
      twoDays,
      at(2, { planDay: 2, ordered: sold(15, 5), earlier: sold(60, 20), pieces }),
    );
    expect([second.plannedByNow, second.pace]).toEqual([{ likely: 10, low: 6, high: 14 }, "above"]);
    // By hand: spread 16 / 3.29 is 4.863, beyond chance 23.65 - 20 = 3.65, but a tenth of 20 at least: 4, so 400 / 4 = 100
    // orders. Both days 50 were planned and 100 came: the factor is (100 + 100) / (100 + 50) on the 10 that are to come.
    expect(second.wholeDay.likely).toBeCloseTo(20 + 10 * (200 / 150), 1);
    expect(second.comesHome).toEqual([{ name: "Tee", free: 40, left: 30, loses: 3000 }]);
  });
});
