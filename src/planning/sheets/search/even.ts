/** First plans by packing: every layout in the same number of copies, on as few sheets as the packer needs. */

import type { Work } from "../../../maths/work.ts";
import { packSheets } from "../../packing/packing.ts";
import { layoutOf } from "./columns.ts";
import { costOf, type DesignSize, type GangProblem, pause, type SheetRun } from "./problem.ts";

/** More pieces than this are packed in groups, since packing takes their square. */
const MOST_TOGETHER = 600;
const FIRST_STEPS = 60_000;

export type Even = {
  readonly runs: readonly SheetRun[];
  readonly size: DesignSize;
  readonly copies: number;
};

/** Plans for numbers of copies spread in proportion, the cheapest first. */
export function* evenPlans(problem: GangProblem, seed: number): Work<Even[]> {
  const most = Math.max(...problem.wanted);
  const plans: Even[] = [];
  for (const size of problem.sizes) {
    for (let copies = most; copies >= 1; copies = Math.min(copies - 1, Math.floor(copies / 1.12))) {
      if (problem.steps.left <= 0 && plans.length > 0) break;
      const plan = evenly(problem, size, copies, FIRST_STEPS, seed);
      if (plan) plans.push(plan);
      yield* pause(problem);
    }
  }
  return plans.sort((a, b) => costOf(problem, a.runs) - costOf(problem, b.runs));
}

/** Layouts that make every count when each is ordered `copies` times; null if some design is too large for the sheet. */
export function evenly(
  problem: GangProblem,
  size: DesignSize,
  copies: number,
  budget: number,
  seed: number,
): Even | null {
  const members = problem.wanted.flatMap((want, design) =>
    Array.from({ length: Math.ceil(want / copies) }, () => design),
  );
  const area = (design: number) => size.single.areas[design] ?? 2;
  members.sort((a, b) => area(b) - area(a));
  const order = size.prices.atLeast(copies);
  const groups = Math.ceil(members.length / MOST_TOGETHER);
  const runs: SheetRun[] = [];
  for (let group = 0; group < groups; group++) {
    // Dealt out like cards, so that every group has large and small pieces.
    const own = members.filter((_, at) => at % groups === group);
    const pieces = own.flatMap((design) => size.kinds[design] ?? []);
    const steps = Math.max(1_000, Math.min(budget, problem.steps.left));
    const packing = packSheets(pieces, size.sheet, { cuts: problem.cuts, steps, seed });
    if (packing.kind !== "packed") return null;
    problem.steps.left -= packing.stepsUsed;
    for (const placed of packing.sheets)
      runs.push({ layout: layoutOf(problem, size, placed, own), copies: order.copies });
  }
  return { runs, size, copies };
}
