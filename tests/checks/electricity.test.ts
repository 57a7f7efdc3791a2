import { describe, expect, it } from "vitest";
import { lightestSafe, whyUnsafe } from "../../src/planning/power/cords.ts";
import { planPower } from "../../src/planning/power/power.ts";
import {
  atCelsius,
  CORD_SIZES,
  dropVolts,
  gaugeCircularMils,
  gaugeInches,
  gaugeSquareMillimetres,
} from "../../src/planning/power/wire.ts";
import { BARE_METAL_BURNS, powerCautions } from "../../src/planning/words/cautions.ts";
import { REGION_RULES } from "../../src/planning/words/region-rules.ts";

const METRES_PER_FOOT = 0.3048;

/** Whether one load of this current fits alone on one circuit; its plug is as large as the circuit. */
function fits(
  amps: number,
  breakerAmps: number,
  volts: number,
  continuous: boolean,
  plugAmps: number = breakerAmps,
): boolean {
  const answer = planPower({
    region: "north-america",
    hours: 8,
    loads: [{ load: "press", kind: "press", amps, volts, continuous, plugAmps }],
    circuits: [{ circuit: "A", volts, breakerAmps }],
  });
  if (!answer.ok) throw new Error(JSON.stringify(answer.refusal));
  return answer.value.fits;
}

describe("continuous loads, NEC 210.20(A): non-continuous plus 125 % of continuous", () => {
  it.each([
    [15, 120, 12, 1440],
    [20, 120, 16, 1920],
    [30, 120, 24, 2880],
    [20, 240, 16, 3840],
  ])(
    "a %i A breaker at %i V carries %i A, %i W, for three hours and no more",
    (breaker, volts, amps, watts) => {
      expect(fits(amps, breaker, volts, true)).toBe(true);
      expect(fits(watts / volts, breaker, volts, true)).toBe(true);
      expect(fits(amps + 0.01, breaker, volts, true)).toBe(false);
      // NEC 210.23(A)(1); for 30 A 210.23(B), from memory: one plug takes 80 % at most, whatever the hours.
      expect(fits(amps, breaker, volts, false)).toBe(true);
      expect(fits(amps + 0.01, breaker, volts, false)).toBe(false);
    },
  );

  // EC&M, "Code Q&A: Cord- and Plug-Connected Equipment", 2012-09-06: a listed load with a 15 A plug may draw 15 A.
  it("a press that draws 15 A does not go on a 15 A circuit, and does on one of 20 A", () => {
    for (const continuous of [true, false]) {
      expect(fits(15, 15, 120, continuous, 15)).toBe(false);
      expect(fits(15, 20, 120, continuous, 15)).toBe(true);
    }
  });

  // NEC Table 210.21(B)(3): 15 A receptacles on 15 A, 15 or 20 A on 20 A, 30 A on 30 A, 50 A on 50 A circuits.
  it.each([
    [15, 15, true],
    [15, 20, true],
    [20, 20, true],
    [15, 30, false],
    [20, 30, false],
    [30, 30, true],
    [30, 20, false],
    [30, 50, false],
    [15, 50, false],
    [50, 50, true],
  ])("a %i A plug and a %i A circuit: %s", (plug, breaker, may) => {
    for (const volts of [120, 240]) expect(fits(5, breaker, volts, true, plug)).toBe(may);
  });

  it("10 A continuous and 5 A not count 17.5 A and want a 20 A device", () => {
    const answer = planPower({
      region: "north-america",
      hours: 8,
      loads: [
        { load: "press", kind: "press", amps: 10, volts: 120, continuous: true, ownCircuit: false },
        { load: "kettle", kind: "other", amps: 5, volts: 120, continuous: false },
      ],
      circuits: [
        { circuit: "A", volts: 120, breakerAmps: 15 },
        { circuit: "B", volts: 120, breakerAmps: 20 },
      ],
    });
    if (!answer.ok) throw new Error("faults");
    const used = answer.value.circuits.filter(({ loads }) => loads.length > 0);
    expect(used.map(({ circuit, countedAmps }) => [circuit, countedAmps])).toEqual([["B", 17.5]]);
  });
});

