import { describe, expect, it } from "vitest";
import { PlanRequest } from "../../../src/model/planning/plan-request.ts";
import { PowerRequest } from "../../../src/model/planning/power.ts";
import { PressesWish } from "../../../src/model/planning/presses.ts";
import { planPower } from "../../../src/planning/power/power.ts";
import { pressesFromPlan } from "../../../src/planning/presses/press-asks.ts";
import { type Json, rowsAt, valueAt, withValue } from "../../../src/screens/client/kit/json-pointer.ts";
import { EXAMPLE } from "../../../src/screens/client/plan/day/first.ts";
import { dayIn, fileOfPlans, plansIn } from "../../../src/screens/client/plan/day/keeping.ts";
import { BY_SHEET } from "../../../src/screens/client/plan/day/parts.ts";
import { inMinorUnits, withUnit } from "../../../src/screens/client/plan/form/writings.ts";
import {
  asked,
  changed,
  given,
  keyOf,
  nextPart,
  placeFrom,
  type State,
  stateOf,
} from "../../../src/screens/client/plan/state.ts";

/** Values from the plan are not part of the wish. */
const wishOf = (request: Json): Json =>
  ["closesAtSeconds", "scenarios"].reduce((left, name) => withValue(left, `#/${name}`, undefined), request);
const opened = (): State => stateOf("one", EXAMPLE, {}, placeFrom("#fair"));

describe("what is typed", () => {
  it("is money in minor units, however it is written", () => {
    const dollars = inMinorUnits("USD");
    for (const text of ["19.50", "19,50", "$19.50", " 19.5 $"])
      expect(dollars.read(text, undefined)).toBe(1950);
    expect(inMinorUnits("JPY").read("1950", undefined)).toBe(1950);
    expect(dollars.shown(1950)).toBe("19.50");
    expect(dollars.read("a lot", undefined)).toBe("a lot");
    const question = changed(opened(), "sheets", "#/question", {
      ask: "affordable",
      money: dollars.read("$240", 0) ?? 0,
    });
    expect(valueAt(question.day.sheets, "#/question")).toEqual({ ask: "affordable", money: 24_000 });
  });

  it("is a figure with its unit; a bare figure keeps the unit it had", () => {
    const length = withUnit("ft", "m");
    expect(length.read("3.5 m", undefined)).toEqual({ value: 3.5, unit: "m" });
    expect(length.read("12", { value: 10, unit: "m" })).toEqual({ value: 12, unit: "m" });
    expect(length.read("12", undefined)).toEqual({ value: 12, unit: "ft" });
    expect(length.read('9"', undefined)).toEqual({ value: 9, unit: "in" });
    expect(withUnit("L", "gal").read("4 gal", undefined)).toEqual({ value: 4, unit: "gal" });
  });
});

describe("what follows a figure", () => {
  it("moves the crowd by hour with opening and closing, and says so", () => {
    const later = changed(opened(), "plan", "#/closes", "20:00");
    expect(later.note).toContain("The crowd by hour moved along");
    expect(
      rowsAt(later.day.plan, "#/traffic/profile")
        .map((row) => valueAt(row, "#/from"))
        .slice(0, 2),
    ).toEqual(["10:00", "11:15"]);
  });

  it("keeps the distance of low and high from the likely figure", () => {
    const twice = changed(opened(), "plan", "#/traffic/passersBy/likely", 8400);
    expect(valueAt(twice.day.plan, "#/traffic/passersBy")).toEqual({ low: 5200, likely: 8400, high: 12_000 });
  });

  it("tries one more hand than presses, until another number is typed", () => {
    const state = opened();
    expect(given(state).hands).toBe(3);
    expect(given(changed(state, "plan", "#/presses/0/count", 3)).hands).toBe(5);
    const wish = PressesWish.parse(wishOf(asked(state, "presses").request));
    const filled = pressesFromPlan(
      wish,
      PlanRequest.parse({ ...(state.day.plan as object), scenarios: 100 }),
    );
    expect(filled.ok && filled.value.people.most).toBe(3);
    const typed = { ...wish, people: { most: 6 } };
    const over = pressesFromPlan(typed, PlanRequest.parse({ ...(state.day.plan as object), scenarios: 100 }));
    expect(over.ok && over.value.people.most).toBe(6);
  });

  it("gives power its hours and its presses, until something else is typed there", () => {
    const state = opened();
    expect(given(state)).toMatchObject({ hours: 8.75, pressTemperature: { value: 320, unit: "F" } });
    const later = changed(state, "plan", "#/closes", "20:00");
    expect(given(later).hours).toBe(10.75);
    expect(valueAt(asked(later, "power").request, "#/hours")).toBe(10.75);
    const typed = changed(later, "power", "#/hours", 12);
    expect(valueAt(asked(typed, "power").request, "#/hours")).toBe(12);
    const back = changed(changed(typed, "plan", "#/closes", "19:00"), "power", "#/hours", undefined);
    expect(valueAt(asked(back, "power").request, "#/hours")).toBe(9.75);

    const more = changed(back, "plan", "#/presses/0/count", 2);
    const name = "flat press 2 from the plan";
    expect(given(more).loads.map((one) => one.name)).toEqual([name]);
    const outcome = planPower(PowerRequest.parse(asked(more, "power").request));
    expect(JSON.stringify(outcome)).toContain(name);
    expect(rowsAt(asked(more, "pitch").request, "#/pieces").map((row) => valueAt(row, "#/piece"))).toContain(
      name,
    );
  });
});

