import { describe, expect, it } from "vitest";
import type { PowerLoad, PowerRequest } from "../../src/model/planning/power.ts";
import { circuit, lamp, planned, press, usual } from "./stall-loads.ts";

describe("a generator", () => {
  const withGenerator = (loads: PowerLoad[], runningWatts: number, startingWatts: number): PowerRequest => ({
    ...usual,
    loads,
    circuits: ["g1", "g2", "g3", "g4"].map((name) => circuit(name, 20)),
    generator: {
      runningWatts,
      startingWatts,
      consumption: [
        { share: 0.5, rate: { value: 1, unit: "L/h" } },
        { share: 1, rate: { value: 1.8, unit: "L/h" } },
      ],
      tank: { value: 5, unit: "L" },
    },
  });
  const fan = (load: string): PowerLoad => ({ ...lamp(load, 600), kind: "other", startingWatts: 1500 });

  it("burns what it states, in litres and gallons", () => {
    const request = withGenerator(
      [press("press", 1600, { holdingShare: 0.5, warmUpMinutes: 60 })],
      1600,
      1600,
    );
    const { fuel } = planned(request).generator ?? {};
    // One hour at full load, eight at half; at most nine at full.
    expect(fuel?.likelyLitres).toBeCloseTo(1.8 + 8 * 1, 9);
    expect(fuel?.mostLitres).toBeCloseTo(9 * 1.8, 9);
    expect(fuel?.likelyGallons).toBeCloseTo(9.8 / 3.785411784, 9);
    expect(fuel?.fillings).toBe(4);
  });

  it("starts in turns where everything at once would trip it, and holds at every turn", () => {
    const request = withGenerator([press("press", 1500), fan("fan-1"), fan("fan-2")], 3000, 3600);
    const plan = planned(request);
    expect(plan.fits).toBe(true);
    expect(plan.generator).toMatchObject({ runningWatts: 2700, startingTogetherWatts: 4500, holds: true });
    expect(plan.warmUp.together).toBe("trips");
    expect(plan.warmUp.turns.length).toBeGreaterThan(1);
    const draws: Record<string, [number, number]> = {
      press: [1500, 1500],
      "fan-1": [600, 1500],
      "fan-2": [600, 1500],
    };
    let running = 0;
    for (const { loads } of plan.warmUp.turns) {
      const starting = loads.reduce((sum, load) => sum + (draws[load]?.[1] ?? 0), 0);
      expect(running + starting).toBeLessThanOrEqual(3600);
      running += loads.reduce((sum, load) => sum + (draws[load]?.[0] ?? 0), 0);
    }
    expect(running).toBe(2700);
  });

  it("starts all at once where that holds", () => {
    expect(planned(withGenerator([press("press", 1500), fan("fan")], 3000, 3600)).warmUp).toMatchObject({
      together: "holds",
      turns: [{ atMinute: 0 }],
    });
  });

  it("asks for a larger one when it is too small, with its exact need", () => {
    const plan = planned(withGenerator([press("press-a", 1800), press("press-b", 1800)], 3000, 3500));
    expect(plan.fits).toBe(false);
    expect(plan.least).toMatchObject({ change: "larger-generator", runningWatts: 3600, startingWatts: 3600 });
    const smaller = plan.changes.find(({ change }) => change === "smaller-presses");
    expect(smaller).toMatchObject({ presses: ["press-a"], mostWatts: 1200 });
  });

  it("adds its own cautions", () => {
    expect(planned(withGenerator([press("press", 1500)], 3000, 3500)).cautions.join()).toContain(
      "exhaust kills",
    );
  });
});
