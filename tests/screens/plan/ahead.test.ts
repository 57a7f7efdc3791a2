/** A plan that prints ahead buys the blanks and transfers of the garments it makes. */
import { describe, expect, it } from "vitest";
import { PlanRequest } from "../../../src/model/planning/plan-request.ts";
import { planFair } from "../../../src/planning/plan.ts";
import { rowsAt, valueAt, withValue } from "../../../src/screens/client/kit/json-pointer.ts";
import { FIRST } from "../../../src/screens/client/plan/day/first.ts";
import { fromPlan, sheetsFor } from "../../../src/screens/client/plan/day/parts.ts";
import { blankLines } from "../../../src/screens/client/plan/papers/orders.ts";
import { inOneSentence } from "../../../src/screens/client/plan/results/plan.ts";

const request = [
  ["#/way", "print-ahead"],
  ["#/scenarios", 100],
  ["#/traffic/passersBy", 600],
].reduce((all, [pointer, value]) => withValue(all, String(pointer), value), FIRST.plan);
const outcome = planFair(PlanRequest.parse(request));
if (!outcome.ok) throw new Error("the day cannot be planned");
const plan = outcome.value;

describe("printing ahead", () => {
  const made = plan.bring.ready.reduce((sum, { bring }) => sum + bring, 0);

  it("orders the blanks, at the money of the plan together with the transfers", () => {
    const lines = blankLines(plan, request);
    const pieces = lines.reduce((sum, line) => sum + line.pieces, 0);
    expect(made).toBeGreaterThan(0);
    expect(pieces).toBeGreaterThanOrEqual(made);
    const transfers = plan.bring.shopping.filter(({ kind }) => kind === "transfer");
    const paid = [...lines.map(({ total }) => total), ...transfers.map(({ cost }) => cost)];
    expect(paid.reduce((sum, one) => sum + one, 0)).toBe(plan.bring.outlay);
    // A larger size costs more, as typed.
    expect(new Set(lines.filter(({ size }) => size === "2XL").map(({ each }) => each))).toEqual(
      new Set([550]),
    );
  });

  it("has the sheets printed, and says what is brought", () => {
    const day = { ...FIRST, plan: request };
    const [design] = rowsAt(sheetsFor(day, fromPlan(day, plan)), "#/designs");
    expect(valueAt(design ?? null, "#/count")).toBeGreaterThanOrEqual(made);
    expect(inOneSentence(plan)).toContain(`; bring ${made} garments printed ahead.`);
  });
});