describe("a generator's starts", () => {
  // Worked example in a portable generator's manual (read in a stored copy): running watts add up to 3,075, and
  // the highest additional surge of 1,800 on top makes 4,875.
  it("worked example: 3,075 W running and 4,875 W with the highest start", () => {
    const rows = [
      ["window cooler", 1200, 1800],
      ["refrigerator", 800, 1600],
      ["deep freezer", 500, 500],
      ["screen", 500, 0],
      ["lamp", 75, 0],
    ] as const;
    const answer = planPower({
      region: "north-america",
      hours: 8,
      loads: rows.map(([load, watts, surge]) => ({
        load,
        kind: "other",
        watts,
        volts: 120,
        startingWatts: watts + surge,
      })),
      circuits: ["1", "2", "3", "4"].map((circuit) => ({ circuit, volts: 120, breakerAmps: 20 })),
      generator: { runningWatts: 5000, startingWatts: 6000, consumption: [] },
    });
    if (!answer.ok) throw new Error(JSON.stringify(answer.refusal));
    expect(answer.value.generator).toMatchObject({ runningWatts: 3075, worstStartWatts: 4875, holds: true });
  });
});

describe("copper", () => {
  // ASTM B258: 0.005 in x 92^((36 - n) / 39); its tabulated values.
  it.each([
    [16, 0.050821, 1.291, 1.31],
    [14, 0.064084, 1.628, 2.08],
    [12, 0.080808, 2.053, 3.31],
    [10, 0.101897, 2.588, 5.26],
    [8, 0.12849, 3.264, 8.37],
  ])("ASTM B258: %i AWG is %d in, %d mm, %d mm2", (gauge, inches, millimetres, area) => {
    expect(gaugeInches(gauge)).toBeCloseTo(inches, 6);
    expect(gaugeInches(gauge) * 25.4).toBeCloseTo(millimetres, 3);
    expect(gaugeSquareMillimetres(gauge)).toBeCloseTo(area, 2);
    expect(gaugeInches(gauge - 1) / gaugeInches(gauge)).toBeCloseTo(1.1229322, 7);
  });

  // NEC Chapter 9 Table 8: circular mils, and stranded uncoated copper at 75 °C in ohms per 1,000 ft.
  it.each([
    ["16 AWG", 16, 2580, 4.99, 4.89],
    ["14 AWG", 14, 4110, 3.14, 3.07],
    ["12 AWG", 12, 6530, 1.98, 1.93],
    ["10 AWG", 10, 10_380, 1.24, 1.21],
    ["8 AWG", 8, 16_510, 0.778, 0.764],
  ])("NEC Table 8: %s", (size, gauge, mils, stranded, solid) => {
    const cord = CORD_SIZES.awg.find((each) => each.size === size);
    expect((cord?.ohmsPerKilometre ?? 0) * METRES_PER_FOOT).toBeCloseTo(stranded, 9);
    // The table rounds its areas to four figures at most.
    expect(Math.abs(gaugeCircularMils(gauge) / mils - 1)).toBeLessThan(0.002);
    // Annealed copper, 1/58 ohm mm2 per m at 20 °C (IEC 60028), from the B258 area: the table's solid column.
    const perThousandFeet = (atCelsius(1 / 58, 75) / gaugeSquareMillimetres(gauge)) * 1000 * METRES_PER_FOOT;
    expect(Math.abs(perThousandFeet / solid - 1)).toBeLessThan(0.005);
  });

  // NEC Table 400.5(A)(1), column B; 10 AWG from memory.
  it.each([
    ["16 AWG", 13],
    ["14 AWG", 18],
    ["12 AWG", 25],
    ["10 AWG", 30],
  ])("NEC Table 400.5(A)(1): a %s cord may carry %i A", (size, amps) => {
    expect(CORD_SIZES.awg.find((each) => each.size === size)?.ratedAmps).toBe(amps);
  });

  // IEC 60228 class 5: 13.3 and 7.98 ohm per km at 20 °C; Kt 0.833 at 70 °C.
  it.each([
    ["1.5 mm2", 13.3],
    ["2.5 mm2", 7.98],
  ])("IEC 60228: %s", (size, atTwenty) => {
    const cord = CORD_SIZES.mm2.find((each) => each.size === size);
    expect(Math.abs((0.833 * (cord?.ohmsPerKilometre ?? 0)) / atTwenty - 1)).toBeLessThan(0.005);
  });

  it.each([
    [25, 0.98],
    [30, 0.962],
    [40, 0.926],
    [50, 0.893],
    [60, 0.862],
    [70, 0.833],
    [75, 0.82],
  ])("IEC 60228: resistance at %i °C times %d is that at 20 °C", (celsius, factor) => {
    expect(1 / atCelsius(1, celsius)).toBeCloseTo(factor, 2);
  });
});

