/** Betters plans by replacing one, two or three of their runs by the cheapest one or two layouts that do the same work. */
import type { Work } from "../../../maths/work.ts";
import { cheapestFew } from "./few.ts";
import { costOf, type GangProblem, lacking, priceOf, type SheetRun } from "./problem.ts";

/** Replaces runs until nothing changes; each replacement may take `budget` steps, each try at packing `patience`. */
export function* improved(
  problem: GangProblem,
  start: readonly SheetRun[],
  { together, patience, budget }: { together: 1 | 2 | 3; patience: number; budget: number },
): Work<readonly SheetRun[]> {
  let runs = tightened(problem, start);
  const asked = new Set<string>();
  for (let changed = true; changed && problem.steps.left > 0; ) {
    changed = false;
    for (const out of groupsOf(runs.length, together)) {
      if (problem.steps.left <= 0) break;
      const kept = runs.filter((_, at) => !out.includes(at));
      const limit =
        costOf(problem, runs) - costOf(problem, kept) + (kept.length === 0 ? problem.extraLayoutPrice : 0);
      const rest = lacking(problem.wanted, kept);
      const question = `${rest.join()} ${limit}`;
      if (asked.has(question)) continue;
      asked.add(question);
      const found = yield* cheapestFew(problem, rest, limit, patience, budget);
      if (!found || found.cost >= limit) continue;
      runs = tightened(problem, [...kept, ...found.runs]);
      changed = true;
      break;
    }
  }
  return runs;
}

/** Which runs to take out together: each alone, then twos, then threes. */
function groupsOf(count: number, together: 1 | 2 | 3): number[][] {
  const all = Array.from({ length: count }, (_, at) => at);
  const ones = all.map((a) => [a]);
  const twos = together < 2 ? [] : all.flatMap((a) => all.slice(a + 1).map((b) => [a, b]));
  const threes =
    together < 3 || count > 8 ? [] : twos.flatMap(([a = 0, b = 0]) => all.slice(b + 1).map((c) => [a, b, c]));
  return [...ones, ...twos, ...threes];
}

/** The same layouts with as few copies as the others leave needed, needless runs dropped, equal ones joined. */
function tightened(problem: GangProblem, start: readonly SheetRun[]): readonly SheetRun[] {
  let runs = joined(problem, start);
  for (const run of [...runs].sort((a, b) => a.copies - b.copies)) {
    const others = runs.filter((other) => other !== run);
    const rest = lacking(problem.wanted, others);
    const { counts, size } = run.layout;
    const needed = Math.max(
      ...rest.map((want, at) => (want === 0 ? 0 : Math.ceil(want / (counts[at] ?? 0)))),
    );
    if (needed === 0) {
      runs = others;
      continue;
    }
    if (!Number.isFinite(needed)) continue;
    const order = problem.sizes[size]?.prices.atLeast(needed);
    if (!order || order.price > priceOf(problem, size, run.copies)) continue;
    runs = runs.map((other) => (other === run ? { ...run, copies: order.copies } : other));
  }
  return runs;
}

/** Runs of the same layout as one run. */
export function joined(problem: GangProblem, runs: readonly SheetRun[]): readonly SheetRun[] {
  const known = new Map<string, SheetRun>();
  for (const run of runs) {
    const key = `${run.layout.size}:${run.layout.counts.join()}`;
    const copies = run.copies + (known.get(key)?.copies ?? 0);
    const order = problem.sizes[run.layout.size]?.prices.atLeast(copies);
    known.set(key, { layout: run.layout, copies: order?.copies ?? copies });
  }
  return [...known.values()];
}
