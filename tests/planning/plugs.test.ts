import { describe, expect, it } from "vitest";
import { circuit, lamp, planned, press, usual } from "./stall-loads.ts";

describe("plugs and receptacles", () => {
  it("are named with each circuit and in the sentence to the organiser", () => {
    const { circuits, order } = planned(usual);
    expect(circuits.map(({ receptacle }) => receptacle?.slice(0, 34))).toEqual([
      "20 A 125 V receptacle (NEMA 5-20) ",
      "20 A 125 V receptacle (NEMA 5-20) ",
      "15 A 125 V receptacle (NEMA 5-15) ",
    ]);
    expect(order).toContain("20 A 125 V receptacle (NEMA 5-20)");
  });

  it("a press that draws 15 A asks for a 20 A circuit, and says why", () => {
    const plan = planned({ ...usual, circuits: [], loads: [press("press", 1800)] });
    expect(plan.circuits.map(({ breakerAmps }) => breakerAmps)).toEqual([20]);
    expect(plan.notes.join()).toContain("press draws 15 A: it wants a 20 A circuit");
  });

  it("refuses a 30 A circuit at 120 V for ordinary plugs, and asks for a box", () => {
    const request = {
      ...usual,
      loads: [press("press-a", 1400), press("press-b", 1400)],
      circuits: [circuit("D", 30)],
    };
    const plan = planned(request);
    expect(plan.fits).toBe(false);
    expect(plan.unplaced).toEqual(["press-a", "press-b"]);
    expect(plan.warmUp.turns).toEqual([]);
    expect(plan.least).toMatchObject({ change: "distribution-box", circuits: ["D"], outlets: 2 });
    expect(plan.order).toContain("a distribution box with two outlets on D");
    expect(plan.notes.join()).toContain("D (30 A) takes no ordinary plug");
    const withBox = { ...circuit("D", 30), box: { breakerAmps: 20, outlets: 2 } };
    const boxed = planned({ ...request, circuits: [withBox] });
    expect(boxed.fits).toBe(true);
    expect(boxed.circuits.map(({ carriesAmps }) => carriesAmps)).toEqual([15, 15]);
  });

  it("asks for a box too if only large circuits can be ordered", () => {
    const plan = planned({
      ...usual,
      loads: [press("press", 1800)],
      circuits: [],
      offered: [{ volts: 120, breakerAmps: 50 }],
    });
    expect(plan.fits).toBe(false);
    expect(plan.order).toContain("distribution box");
  });

  it("never lets a box's outlets take more than its circuit together", () => {
    for (const [breaker, outlets] of [
      [30, 1],
      [30, 2],
      [50, 3],
      [50, 12],
    ] as const) {
      const box = { breakerAmps: 20, outlets };
      const { circuits } = planned({
        ...usual,
        loads: [lamp("lamp", 100)],
        circuits: [{ ...circuit("D", breaker), box }],
      });
      const carried = circuits.reduce((sum, { carriesAmps }) => sum + carriesAmps, 0);
      expect(carried).toBeLessThanOrEqual(breaker + 1e-9);
      expect(Math.max(...circuits.map(({ carriesAmps }) => carriesAmps))).toBeLessThanOrEqual(20);
    }
  });

  it("leaves them to the licensed electrician outside North America", () => {
    const plan = planned({
      region: "europe",
      hours: 9,
      loads: [{ load: "press", kind: "press", watts: 2000, volts: 230 }],
      circuits: [circuit("A", 32, 230)],
    });
    expect(plan.circuits[0]?.receptacle).toBeNull();
    expect(plan.notes.join()).toContain("Ask the licensed electrician which plugs may go on A");
    expect(plan.rules.map(({ source }) => source)).toContain("no rule that we could cite");
  });
});

describe("a till", () => {
  const till = { load: "till", kind: "till", watts: 60, volts: { from: 100, to: 240 } } as const;

  it("needs no circuit of its own beside a press with room", () => {
    const loads = [press("press", 1200), till];
    const given = planned({ ...usual, loads, circuits: [circuit("A", 20)] });
    expect(given.fits).toBe(true);
    expect(given.circuitsUsed).toBe(1);
    expect(planned({ ...usual, loads, circuits: [] }).circuits).toHaveLength(1);
  });

  it("stays off a press's circuit that is full, or that was asked for alone", () => {
    for (const full of [press("press", 1920), press("press", 1200, { ownCircuit: true })]) {
      const plan = planned({ ...usual, loads: [full, till], circuits: [circuit("A", 20)] });
      expect(plan.unplaced).toEqual(["till"]);
    }
  });

  it("goes with the lights if they have a circuit anyway", () => {
    const plan = planned({
      ...usual,
      loads: [press("press", 1200), till, lamp("lights", 100)],
      circuits: [],
    });
    expect(plan.circuits.map(({ loads }) => loads.map(({ load }) => load))).toEqual([
      ["press"],
      ["till", "lights"],
    ]);
  });
});

describe("checks", () => {
  it("each name what they were held against", () => {
    const plan = planned({ ...usual, loads: [...usual.loads, press("press-c", 1500)] });
    expect(plan.checks.every(({ source, says }) => source.length > 5 && says.endsWith("."))).toBe(true);
    expect(plan.checks.map(({ source }) => source)).toContain("NEC 210.23(A)(1)");
    const broken = plan.checks.filter(({ holds }) => !holds);
    expect(broken.map(({ about }) => about)).toEqual(plan.unplaced);
  });
});
