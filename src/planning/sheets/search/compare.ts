/** The plain way to buy transfers, for comparison: one design on every sheet. */
import type { Layouts } from "./layouts.ts";
import { mostAlone } from "./pool.ts";
import type { Problem, Run } from "./problem.ts";

/** One run for every design, each on the sheet size that is cheapest for it. */
export function oneDesignASheet(problem: Problem, layouts: Layouts): Run[] {
  return problem.wanted.flatMap((want, design) => {
    if (want === 0) return [];
    const runs = problem.sizes.flatMap((size) => {
      const layout = mostAlone(problem, size, design, layouts.exactly);
      if (!layout) return [];
      const order = size.prices.atLeast(Math.ceil(want / (layout.counts[design] ?? 1)));
      return [{ run: { layout, copies: order.copies }, price: order.price }];
    });
    const cheapest = runs.reduce<(typeof runs)[number] | null>(
      (a, b) => (a && a.price <= b.price ? a : b),
      null,
    );
    return cheapest ? [cheapest.run] : [];
  });
}
