import { describe, expect, it } from "vitest";
import { OrganiserSheet } from "../../src/model/planning/organiser-sheet.ts";
import { organiserSheet } from "../../src/planning/organiser-sheet.ts";
import { planPitch } from "../../src/planning/pitch/pitch.ts";
import { planPower } from "../../src/planning/power/power.ts";

const power = planPower({
  region: "north-america",
  hours: 9,
  pressTemperature: { value: 160, unit: "C" },
  loads: [
    { load: "press-a", kind: "press", watts: 1500, volts: 120, warmUpMinutes: 18 },
    { load: "lights", kind: "light", watts: 100, volts: 120 },
  ],
  circuits: [],
});
const pitch = planPitch({
  pitch: { width: { value: 10, unit: "ft" }, depth: { value: 10, unit: "ft" } },
  pieces: [
    { piece: "counter", kind: "counter", width: { value: 6, unit: "ft" }, depth: { value: 30, unit: "in" } },
    { piece: "press-a", kind: "press", width: { value: 24, unit: "in" }, depth: { value: 24, unit: "in" } },
  ],
  queue: { people: 8, where: "outside" },
});
if (!power.ok || !pitch.ok) throw new Error("the example is good");
const given = {
  stall: "Tern & Thistle",
  fair: "Harbour Fair",
  day: "Saturday 12 June",
  opens: "10:00",
  closes: "18:00",
  pitch: pitch.value,
  power: power.value,
};

describe("the organiser's sheet", () => {
  const sheet = OrganiserSheet.parse(organiserSheet(given));

  it("asks about everything the day hangs on", () => {
    expect(new Set(sheet.questions.map(({ about }) => about))).toEqual(
      new Set(["foot traffic", "hours", "load-in", "pitch", "power", "weather cover", "network"]),
    );
  });

  it("holds the power order, the pitch and every caution", () => {
    expect(sheet.power[0]).toBe(power.value.order);
    expect(sheet.pitch[0]).toContain("3.05 m (10 ft) wide");
    const isPlaten = (caution: string): boolean => caution.startsWith("A platen at");
    for (const caution of [...power.value.cautions, ...pitch.value.cautions.filter((one) => !isPlaten(one))])
      expect(sheet.cautions).toContain(caution);
    // The platen is as hot as the power plan has it, and is named once; without that plan, as hot as is usual.
    expect(sheet.cautions.filter(isPlaten)).toEqual([expect.stringContaining("160 °C")]);
    const alone = organiserSheet({ ...given, power: null });
    expect(alone.cautions.filter(isPlaten)).toEqual([expect.stringContaining("185 °C")]);
    expect(sheet.title).toBe("Tern & Thistle at Harbour Fair, Saturday 12 June: what we need");
  });

  it("reckons back from opening by whole quarters, each long enough: test, warm-up, cables, arrival", () => {
    expect(sheet.timetable.map(({ at }) => at)).toEqual([
      "07:30",
      "09:00",
      "09:15",
      "09:45",
      "10:00",
      "18:00",
      "18:45",
    ]);
    expect(sheet.timetable[2]?.what).toBe("Switch on press-a and lights");
  });

  it("keeps the hours as they are, and rounds what comes after closing up", () => {
    const odd = organiserSheet({ ...given, opens: "10:10", closes: "18:05" });
    expect(odd.timetable.slice(-4).map(({ at }) => at)).toEqual(["09:45", "10:10", "18:05", "19:00"]);
  });

  it("stands without either part, and past midnight", () => {
    const bare = organiserSheet({ ...given, opens: "00:30", closes: "04:00", pitch: null, power: null });
    expect(bare.power).toEqual([]);
    expect(bare.timetable[0]?.at).toBe("22:30");
  });
});
