import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PowerLoad, SiteCircuit } from "../../src/model/power.ts";
import { PowerPlan, PowerRequest } from "../../src/model/power.ts";
import { planPower } from "../../src/planning/power.ts";

const press = (load: string, watts: number, more: Partial<PowerLoad> = {}): PowerLoad => ({
  load,
  kind: "press",
  watts,
  volts: 120,
  ...more,
});
const lamp = (load: string, watts: number): PowerLoad => ({ load, kind: "light", watts, volts: 120 });
const circuit = (name: string, breakerAmps: number, volts = 120): SiteCircuit => ({
  circuit: name,
  volts,
  breakerAmps,
});

const usual: PowerRequest = {
  region: "north-america",
  hours: 9,
  loads: [press("press-a", 1800), press("press-b", 1500), lamp("lights", 240)],
  circuits: [circuit("A", 20), circuit("B", 20), circuit("C", 15)],
};

function planned(request: PowerRequest): PowerPlan {
  const answer = planPower(PowerRequest.parse(request));
  if (answer.kind !== "plan") throw new Error(JSON.stringify(answer.faults));
  return PowerPlan.parse(answer.plan);
}

function faultsOf(request: PowerRequest): readonly string[] {
  const answer = planPower(PowerRequest.parse(request));
  if (answer.kind === "plan") throw new Error("no fault was found");
  for (const fault of answer.faults) expect(fault.mend.length).toBeGreaterThan(10);
  return answer.faults.map(({ pointer }) => pointer);
}

/** The fewest circuits, by trying every circuit for every load; null when they do not fit. */
function byBruteForce({ loads, circuits }: PowerRequest): number | null {
  let best: number | null = null;
  const counted = (load: PowerLoad): number =>
    ((load.watts ?? 0) / 120) * (load.continuous === true ? 1.25 : 1);
  const place = (at: number, on: readonly (readonly PowerLoad[])[]): void => {
    const used = on.filter((here) => here.length > 0).length;
    if (best !== null && used >= best) return;
    const load = loads[at];
    if (load === undefined) {
      best = used;
      return;
    }
    on.forEach((here, index) => {
      const all = [...here, load];
      if (all.length > 1 && all.some(({ ownCircuit }) => ownCircuit === true)) return;
      const amps = all.reduce((sum, each) => sum + counted(each), 0);
      if (amps <= (circuits[index]?.breakerAmps ?? 0) + 1e-9) place(at + 1, on.with(index, all));
    });
  };
  place(
    0,
    circuits.map(() => []),
  );
  return best;
}

const anyLoad = fc.record({
  kind: fc.constantFrom("press" as const, "light" as const),
  watts: fc.constantFrom(60, 100, 250, 400, 600, 800, 1000, 1200, 1500, 1800),
  volts: fc.constant(120),
  continuous: fc.boolean(),
  ownCircuit: fc.boolean(),
});
const anyRequest = fc
  .record({
    loads: fc.array(anyLoad, { minLength: 1, maxLength: 10 }),
    breakers: fc.array(fc.constantFrom(15, 20, 30), { minLength: 1, maxLength: 5 }),
  })
  .map(
    ({ loads, breakers }): PowerRequest => ({
      region: "north-america",
      hours: 9,
      loads: loads.map((load, index) => ({ ...load, load: `load ${index}` })),
      circuits: breakers.map((amps, index) => circuit(`circuit ${index}`, amps)),
    }),
  );

