/** Whole plans, as a person waits for them: the example fair, a large menu with limits, and a very large crowd. */
import { readFile } from "node:fs/promises";
import { PlanRequest, type PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import { SheetRequest } from "../../src/model/planning/sheets.ts";
import { planFair } from "../../src/planning/plan.ts";
import { inventedFair } from "../planning/invented.ts";
import type { Bench, Figure } from "./figure.ts";

/** 60 skus and 6 designs within a budget, blanks by the pack, three presses, a thousand days. */
export function largeFair(): PlanRequestSent {
  const sent = inventedFair({
    seed: 7,
    blanks: 4,
    colours: 3,
    sizes: 5,
    designs: 6,
    passersBy: 6000,
    scenarios: 1000,
  });
  return {
    ...sent,
    blanks: sent.blanks.map((blank) => ({ ...blank, casePack: 6 })),
    limits: { budget: 2500 },
    presses: [{ platen: "flat", count: 3, garmentsPerHour: 30 }],
  };
}

async function example(name: "plan" | "sheets"): Promise<unknown> {
  const text = await readFile(new URL(`../../examples/${name}.json`, import.meta.url), "utf8");
  return JSON.parse(text) as unknown; // checked by the schemas
}

/** The plan's expected profit in minor units, and the seconds of processor and clock it took. */
function timed(sent: PlanRequestSent): { seconds: number; processor: number; profit: number } {
  const request = PlanRequest.parse(sent);
  const start = performance.now();
  const before = process.cpuUsage();
  const outcome = planFair(request);
  const { user, system } = process.cpuUsage(before);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome));
  return {
    seconds: (performance.now() - start) / 1000,
    processor: (user + system) / 1e6,
    profit: outcome.value.money.expectedProfit,
  };
}

export const bench: Bench = {
  name: "plan",
  run: async () => {
    const asked = (await example("plan")) as PlanRequestSent; // checked where it is timed
    const sheets = await example("sheets");
    const bySheet: PlanRequestSent = { ...asked, parts: { sheets: SheetRequest.parse(sheets) } };
    const crowded: PlanRequestSent = {
      ...asked,
      traffic: { kind: "total", passersBy: { low: 60_000, likely: 100_000, high: 140_000 } },
    };
    const cases = [
      ["the example plan", asked, 2],
      ["the example with its sheets", bySheet, 2],
      ["60 skus x 6 designs, budget, packs, 1,000 days", largeFair(), 6],
      ["the example with 100,000 passers-by", crowded, 6],
    ] as const;
    return cases.flatMap(([name, sent, atMost]): Figure[] => {
      const { seconds, processor, profit } = timed(sent);
      return [
        { bench: "plan", name, figure: seconds, unit: "s", goal: { atMost } },
        { bench: "plan", name: "the same, processor time", figure: processor, unit: "s", goal: null },
        { bench: "plan", name: "its expected profit", figure: profit, unit: "cents", goal: null },
      ];
    });
  },
};