describe("transfers bought on sheets", () => {
  const ticked = changed(opened(), "organiser", BY_SHEET, true);

  it("are part of what the planner is asked, with the prices and sizes typed", () => {
    const { request } = asked(ticked, "plan");
    expect(valueAt(asked(opened(), "plan").request, "#/parts")).toBeUndefined();
    expect(valueAt(request, "#/parts/sheets/sheets")).toEqual(valueAt(EXAMPLE.sheets, "#/sheets"));
    expect(PlanRequest.safeParse(request).success).toBe(true);
  });

  it("are not, if the sheets are to use up a sum of money", () => {
    const question = { ask: "affordable", money: 24_000 };
    const other = changed(ticked, "sheets", "#/question", question);
    expect(valueAt(asked(other, "plan").request, "#/parts")).toBeUndefined();
  });

  it("are worked out with the plan, and not once more after it", () => {
    const at = (state: State, key: string): State => ({
      ...state,
      place: placeFrom("#sheets"),
      answers: { plan: { key, answer: { kind: "answer", part: "plan", answer: {} as never } } }, // nothing of it is read
    });
    expect(nextPart(at(ticked, keyOf(asked(ticked, "plan"))))).toBeNull();
    expect(nextPart(at(ticked, "another"))).toBe("plan");
  });
});

describe("a file", () => {
  const lessons = {
    id: "low-meadow-1",
    fair: "Low Meadow",
    day: "2027-04-10",
    buying: { orders: 90, passersBy: 3000 },
  };

  it("with lessons adds each once", () => {
    const one = dayIn(JSON.stringify(lessons), EXAMPLE);
    const again = dayIn(JSON.stringify([lessons, { ...lessons, id: "low-meadow-2" }]), one?.day);
    expect(rowsAt(again?.day.plan ?? null, "#/lessons").map((row) => valueAt(row, "#/id"))).toEqual([
      "low-meadow-1",
      "low-meadow-2",
    ]);
    expect(valueAt(again?.day.plan ?? null, "#/name")).toBe(valueAt(EXAMPLE.plan, "#/name"));
  });

  it("holds every plan, and brings in those that are not here yet", () => {
    const other = { ...EXAMPLE, plan: { ...(EXAMPLE.plan as object), name: "Low Meadow Fair" } };
    const file = fileOfPlans([
      { id: "a", day: EXAMPLE },
      { id: "b", day: other },
    ]);
    expect(plansIn(file, [])).toEqual([EXAMPLE, other]);
    expect(plansIn(file, [{ id: "c", day: EXAMPLE }])).toEqual([other]);
    expect(plansIn(JSON.stringify(EXAMPLE), [])).toBeNull();
    expect(plansIn("Dear stall", [])).toBeNull();
  });

  it("with a request or a whole day is taken, and a letter is not", () => {
    const other = dayIn(JSON.stringify({ ...(EXAMPLE.plan as object), name: "Low Meadow Fair" }), EXAMPLE);
    expect(valueAt(other?.day.plan ?? null, "#/name")).toBe("Low Meadow Fair");
    expect(dayIn(JSON.stringify(EXAMPLE))?.day).toEqual(EXAMPLE);
    expect(dayIn("Dear stall", EXAMPLE)).toBeNull();
    expect(dayIn("[]", EXAMPLE)).toBeNull();
  });
});
