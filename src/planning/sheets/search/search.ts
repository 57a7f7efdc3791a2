/** What every search for layouts and copies asks for beside the problem itself. */
import type { Layouts } from "./layouts.ts";
import type { Problem } from "./problem.ts";

export type Search = {
  readonly problem: Problem;
  readonly layouts: Layouts;
  /** A price for one transfer of each design such that no layout is worth more than its cheapest sheet. */
  readonly duals: readonly number[];
  /** What one sheet of the layout that makes most is worth at those prices. */
  readonly worthMost: number;
};

/** The same problem with what every search of it asks for. */
export function searchOf(problem: Problem, layouts: Layouts, duals: readonly number[]): Search {
  const worths = layouts.list.map(({ counts }) => worthOf(counts, duals));
  return { problem, layouts, duals, worthMost: worths.reduce((a, b) => Math.max(a, b), 0) };
}

/** So many transfers of every design at a price for one of each. */
export function worthOf(counts: readonly number[], prices: readonly number[]): number {
  let sum = 0;
  for (let at = 0; at < counts.length; at++) sum += (counts[at] ?? 0) * (prices[at] ?? 0);
  return sum;
}
