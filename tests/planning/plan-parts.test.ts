import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Plan } from "../../src/model/planning/plan-answer.ts";
import { PlanRequest, type PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import { PowerRequest } from "../../src/model/planning/power.ts";
import { planFair } from "../../src/planning/plan.ts";
import { planPower } from "../../src/planning/power/power.ts";

const example = (name: string) =>
  JSON.parse(readFileSync(new URL(`../../examples/${name}.json`, import.meta.url), "utf8"));
const { handling, presses } = example("presses");
const whole: PlanRequestSent = {
  ...example("plan"),
  scenarios: 100,
  parts: {
    stall: "Tern prints",
    sheets: { ...example("sheets"), steps: 300_000 },
    presses: {
      handling,
      presses: presses.slice(0, 1).concat({ ...presses[1], most: 1 }),
      people: { most: 2 },
    },
    power: example("power"),
    pitch: example("pitch"),
  },
};

const outcomeOf = (request: unknown) => planFair(PlanRequest.parse(request));
function planned(request: unknown): Plan {
  const outcome = outcomeOf(request);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome));
  return Plan.parse(outcome.value);
}
const plan = planned(whole);

describe("the other parts of a plan", () => {
  it("are answered with it: sheets for the transfers it buys, presses on its days, power, pitch", () => {
    const { parts, bring } = plan;
    expect(parts?.sheets?.transfers.map(({ design, made }) => [design, made]).sort()).toEqual(
      bring.transfers
        .filter(({ buy }) => buy > 0)
        .map(({ design, buy }) => [design, buy])
        .sort(),
    );
    expect(parts?.sheets?.transfers.every(({ missing }) => missing === 0)).toBe(true);
    expect(parts?.presses?.combinations.length).toBe(3 * 1 * 2);
    expect(parts?.pitch?.placed.length).toBeGreaterThan(0);
    const alone = planPower(PowerRequest.parse({ ...example("power"), currency: "USD" }));
    expect(alone.ok && alone.value).toEqual(parts?.power);
  });

  it("come with the organiser's sheet in the stall's name, from the pitch and the power planned", () => {
    const sheet = plan.parts?.organiser;
    expect(sheet?.title).toContain("Tern prints");
    expect(sheet?.title).toContain(plan.name);
    expect(sheet?.power).toContain(plan.parts?.power?.order);
    expect(sheet?.pitch.length).toBeGreaterThan(0);
  });

  it("change nothing of the stock and the money, except that sheets set the cost of transfers", () => {
    const { parts, ...rest } = planned({ ...whole, parts: undefined });
    expect(parts).toBeNull();
    const { sheets, ...others } = whole.parts ?? {};
    expect(sheets).toBeDefined();
    expect({ ...planned({ ...whole, parts: others }), parts: null }).toEqual({ ...rest, parts: null });
  });

  it("take the plan's hours, heat, presses and queue wherever none are given", () => {
    const { hours, pressTemperature, ...power } = example("power");
    const { queue, ...pitch } = example("pitch");
    expect([hours, pressTemperature, queue]).not.toContain(undefined);
    const followed = planned({
      ...whole,
      closes: "20:00",
      presses: [{ platen: "flat", count: 2, garmentsPerHour: 42 }, ...example("plan").presses.slice(1)],
      parts: { presses: whole.parts?.presses, power, pitch },
    }).parts;
    // Ten hours, and before them switching on, the slowest press's quarter of an hour, and the test of as long.
    expect(followed?.power?.order).toContain("live for 10.75 hours");
    expect(followed?.organiser.timetable.find(({ what }) => what.startsWith("Switch on"))?.at).toBe("09:15");
    // 320 °F is what the handling says.
    expect(followed?.power?.order).toContain("flat press 2 from the plan");
    expect(followed?.power?.cautions.join()).toContain("320 °F");
    expect(followed?.pitch?.placed.concat().map(({ piece }) => piece)).toContain(
      "flat press 2 from the plan",
    );
    expect(followed?.pitch?.queue.people).toBeGreaterThanOrEqual(2);
  });

  it("have their faults told where they stand in the request", () => {
    const outcome = outcomeOf({
      ...whole,
      parts: {
        sheets: { ...example("sheets"), sheets: [] },
        presses: { handling: [], presses, people: { most: 2 } },
        power: { ...example("power"), hours: -1 },
        pitch: { ...example("pitch"), pieces: [] },
      },
    });
    const pointers = !outcome.ok ? outcome.refusal.map(({ pointer }) => pointer) : [];
    expect(pointers).toContain("#/parts/sheets/sheets");
    expect(pointers).toContain("#/parts/presses/handling");
    expect(pointers).toContain("#/parts/power/hours");
    expect(pointers.some((pointer) => pointer.startsWith("#/parts/pitch/"))).toBe(true);
  });
});
