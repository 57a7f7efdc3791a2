/**
 * Fills layouts beyond what is needed: first everything needless is removed, then spare transfers are added where the
 * plan values them most. If no design has a value for one more, the room stays free.
 */
import { type GangProblem, lacking, type SheetRun } from "./problem.ts";

export function withSpares(
  problem: GangProblem,
  runs: readonly SheetRun[],
  values: readonly number[],
): readonly SheetRun[] {
  const trimmed = trim(problem, runs);
  return values.some((value) => value > 0) ? trimmed.map((run) => fill(problem, run, values)) : trimmed;
}

/** Leaves off what the other runs make unneeded, run by run. */
function trim(problem: GangProblem, runs: readonly SheetRun[]): readonly SheetRun[] {
  let current = runs;
  for (const run of runs) {
    const others = current.filter((other) => other !== run);
    const rest = lacking(problem.wanted, others);
    const counts = rest.map((want, at) => Math.min(run.layout.counts[at] ?? 0, Math.ceil(want / run.copies)));
    const left = [...counts];
    const placed = run.layout.placed.filter(({ piece }) => {
      left[piece] = (left[piece] ?? 0) - 1;
      return (left[piece] ?? 0) >= 0;
    });
    current = current.map((other) =>
      other === run ? { ...run, layout: { ...run.layout, counts, placed } } : other,
    );
  }
  return current;
}

/** Adds transfers one by one, the most valued that still fits first, until none fits. */
function fill(problem: GangProblem, run: SheetRun, values: readonly number[]): SheetRun {
  const size = problem.sizes[run.layout.size];
  if (!size) return run;
  let layout = run.layout;
  const byValue = values
    .map((value, design) => ({ value, design }))
    .filter(({ value }) => value > 0)
    .sort((a, b) => b.value - a.value);
  for (const { design } of byValue) {
    for (;;) {
      const counts = layout.counts.map((many, at) => (at === design ? many + 1 : many));
      // Spares are worth some work even when the search has used up its own.
      const placed = size.single.fit(counts, { left: 200_000 }, 30_000);
      if (placed === null) break;
      layout = { size: size.at, counts, placed };
    }
  }
  return { ...run, layout };
}
