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

  it("starts in turns if everything at once would trip it, and holds at every turn", () => {
    const request = withGenerator([press("press", 1500), fan("fan-1"), fan("fan-2")], 3400, 3700);
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
      expect(running + starting).toBeLessThan(3700);
      running += loads.reduce((sum, load) => sum + (draws[load]?.[0] ?? 0), 0);
    }
    expect(running).toBe(2700);
  });

  it("starts all at once if that holds", () => {
    expect(planned(withGenerator([press("press", 1500), fan("fan")], 3000, 3600)).warmUp).toMatchObject({
      together: "holds",
      turns: [{ atMinute: 0 }],
    });
  });

  it("asks for a larger one when it is too small, with its exact need", () => {
    const plan = planned(withGenerator([press("press-a", 1800), press("press-b", 1800)], 3000, 3500));
    expect(plan.fits).toBe(false);
    expect(plan.least).toMatchObject({ change: "larger-generator", runningWatts: 4500, startingWatts: 4500 });
    const smaller = plan.changes.find(({ change }) => change === "smaller-presses");
    expect(smaller).toMatchObject({ presses: ["press-a"], mostWatts: 600 });
  });

  it("never holds at all of its watts, nor at more than 80 %", () => {
    const holds = (watts: number): boolean =>
      planned(withGenerator([press("press", watts)], 2000, 2400)).fits;
    expect(holds(1600)).toBe(true);
    expect(holds(1601)).toBe(false);
    expect(holds(1900)).toBe(false);
  });

  it("carries the worst motor that starts again by itself on top of all that runs", () => {
    const fridge = { ...fan("fridge"), watts: 700 };
    const holds = (starting: number, more: Partial<PowerLoad> = {}): boolean =>
      planned(withGenerator([press("press", 1500), { ...fridge, ...more }], 3000, starting)).fits;
    // 1,500 + 700 W run; the fridge adds 800 W when it starts: 3,000 W.
    expect(holds(3001)).toBe(true);
    expect(holds(3000)).toBe(false);
    // One that starts once, first of all, asks for less.
    expect(holds(3000, { restarts: false })).toBe(true);
  });

  it("takes a motor of unknown start at four times, and its power factor at 0.8", () => {
    const motor: PowerLoad = { load: "pump", kind: "motor", watts: 400, volts: 120 };
    const { generator } = planned(withGenerator([motor], 3000, 3000));
    expect(generator?.runningWatts).toBeCloseTo(500, 9);
    expect(generator?.worstStartWatts).toBeCloseTo(2000, 9);
  });

  it("loses what the stricter of two makers' rules takes for height and heat", () => {
    const at = (altitude: number, heat: number) => {
      const request = withGenerator([press("press", 500)], 5000, 6000);
      if (request.generator === undefined) throw new Error("no generator");
      const generator = {
        ...request.generator,
        altitude: { value: altitude, unit: "ft" as const },
        airTemperature: { value: heat, unit: "F" as const },
      };
      return planned({ ...request, generator }).generator?.availableRunningWatts ?? Number.NaN;
    };
    expect(at(1000, 85)).toBeCloseTo(5000, 6);
    // 3.5 % for each 1,000 ft above 1,000 ft; 2 % for each 10 °F above 85 °F (a 5 kW set's manual).
    expect(at(5000, 85)).toBeCloseTo(5000 * 0.86, 6);
    expect(at(0, 105)).toBeCloseTo(5000 * 0.96, 6);
    expect(at(5000, 105)).toBeCloseTo(5000 * (1 - 0.14 - 0.04), 6);
  });

  it("gives as many watts as its volt-amperes times its power factor", () => {
    const request = withGenerator([press("press", 1600)], 2000, 2400);
    if (request.generator === undefined) throw new Error("no generator");
    const plan = planned({ ...request, generator: { ...request.generator, powerFactor: 0.8 } });
    expect(plan.fits).toBe(false);
    expect(plan.generator?.availableRunningWatts).toBeCloseTo(1600, 9);
    expect(plan.least).toMatchObject({ change: "larger-generator", runningWatts: 2500 });
  });

  it("says that it does not fit, and starts nothing that has no place", () => {
    const request = withGenerator([press("press-a", 1500), press("press-b", 1500)], 6000, 7000);
    const plan = planned({ ...request, circuits: [circuit("g1", 20)] });
    expect(plan.unplaced).toHaveLength(1);
    expect(plan.warmUp.together).toBe("does-not-fit");
    const started = plan.warmUp.turns.flatMap(({ loads }) => loads);
    expect(started).toHaveLength(1);
    expect(started).not.toContain(plan.unplaced[0]);
    expect(plan.warmUp.ready.map(({ load }) => load)).toEqual(started);
  });

  it("adds its own cautions", () => {
    expect(planned(withGenerator([press("press", 1500)], 3000, 3500)).cautions.join()).toContain(
      "exhaust kills",
    );
  });
});
