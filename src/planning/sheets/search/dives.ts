/**
 * First plans from the fractional program: its whole copies are kept, the program is asked again about what is
 * still lacking, and the last few transfers are covered greedily. Good where many layouts are cheap to add.
 */
import { coverFractionally } from "../../../maths/covering.ts";
import type { Random } from "../../../maths/random.ts";
import type { Work } from "../../../maths/work.ts";
import { greedily } from "./cheapest.ts";
import { oneDesignASheet } from "./compare.ts";
import { leastPerCopy } from "./floors.ts";
import { costOf, type Layout, lacking, pause, type Run } from "./problem.ts";
import type { Search } from "./search.ts";

const LAST_TRIES = 24;
/** Asking the program takes the square of the designs; beyond this many it is not worth it. */
const MOST_DESIGNS = 40;

/** One plan with the extra layouts' price left out of the program, one with it spread over the copies. */
export function* divedStarts(search: Search, random: Random): Work<(readonly Run[])[]> {
  if (search.problem.wanted.length > MOST_DESIGNS) return [];
  const setUps = new Set([0, search.problem.extraLayoutPrice]);
  const starts: (readonly Run[])[] = [];
  for (const setUp of setUps) starts.push(yield* dive(search, setUp, random));
  return starts;
}

function* dive(search: Search, setUp: number, random: Random): Work<readonly Run[]> {
  const { problem, layouts } = search;
  const list: Layout[] = [...layouts.list, ...oneDesignASheet(problem, layouts).map(({ layout }) => layout)];
  const columns = list.map((layout) => ({
    layout,
    amounts: layout.counts,
    cost: leastPerCopy(problem, layout, setUp),
  }));
  const idle = problem.wanted.flatMap((want, row) =>
    want === 0 ? [{ amounts: problem.wanted.map((_, at) => (at === row ? 1 : 0)), cost: 1e9 }] : [],
  );
  const copies = new Map<Layout, number>();
  const made = (): Run[] => [...copies].map(([layout, many]) => ({ layout, copies: many }));
  for (;;) {
    yield* pause(problem);
    const rest = lacking(problem.wanted, made());
    problem.steps.left -= columns.length * rest.length * 10;
    const { bought } = coverFractionally([...columns, ...idle], rest);
    let whole = 0;
    for (const { column, amount } of bought) {
      const many = Math.floor(amount + 1e-6);
      const layout = columns.find((known) => known === column)?.layout;
      if (!layout || many === 0) continue;
      copies.set(layout, (copies.get(layout) ?? 0) + many);
      whole += many;
    }
    if (whole === 0) return yield* finished(search, made(), random);
  }
}

/** The best of some greedy ways to make what the whole copies leave lacking. */
function* finished(search: Search, runs: readonly Run[], random: Random): Work<readonly Run[]> {
  const { problem } = search;
  const ordered = runs.map(({ layout, copies }) => ({
    layout,
    copies: problem.sizes[layout.size]?.prices.atLeast(copies).copies ?? copies,
  }));
  const rest = lacking(problem.wanted, ordered);
  const plans: (readonly Run[])[] = [];
  for (let at = 0; at < LAST_TRIES; at++) {
    plans.push(together([...ordered, ...greedily(search, rest, random, at === 0 ? 0 : 0.2)], search));
    yield* pause(problem);
  }
  return plans.reduce((a, b) => (costOf(problem, b) < costOf(problem, a) ? b : a));
}

/** Runs of the same layout as one run. */
function together(runs: readonly Run[], { problem }: Search): readonly Run[] {
  const copies = new Map<Layout, number>();
  for (const run of runs) copies.set(run.layout, (copies.get(run.layout) ?? 0) + run.copies);
  return [...copies].map(([layout, many]) => ({
    layout,
    copies: problem.sizes[layout.size]?.prices.atLeast(many).copies ?? many,
  }));
}
