/** The plain way to buy transfers, for comparison: one design on every sheet. */

import type { Work } from "../../../maths/work.ts";
import { type DesignSize, type GangProblem, type Layout, pause, type SheetRun } from "./problem.ts";

/** One run for every design, each on the sheet size that is cheapest for it. */
export function* oneDesignASheet(problem: GangProblem): Work<SheetRun[]> {
  const runs: SheetRun[] = [];
  for (const [design, want] of problem.wanted.entries()) {
    if (want === 0) continue;
    const choices = problem.sizes.flatMap((size) => {
      const layout = mostAlone(problem, size, design);
      if (!layout) return [];
      const order = size.prices.atLeast(Math.ceil(want / (layout.counts[design] ?? 1)));
      return [{ run: { layout, copies: order.copies }, price: order.price }];
    });
    yield* pause(problem);
    const [first, ...others] = choices;
    if (first) runs.push(others.reduce((a, b) => (b.price < a.price ? b : a), first).run);
  }
  return runs;
}

/** As many of one design as a sheet takes; null if it does not fit at all. */
function mostAlone(problem: GangProblem, size: DesignSize, design: number): Layout | null {
  let best: Layout | null = null;
  let low = 1;
  let high = Math.min(
    Math.floor(1 / (size.single.areas[design] ?? 2)),
    Math.max(1, problem.wanted[design] ?? 0),
  );
  while (low <= high) {
    const middle = (low + high + 1) >> 1;
    const counts = problem.wanted.map((_, at) => (at === design ? middle : 0));
    // The comparison needs an answer even when the steps are used up.
    const placed = size.single.fit(counts, { left: 30_000 }, 20_000);
    if (placed !== null) {
      best = { size: size.at, counts, placed };
      low = middle + 1;
    } else high = middle - 1;
  }
  return best;
}
