import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Change, type PowerLoad, PowerRequest } from "../../src/model/planning/power.ts";
import { planPower } from "../../src/planning/power/power.ts";
import { circuit, lamp, planned, press, usual } from "./stall-loads.ts";

type BoxChange = Extract<Change, { change: "distribution-box" }>;

function faultsOf(request: PowerRequest): readonly string[] {
  const answer = planPower(PowerRequest.parse(request));
  if (answer.ok) throw new Error("no fault was found");
  for (const fault of answer.refusal) expect(fault.mend.length).toBeGreaterThan(10);
  return answer.refusal.map(({ pointer }) => pointer);
}

/** The fewest circuits, by trying every circuit for every load; null when they do not fit. */
function byBruteForce({ loads, circuits }: PowerRequest): number | null {
  let best: number | null = null;
  // NEC 210.20(A) and 210.23(A)(1): continuous, or more than 80 % of the smallest circuit.
  const counted = (load: PowerLoad): number => {
    const amps = (load.watts ?? 0) / 120;
    return amps * (load.continuous === true || amps > 12 ? 1.25 : 1);
  };
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
      const breaker = circuits[index]?.breakerAmps ?? 0;
      // Ordinary plugs go on circuits of up to 20 A.
      if (breaker <= 20 && amps <= breaker + 1e-9) place(at + 1, on.with(index, all));
    });
  };
  place(
    0,
    circuits.map(() => []),
  );
  return best;
}

/** The circuits of a request with a box on those that are named. */
const boxed = (
  { circuits }: PowerRequest,
  { circuits: names, breakerAmps, outlets }: Pick<BoxChange, "circuits" | "breakerAmps" | "outlets">,
): PowerRequest["circuits"] =>
  circuits.map((each) => (names.includes(each.circuit) ? { ...each, box: { breakerAmps, outlets } } : each));

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
          else if (change.change === "distribution-box") changed.circuits = boxed(request, change);
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
          if (change.change === "distribution-box" && change.outlets > 1) {
            const fewer = boxed(request, { ...change, outlets: change.outlets - 1 });
            expect(planned({ ...request, circuits: fewer }).fits).toBe(false);
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
    // 8 A and 7 A: 15 A in all, or 18.75 A as continuous loads.
    const request = { ...usual, loads: [lamp("a", 960), lamp("b", 840)], circuits: [circuit("A", 15)] };
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
    expect(planPower(plate(1320)).ok).toBe(true);
    expect(planPower(plate(1080)).ok).toBe(true);
    expect(faultsOf(plate(1321))).toEqual(["#/loads/0/watts"]);
    expect(faultsOf(plate(1079))).toEqual(["#/loads/0/watts"]);
  });

  it("takes sixty loads and refuses sixty-one", () => {
    const many = (count: number) => ({
      ...usual,
      circuits: [circuit("A", 20)],
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
