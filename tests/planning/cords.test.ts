import { describe, expect, it } from "vitest";
import type { PowerLoad, PowerRequest } from "../../src/model/planning/power.ts";
import { circuit, planned } from "./stall-loads.ts";

describe("cords", () => {
  const run = (more: Partial<PowerLoad>, region: PowerRequest["region"] = "north-america") => {
    const volts = region === "north-america" ? 120 : 230;
    const plan = planned({
      region,
      hours: 9,
      loads: [{ load: "press", kind: "press", watts: 1500, volts, ...more }],
      circuits: [circuit("A", region === "north-america" ? 20 : 16, volts)],
    });
    const [cord] = plan.cords;
    if (cord === undefined) throw new Error("no cord");
    return { cord, plan };
  };

  it("takes the next usual length and the lightest size that is safe at it", () => {
    const { cord } = run({ cord: { distance: { value: 30, unit: "ft" } } });
    expect(cord.lengthFeet).toBeCloseTo(50, 9);
    // 12.5 A over 50 ft: 14 AWG loses 3.93 V (3.3 %), 12 AWG 2.48 V (2.1 %).
    expect(cord.size).toBe("12 AWG");
    expect(cord.dropVolts).toBeCloseTo((2 * 50 * 1.98 * 12.5) / 1000, 9);
  });

  it("heats with the square of the voltage that arrives", () => {
    const { cord, plan } = run({
      cord: { distance: { value: 30, unit: "ft" } },
      warmUpMinutes: 10,
      holdingShare: 0,
    });
    const cordOhms = (2 * 50 * 1.98) / 1000;
    const elementOhms = 120 / 12.5;
    const arriving = (120 * elementOhms) / (elementOhms + cordOhms);
    expect(cord.voltsAtLoad).toBeCloseTo(arriving, 9);
    expect(cord.heatShare).toBeCloseTo((arriving / 120) ** 2, 9);
    expect(plan.warmUp.allReadyMinute).toBeCloseTo(10 * (120 / arriving) ** 2, 9);
  });

  it("warms up slower still when much heat is lost, as a step-by-step reckoning shows", () => {
    const holding = 0.4;
    const { cord } = run({
      cord: { distance: { value: 45, unit: "ft" } },
      warmUpMinutes: 10,
      holdingShare: holding,
    });
    const heat = cord.heatShare ?? Number.NaN;
    const minutesTo = (power: number): number => {
      let minutes = 0;
      for (let warmth = 0; warmth < 1; minutes += 0.0001) warmth += 0.0001 * (power - holding * warmth);
      return minutes;
    };
    expect((cord.warmUpMinutes ?? 0) / 10).toBeCloseTo(minutesTo(heat) / minutesTo(1), 3);
  });

  it("says when a press would never get hot", () => {
    const { plan } = run({ cord: { distance: { value: 50, unit: "ft" } }, holdingShare: 0.97 });
    expect(plan.notes).toContain("press would never reach its heat on so low a voltage.");
  });

  it("judges a cord already owned", () => {
    const { cord } = run({ cord: { distance: { value: 30, unit: "ft" }, size: "16 AWG" } });
    expect(cord.own).toMatchObject({ size: "16 AWG", safe: false });
    expect(cord.own?.why).toHaveLength(2);
    expect(cord.says).toMatch(/^Do not use the 16 AWG cord/);
  });

  it("advises against a drop between 3 % and 5 %, and calls only more unsafe", () => {
    // 8 A over 50 ft of 14 AWG loses 2.51 V (2.1 %), over 100 ft 5.02 V (4.2 %), over 150 ft 7.54 V (6.3 %).
    const judged = (feet: number) =>
      run({
        watts: 960,
        cord: {
          distance: { value: feet, unit: "ft" },
          length: { value: feet, unit: "ft" },
          size: "14 AWG",
        },
      }).cord;
    expect(judged(50).own).toMatchObject({ judgement: "good", safe: true, why: [] });
    expect(judged(100).own).toMatchObject({ judgement: "advised-against", safe: true });
    expect(judged(100).says).toContain("not unsafe for press");
    expect(judged(150).own).toMatchObject({ judgement: "unsafe", safe: false });
  });

  it("finds none for a run too long, and says so", () => {
    const { cord } = run({ watts: 1900, cord: { distance: { value: 140, unit: "m" } } });
    expect(cord.size).toBeNull();
    expect(cord.says).toContain("bring the socket nearer");
  });

  it("never takes a conductor lighter than what protects it, in square millimetres", () => {
    const { cord } = run({ watts: 2000, cord: { distance: { value: 4, unit: "m" } } }, "europe");
    expect(cord).toMatchObject({ size: "1.5 mm2", ratedAmps: 16, lengthMetres: 5 });
  });
});
