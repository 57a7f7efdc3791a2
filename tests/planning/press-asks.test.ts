import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { PlanRequest } from "../../src/model/planning/plan-request.ts";
import { PressesPlan, PressesRequest } from "../../src/model/planning/presses.ts";
import { pressesFromPlan } from "../../src/planning/presses/press-asks.ts";
import { planPresses } from "../../src/planning/presses/presses.ts";

const example = (name: string) =>
  JSON.parse(readFileSync(new URL(`../../examples/${name}.json`, import.meta.url), "utf8"));
const presses = PressesRequest.parse(example("presses"));

function filled(plan: unknown): PressesRequest {
  const answer = pressesFromPlan(presses, PlanRequest.parse(plan));
  if (!answer.ok) throw new Error(JSON.stringify(answer.refusal));
  return PressesRequest.parse(answer.value);
}

describe("the days of a plan at the presses", () => {
  it("are asks within opening hours, in order, on the platen their blank needs", () => {
    const request = filled(example("plan"));
    expect(request.closesAtSeconds).toBe(8 * 3600);
    for (const day of request.scenarios) {
      const times = day.map(({ atSeconds }) => atSeconds);
      expect(times).toEqual([...times].sort((a, b) => a - b));
      expect(times.every((at) => at >= 0 && at < 8 * 3600)).toBe(true);
    }
    const garments = (platen: string) =>
      request.scenarios
        .flat()
        .filter((ask) => ask.platen === platen)
        .reduce((sum, ask) => sum + ask.garments, 0);
    // Caps are 15 % of the orders of the example; sixty days of some 130 orders come near it.
    const capShare = garments("cap") / (garments("cap") + garments("flat"));
    expect(capShare).toBeGreaterThan(0.12);
    expect(capShare).toBeLessThan(0.18);
  });

  it("leave out what is sold undecorated, and value a garment by price less stock", () => {
    const plan = example("plan");
    const [offer] = plan.offers;
    const request = filled({
      ...plan,
      offers: [
        { ...offer, price: "$20", share: 0.5 },
        { id: "plain-tote", blank: "tote", price: "$9", share: 0.5 },
      ],
      designs: [{ id: "longtail", cost: "$2" }],
      blanks: plan.blanks.map((blank: { sizes: { id: string; share: number }[] }) => ({
        ...blank,
        cost: "$4",
        sizes: blank.sizes.map(({ id, share }) => ({ id, share })),
      })),
      costs: {},
    });
    const flat = request.presses.find(({ platen }) => platen === "flat");
    expect(flat?.earns).toBe(20 - 4 - 2);
    expect(flat?.spoils).toBe(4 + 2);
  });

  it("can be planned from", () => {
    const request = filled(example("plan"));
    const answer = planPresses({ ...request, scenarios: request.scenarios.slice(0, 8) });
    if (!answer.ok) throw new Error(JSON.stringify(answer.refusal));
    const { combinations } = PressesPlan.parse(answer.value);
    expect(combinations.length).toBe(3 * 2 * 4);
  });
});