describe("voltage drop", () => {
  // Licence-examination lesson, tradelicenseprep.com: 120 V, 20 A, 100 ft one way, K = 12.9 ohm circular mils per ft.
  it.each([
    ["12 AWG", 12.9 / 6530, 7.902, 6.585],
    ["8 AWG", 12.9 / 16_510, 3.125, 2.604],
  ])("worked example, %s", (_size, ohmsPerFoot, drop, percent) => {
    const perKilometre = (ohmsPerFoot / METRES_PER_FOOT) * 1000;
    const lost = dropVolts(20, 100 * METRES_PER_FOOT, perKilometre);
    expect(lost).toBeCloseTo(drop, 3);
    expect((lost / 120) * 100).toBeCloseTo(percent, 3);
  });

  it("the same run by NEC Table 8: 12 AWG loses 7.92 V", () => {
    const cord = CORD_SIZES.awg.find(({ size }) => size === "12 AWG");
    expect(dropVolts(20, 100 * METRES_PER_FOOT, cord?.ohmsPerKilometre ?? 0)).toBeCloseTo(7.92, 9);
  });

  // NEC 210.19(A), informational note: 3 % at the farthest outlet.
  it("chooses the first size within 3 %", () => {
    const task = {
      amps: 16,
      countedAmps: 16,
      socketVolts: 120,
      lengthMetres: 100 * METRES_PER_FOOT,
      breakerAmps: 20,
      plugAmps: 20,
    };
    // 16 A over 100 ft: 10 AWG loses 3.97 V (3.3 %), 8 AWG 2.49 V (2.1 %), by Table 8.
    expect(lightestSafe(task, REGION_RULES["north-america"])?.size).toBe("8 AWG");
  });

  // NEC 240.5(B)(4): 16 AWG or larger behind a 20 A breaker.
  it("lets 16 AWG behind 20 A, not behind 30 A", () => {
    const [thin] = CORD_SIZES.awg;
    if (thin === undefined) throw new Error("no cord sizes");
    const task = {
      amps: 5,
      countedAmps: 5,
      socketVolts: 120,
      lengthMetres: 5,
      breakerAmps: 20,
      plugAmps: 15,
    };
    expect(whyUnsafe(thin, task, REGION_RULES["north-america"])).toEqual([]);
    expect(whyUnsafe(thin, { ...task, breakerAmps: 30 }, REGION_RULES["north-america"])).toHaveLength(1);
  });
});

describe("contact burns", () => {
  // EN 563:1994 (now ISO 13732-1) as reprinted in DGUV Vorschrift 79, notes to section 12: uncoated metal.
  it("quotes the standard's thresholds for bare metal", () => {
    expect(BARE_METAL_BURNS).toEqual({
      oneSecond: { from: 65, to: 70 },
      oneMinute: 51,
      tenMinutes: 48,
      eightHours: 43,
    });
  });

  it("prints them with every power plan, beside the platen's own heat", () => {
    const cautions = powerCautions(REGION_RULES.europe, 185, false).join("\n");
    expect(cautions).toContain(
      "bare metal of 65 to 70 °C (149 to 158 °F) burns skin within one second (ISO 13732-1)",
    );
    expect(cautions).toContain("185 °C (365 °F)");
  });
});