describe("sharing loads over circuits", () => {
  it("uses as few circuits as brute force, and says so rightly when nothing fits", () => {
    fc.assert(
      fc.property(anyRequest, (request) => {
        const plan = planned(request);
        const fewest = byBruteForce(request);
        expect(plan.fits).toBe(fewest !== null);
        if (fewest === null) return;
        expect(plan.circuitsUsed).toBe(fewest);
        expect(plan.circuitsAtLeast).toBe(fewest);
        for (const use of plan.circuits) {
          expect(use.countedAmps).toBeLessThanOrEqual(use.breakerAmps + 1e-6);
          if (use.loads.some(({ alone }) => alone)) expect(use.loads).toHaveLength(1);
        }
        const placed = plan.circuits.flatMap(({ loads }) => loads.map(({ load }) => load));
        expect(placed.sort()).toEqual(request.loads.map(({ load }) => load).sort());
      }),
      { numRuns: 300 },
    );
  });

  it("offers changes that do make it fit, the least first", () => {
    fc.assert(
      fc.property(anyRequest, (request) => {
        const plan = planned(request);
        if (plan.fits) return;
        for (const change of plan.changes) {
          if (change.change === "larger-generator") throw new Error("there is no generator");
          const changed: PowerRequest = { ...request };
          if (change.change === "more-circuits")
            changed.circuits = [
              ...request.circuits,
              ...change.circuits.map((kind, index) => circuit(`more ${index}`, kind.breakerAmps)),
            ];
          else if (change.change === "fewer-presses")
            changed.loads = request.loads.filter(({ load }) => !change.leave.includes(load));
          else
            changed.loads = request.loads.map((load) =>
              change.presses.includes(load.load)
                ? { ...load, watts: Math.min(load.watts ?? 0, change.mostWatts) }
                : load,
            );
          if (changed.loads.length > 0) expect(planned(changed).fits).toBe(true);
          // One thing less is not enough.
          if (change.change === "more-circuits") {
            const fewer = { ...changed, circuits: changed.circuits.slice(0, -1) };
            expect(planned(fewer).fits).toBe(false);
          }
          if (change.change === "smaller-presses") {
            const larger = request.loads.map((load) =>
              change.presses.includes(load.load)
                ? { ...load, watts: Math.min(load.watts ?? 0, change.mostWatts + 1) }
                : load,
            );
            expect(planned({ ...request, loads: larger }).fits).toBe(false);
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  it("adds nothing for continuous loads in Europe", () => {
    const request: PowerRequest = {
      region: "europe",
      hours: 9,
      loads: [{ load: "press", kind: "press", watts: 3680, volts: 230 }],
      circuits: [circuit("A", 16, 230)],
    };
    expect(planned(request).fits).toBe(true);
    expect(planned({ ...request, circuits: [circuit("A", 15, 230)] }).fits).toBe(false);
  });

  it("keeps 120 V and 240 V loads on their own circuits", () => {
    const plan = planned({
      ...usual,
      loads: [...usual.loads, press("large-press", 2400, { volts: 240 })],
      circuits: [...usual.circuits, circuit("D", 20, 240)],
    });
    expect(plan.circuits.find(({ volts }) => volts === 240)?.loads.map(({ load }) => load)).toEqual([
      "large-press",
    ]);
  });

  it("counts a load as continuous from three hours on", () => {
    const request = { ...usual, loads: [press("press", 2300)], circuits: [circuit("A", 20)] };
    expect(planned({ ...request, hours: 2.9 }).fits).toBe(true);
    expect(planned({ ...request, hours: 3 }).fits).toBe(false);
  });
});

describe("what to order", () => {
  it("names the circuits given, in one sentence", () => {
    const { order, fits } = planned(usual);
    expect(fits).toBe(true);
    expect(order).toMatch(/^[A-Z].*[^.]\.$/);
    expect(order).not.toContain(". ");
    expect(order).toContain("three circuits");
    expect(order).toContain("press-a alone, which draws 15 A");
  });

  it("chooses the cheapest kind that carries each share when nothing is given", () => {
    const plan = planned({
      ...usual,
      currency: "USD",
      circuits: [],
      offered: [
        { volts: 120, breakerAmps: 15, price: "$40" },
        { volts: 120, breakerAmps: 20, price: 60 },
        { volts: 120, breakerAmps: 30, price: "90.00" },
      ],
    });
    // 1,800 W counts 18.75 A; 1,500 W counts 15.63 A; the lights 2.5 A.
    expect(plan.circuits.map(({ breakerAmps }) => breakerAmps).sort()).toEqual([15, 20, 20]);
    expect(plan.orderPrice).toBe(16_000);
    expect(plan.circuits.every(({ ordered }) => ordered)).toBe(true);
  });

  it("asks for one circuit more when that is the least change", () => {
    const plan = planned({ ...usual, circuits: usual.circuits.slice(0, 2) });
    expect(plan.fits).toBe(false);
    expect(plan.least).toMatchObject({
      change: "more-circuits",
      circuits: [{ volts: 120, breakerAmps: 20 }],
    });
    expect(plan.order).toContain("one more of 120 V, 20 A");
  });

  it("asks for a smaller press when breakers are too small and no larger one can be had", () => {
    const plan = planned({
      ...usual,
      loads: [press("press-a", 1800)],
      circuits: [circuit("A", 15)],
      offered: [{ volts: 120, breakerAmps: 15 }],
    });
    expect(plan.least).toMatchObject({ change: "smaller-presses", presses: ["press-a"], mostWatts: 1440 });
  });
});

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

describe("cautions", () => {
  it("are printed always, in every region", () => {
    for (const region of ["north-america", "united-kingdom", "europe"] as const) {
      const volts = region === "north-america" ? 120 : 230;
      const text = planned({
        region,
        hours: 1,
        loads: [{ load: "lamp", kind: "light", watts: 10, volts }],
        circuits: [],
      }).cautions.join("\n");
      for (const words of [
        /ground-fault protection|residual-current device/,
        /off walkways/,
        /out of the wet/,
        /no strip into a strip/,
        /licensed electrician/,
        /fair's own rules decide/,
      ])
        expect(text).toMatch(words);
    }
  });
});

describe("bad input", () => {
  it("names every fault at once", () => {
    expect(
      faultsOf({
        region: "north-america",
        hours: 9,
        loads: [
          { load: "a", kind: "press", watts: 1500 },
          { load: "b", kind: "press", watts: 1500, volts: 230 },
          { load: "c", kind: "press", watts: 1500, amps: 10, volts: 120 },
          { load: "c", kind: "light", volts: 120 },
          press("d", 1500, {
            cord: { distance: { value: 30, unit: "ft" }, length: { value: 8, unit: "m" } },
          }),
          press("e", 1500, { cord: { distance: { value: -3, unit: "ft" }, size: "3 AWG" } }),
        ],
        circuits: [circuit("A", 0), circuit("A", 20)],
      }),
    ).toEqual([
      "#/circuits/0/breakerAmps",
      "#/circuits/1/circuit",
      "#/loads/3/load",
      "#/loads/0/volts",
      "#/loads/1/volts",
      "#/loads/2/watts",
      "#/loads/3",
      "#/loads/4/cord/length",
      "#/loads/5/cord/distance/value",
      "#/loads/5/cord/size",
    ]);
  });

  it("lets watts and amps differ by a tenth and no more", () => {
    const plate = (watts: number) => ({ ...usual, loads: [press("a", watts, { amps: 10 })] });
    expect(planPower(plate(1320)).kind).toBe("plan");
    expect(planPower(plate(1080)).kind).toBe("plan");
    expect(faultsOf(plate(1321))).toEqual(["#/loads/0/watts"]);
    expect(faultsOf(plate(1079))).toEqual(["#/loads/0/watts"]);
  });

  it("takes sixty loads and refuses sixty-one", () => {
    const many = (count: number) => ({
      ...usual,
      circuits: [circuit("A", 100)],
      loads: Array.from({ length: count }, (_, index) => lamp(`lamp ${index}`, 10)),
    });
    expect(planned(many(60)).circuitsUsed).toBe(1);
    expect(faultsOf(many(61))).toEqual(["#/loads"]);
  });

  it("refuses a generator whose figures cannot be", () => {
    const generator = {
      runningWatts: 4000,
      startingWatts: 3000,
      consumption: [
        { share: 0.5, rate: { value: -1, unit: "L/h" as const } },
        { share: 0.5, rate: { value: 1, unit: "L/h" as const } },
      ],
    };
    expect(faultsOf({ ...usual, circuits: [], generator })).toEqual([
      "#/circuits",
      "#/generator/startingWatts",
      "#/generator/consumption/0/rate/value",
      "#/generator/consumption",
    ]);
  });
});
