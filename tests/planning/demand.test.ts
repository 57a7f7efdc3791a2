import { describe, expect, it } from "vitest";
import { deviation, mean, sampleQuantiles } from "../../src/maths/sample.ts";
import type { PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import type { Scenarios } from "../../src/planning/demand/asks.ts";
import { statedMoments } from "../../src/planning/demand/crowd.ts";
import { drawScenarios } from "../../src/planning/demand/demand.ts";
import { inventedFair } from "./invented.ts";
import { preparedFrom } from "./planned.ts";

const NONE = new Set<number>();
const small = (more: Partial<PlanRequestSent> = {}): PlanRequestSent => ({
  ...inventedFair({ seed: 3, blanks: 2, colours: 2, sizes: 3, designs: 2, passersBy: 2500, scenarios: 1000 }),
  ...more,
});

function garments({ count, starts }: Scenarios): number[] {
  return Array.from({ length: count }, (_, day) => (starts[day + 1] ?? 0) - (starts[day] ?? 0));
}

describe("scenarios", () => {
  it("are the same for the same seed, and others for another", () => {
    const draw = (seed: number) => drawScenarios(preparedFrom(small({ seed })), 50, NONE);
    expect(draw(1)).toEqual(draw(1));
    expect(draw(2).minute.slice(0, 20)).not.toEqual(draw(1).minute.slice(0, 20));
  });

  it("come in order and within opening", () => {
    const scenarios = drawScenarios(preparedFrom(small({ opens: "11:00", closes: "15:30" })), 60, NONE);
    for (let day = 0; day < scenarios.count; day++) {
      const minutes = Array.from(scenarios.minute.subarray(scenarios.starts[day], scenarios.starts[day + 1]));
      expect(minutes).toEqual([...minutes].sort((a, b) => a - b));
      for (const minute of minutes) expect(minute >= 660 && minute < 930.001).toBe(true);
    }
  });

  it("meet their stated moments within three standard errors, for several kinds of day", () => {
    const kinds: Partial<PlanRequestSent>[] = [
      {},
      { newFair: true },
      {
        days: [{ crowd: 1 }, { crowd: 0.4 }],
        weather: [
          { name: "dry", chance: 0.6, crowd: 1 },
          { name: "wet", chance: 0.4, crowd: 0.3 },
        ],
      },
      {
        weather: [
          { name: "dry", chance: 0.6, crowd: 1 },
          { name: "wet", chance: 0.4, crowd: 0.3 },
        ],
      },
      {
        traffic: {
          kind: "hourly",
          hours: [
            { from: "10:00", passersBy: 900 },
            { from: "14:00", passersBy: { low: 500, likely: 1200, high: 1500 } },
          ],
        },
      },
    ];
    for (const kind of kinds) {
      const prepared = preparedFrom(small(kind));
      const scenarios = drawScenarios(prepared, 2000, NONE);
      const moments = statedMoments(prepared, NONE);
      for (const [drawn, stated] of [
        [garments(scenarios), moments.garments],
        [Array.from(scenarios.orders), moments.orders],
      ] as const) {
        const error = stated.deviation / Math.sqrt(drawn.length);
        expect(Math.abs(mean(drawn) - stated.mean)).toBeLessThan(3 * error);
        // The standard error of a standard deviation, from the sample's own fourth moment.
        const middle = mean(drawn);
        const fourth = mean(drawn.map((value) => (value - middle) ** 4));
        const spread = deviation(drawn);
        const spreadError = Math.sqrt((fourth - spread ** 4) / drawn.length) / (2 * spread);
        expect(Math.abs(spread - stated.deviation)).toBeLessThan(3 * spreadError);
      }
    }
  });

  it("have the crowd's low, likely and high as their 5, 50 and 95 % points", () => {
    const scenarios = drawScenarios(
      preparedFrom(small({ traffic: { kind: "total", passersBy: { low: 1500, likely: 3000, high: 4000 } } })),
      2000,
      NONE,
    );
    const [low = 0, likely = 0, high = 0] = sampleQuantiles(scenarios.passersBy, [0.05, 0.5, 0.95]);
    expect(Math.abs(low / 1500 - 1)).toBeLessThan(0.06);
    expect(Math.abs(likely / 3000 - 1)).toBeLessThan(0.04);
    expect(Math.abs(high / 4000 - 1)).toBeLessThan(0.04);
  });

  it("are more spread than chance alone: orders of an hour vary more than a Poisson count", () => {
    const certain = small({ traffic: { kind: "total", passersBy: { low: 3000, likely: 3000, high: 3000 } } });
    const buying = { share: { low: 0.04, likely: 0.04, high: 0.04 }, bunching: 0.5 };
    const scenarios = drawScenarios(preparedFrom({ ...certain, buying }), 2000, NONE);
    const orders = Array.from(scenarios.orders);
    expect(deviation(orders) ** 2).toBeGreaterThan(2 * mean(orders));
  });

  it("sizes, colours and offers are asked for in their shares", () => {
    const prepared = preparedFrom(small());
    const scenarios = drawScenarios(prepared, 2000, NONE);
    const counts = new Float64Array(prepared.offers.length);
    for (const product of scenarios.product) {
      const offer = prepared.products[product]?.offer ?? 0;
      counts[offer] = (counts[offer] ?? 0) + 1;
    }
    const weights = prepared.offers.map(({ weight }) => weight);
    const whole = weights.reduce((sum, weight) => sum + weight, 0);
    // Asks of one day share its tastes: the error of a share is that of a Dirichlet over 2,000 days and more.
    weights.forEach((weight, at) => {
      const share = weight / whole;
      const error = 1.5 * Math.sqrt((share * (1 - share)) / (whole + 1) / scenarios.count);
      expect(Math.abs((counts[at] ?? 0) / scenarios.product.length - share)).toBeLessThan(3 * error + 0.002);
    });
  });

  it("of several days come day by day within opening, each with its own crowd", () => {
    const days = [{ crowd: 1 }, { crowd: 0.5 }, { crowd: 2 }];
    const prepared = preparedFrom(small({ opens: "11:00", closes: "15:00", days }));
    const { minute } = drawScenarios(prepared, 300, NONE);
    const counts = days.map(
      (_, day) => minute.filter((at) => at >= day * 1440 + 660 && at < day * 1440 + 900.001).length,
    );
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(minute.length);
    counts.forEach((count, day) => {
      expect(Math.abs(count / (counts[0] ?? 1) - (days[day]?.crowd ?? 0))).toBeLessThan(0.1);
    });
  });

  it("keep the same customers when fewer stay", () => {
    const prepared = preparedFrom(small());
    const all = drawScenarios(prepared, 30, NONE);
    const some = drawScenarios(prepared, 30, NONE, { keep: 0.5 });
    const seen = new Set(Array.from(all.minute, (minute, ask) => `${minute} ${all.product[ask]}`));
    expect(some.minute.length).toBeLessThan(all.minute.length * 0.6);
    some.minute.forEach((minute, ask) => {
      expect(seen.has(`${minute} ${some.product[ask]}`)).toBe(true);
    });
  });

  it("are fewer if a day is too busy for memory, never a day cut short", () => {
    const scenarios = drawScenarios(
      preparedFrom(
        small({ traffic: { kind: "total", passersBy: { low: 90_000, likely: 100_000, high: 110_000 } } }),
      ),
      1000,
      NONE,
    );
    expect(scenarios.count).toBeLessThan(400);
    expect(scenarios.starts[scenarios.count]).toBe(scenarios.minute.length);
    expect(mean(garments(scenarios))).toBeGreaterThan(3500);
  });
});

describe("lessons from earlier fairs", () => {
  const blank = "blank-1";
  const lesson = (id: string) => ({
    id,
    fair: "brackenfield",
    day: "2026-05-02",
    sizes: [{ blank, size: "S", asks: 400 }],
    buying: { orders: 400, passersBy: 5000, passersByUncertainty: 0.05 },
  });

  const shareWhoBuy = (lessons: readonly object[]) => {
    const rate = preparedFrom(small({ lessons: [...lessons] } as object)).buying?.rate;
    if (typeof rate !== "object") throw new Error("the share who buy is uncertain");
    return { mean: mean(rate), strays: deviation(rate.map(Math.log)) };
  };

  it("shift the sizes and the share who buy", () => {
    const before = preparedFrom(small());
    const after = preparedFrom(small({ lessons: [lesson("a")] }));
    const shareOfS = (prepared: typeof before) => {
      const weights = prepared.blanks[0]?.sizes.weights ?? [];
      return (weights[0] ?? 0) / weights.reduce((sum, weight) => sum + weight, 0);
    };
    // Fairs differ as sixty asks do, so 400 asks of one fair are worth fewer than sixty.
    const says = 1 / (1 / 400 + 1 / 60);
    expect(shareOfS(after)).toBeCloseTo((60 * shareOfS(before) + says) / (60 + says));
    expect(shareOfS(before)).toBeLessThan(0.6);
    // 400 orders of 5,000 counted passers-by pull the 4 % of the request towards 8 %.
    expect(shareWhoBuy([lesson("a")]).mean).toBeGreaterThan(0.05);
  });

  it("read twice count once, two fairs more than one, and none makes the next fair certain", () => {
    const plans = (lessons: readonly object[]) => preparedFrom(small({ lessons: [...lessons] } as object));
    const share = (lessons: readonly object[]) => {
      const weights = plans(lessons).blanks[0]?.sizes.weights ?? [];
      return { sum: weights.reduce((sum, weight) => sum + weight, 0), first: weights[0] ?? 0 };
    };
    const another = { ...lesson("b"), fair: "low meadow" };
    expect(share([lesson("a"), lesson("a")])).toEqual(share([lesson("a")]));
    expect(share([lesson("a"), another]).first).toBeGreaterThan(share([lesson("a")]).first);
    expect(share([lesson("a"), another]).sum).toBeCloseTo(share([]).sum, 9);
    // Two days of one fair are one fair: they teach less than two fairs.
    expect(share([lesson("a"), lesson("b")]).first).toBeLessThan(share([lesson("a"), another]).first);
    // However many were counted, the next fair strays as far.
    const many = Array.from({ length: 40 }, (_, at) => ({ ...lesson(`f${at}`), fair: `fair ${at}` }));
    expect(shareWhoBuy(many).strays).toBeCloseTo(shareWhoBuy([]).strays, 2);
    expect(shareWhoBuy(many).mean).toBeCloseTo(0.08, 2);
  });

  it("a crowd that was only guessed teaches less", () => {
    const pulled = (passersByUncertainty: number) =>
      shareWhoBuy([{ ...lesson("a"), buying: { orders: 400, passersBy: 5000, passersByUncertainty } }]).mean;
    expect(pulled(0.5)).toBeLessThan(pulled(0.1));
    expect(pulled(0.5)).toBeGreaterThan(shareWhoBuy([]).mean);
  });
});
