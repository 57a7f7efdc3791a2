import { describe, expect, it } from "vitest";
import { planFair } from "../../src/planning/plan.ts";
import { taughtEffects } from "../../src/planning/taught-effects.ts";
import { inventedFair, request } from "./invented.ts";

const fair = inventedFair({
  seed: 3,
  blanks: 1,
  colours: 1,
  sizes: 2,
  designs: 1,
  passersBy: 800,
  scenarios: 100,
});
const lessons = {
  id: "a",
  fair: "Low Meadow",
  day: "2027-04-10",
  sizes: [
    { blank: "blank-1", size: "S", asks: 300 },
    { blank: "blank-1", size: "M", asks: 20 },
  ],
  buying: { orders: 40, passersBy: 4000, passersByUncertainty: 0 },
};
const { sizes: _, ...noSizes } = lessons;
const noBuying = { id: "a", fair: "Low Meadow", day: "2027-04-10" };
const effects = (leftOut: readonly string[] = []) => {
  const outcome = taughtEffects(request({ ...fair, lessons: [lessons] }), leftOut);
  if (!outcome.ok) throw new Error("cannot be planned");
  return outcome.value;
};
const profit = (own: (typeof noBuying & { sizes?: typeof lessons.sizes })[]): number => {
  const outcome = planFair(request({ ...fair, lessons: own }));
  if (!outcome.ok) throw new Error("cannot be planned");
  return outcome.value.money.expectedProfit;
};

describe("what each part of the lessons changes", () => {
  it("is the plan with it beside the plan without it, for every part that counted something", () => {
    const [buying, sizes, ...rest] = effects();
    expect(rest).toEqual([]);
    // A quarter of those who were thought to buy: far fewer blanks, and less to earn.
    expect(buying?.part).toBe("buying");
    expect(buying?.blanks).toBeLessThan(0);
    expect(buying?.profit).toBeLessThan(0);
    expect(sizes?.part).toBe("sizes");
    expect(sizes?.moves.find(({ sku }) => sku.endsWith(".S"))?.pieces).toBeGreaterThan(0);
    expect(sizes?.profit).toBe(profit([lessons]) - profit([noSizes]));
  });

  it("of a part that is left out is what it would change", () => {
    const [, sizes] = effects(["buying", "sizes"]);
    expect(sizes?.profit).toBe(profit([{ ...noBuying, sizes: lessons.sizes }]) - profit([noBuying]));
  });

  it("is nothing without lessons", () => {
    const outcome = taughtEffects(request(fair), []);
    expect(outcome.ok && outcome.value).toEqual([]);
  });
});
