import { readFileSync } from "node:fs";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { PlanRequest } from "../../src/model/planning/plan-request.ts";
import { planFair } from "../../src/planning/plan.ts";
import { planTable } from "../../src/planning/plan-table.ts";

const request = JSON.parse(readFileSync(new URL("../../examples/plan.json", import.meta.url), "utf8"));
const outcome = planFair(PlanRequest.parse({ ...request, name: "=1+1, a fair", scenarios: 100 }));
if (!outcome.ok) throw new Error("the example cannot be planned");
const plan = outcome.value;
const text = planTable(plan);
const { data, errors, meta } = Papa.parse<Record<string, string>>(text, {
  header: true,
  skipEmptyLines: true,
});
const cell = (part: string, of: string, figure: string, unit?: string) =>
  data.find(
    (row) =>
      row["part"] === part &&
      row["of"] === of &&
      row["figure"] === figure &&
      (unit ?? row["unit"]) === row["unit"],
  )?.["value"];

describe("a plan as a table", () => {
  it("is RFC 4180 text: one heading, as many cells in every row, lines ended by CR LF", () => {
    expect(errors).toEqual([]);
    expect(meta.fields).toEqual(["part", "of", "figure", "value", "unit"]);
    expect(text.endsWith("\r\n")).toBe(true);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  });

  it("holds every line of what to bring, and sums in whole units", () => {
    for (const { sku, bring, cost } of plan.bring.skus) {
      expect(cell("sku", sku, "bring")).toBe(String(bring));
      expect(Number(cell("sku", sku, "cost"))).toBeCloseTo(cost / 100, 10);
    }
    for (const { design, bring } of plan.bring.transfers)
      expect(cell("transfer", design, "bring")).toBe(String(bring));
    expect(Number(cell("day", "", "expected profit"))).toBeCloseTo(plan.money.expectedProfit / 100, 10);
    expect(cell("way", plan.best, "wasted", "pieces")).toBeDefined();
    expect(data.filter((row) => row["part"] === "hour").length).toBe(plan.demand.hours.length * 5);
  });

  it("keeps words words: nothing that was typed runs as a formula", () => {
    expect(cell("day", "", "name")).toBe("'=1+1, a fair");
  });
});
