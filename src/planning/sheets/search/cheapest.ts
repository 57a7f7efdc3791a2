/**
 * Layouts and copies that meet the counts at little cost: several first plans, each bettered by replacing one,
 * two or three of its runs by the cheapest one or two that do the same work.
 */
import type { Random } from "../../../maths/random.ts";
import type { Work } from "../../../maths/work.ts";
import { cheapestPair, cheapestSingle, turningPoints } from "./few-runs.ts";
import { costOf, type Layout, lacking, type Problem, priceOf, type Run } from "./problem.ts";
import type { Search } from "./search.ts";

const GREEDY_ROUNDS = 12;

/** The cheapest plan found; one step for every layout or count looked at. `starts` are plans known already. */
export function* cheapestRuns(
  search: Search,
  starts: readonly (readonly Run[])[],
  random: Random,
): Work<readonly Run[]> {
  const { problem } = search;
  const found: { readonly runs: readonly Run[]; readonly cost: number }[] = [];
  const consider = function* (runs: readonly Run[]): Work<void> {
    const bettered = yield* better(search, runs, 2);
    found.push({ runs: bettered, cost: costOf(problem, bettered) });
  };
  const single = cheapestSingle(search, problem.wanted);
  if (single) yield* consider(single.runs);
  for (const start of starts) yield* consider(start);
  for (let round = 0; round < GREEDY_ROUNDS; round++) {
    if (problem.steps.left <= 0 && found.length > 0) break;
    yield* consider(greedily(search, problem.wanted, random, round === 0 ? 0 : 0.3));
  }
  // Three runs at a time cost far more steps than two: the most hopeful plans come first.
  found.sort((a, b) => a.cost - b.cost);
  let best = found[0];
  if (best === undefined) throw new Error("cheapestRuns: a greedy plan always exists");
  let before: (typeof found)[number] | null = null;
  for (const choice of found) {
    if (problem.steps.left <= 0) break;
    if (choice.cost === before?.cost && choice.runs.length === before.runs.length) continue;
    before = choice;
    const runs = yield* better(search, choice.runs, 3);
    const cost = costOf(problem, runs);
    if (cost < best.cost) best = { runs, cost };
  }
  return best.runs;
}

/** Replaces runs by cheaper ones, at most `together` at a time, until nothing changes. */
function* better(search: Search, start: readonly Run[], together: 2 | 3): Work<readonly Run[]> {
  const { problem } = search;
  let runs = tightened(search, start);
  for (let changed = true; changed && problem.steps.left > 0; ) {
    changed = false;
    for (const out of groupsOf(runs.length, problem, together)) {
      const kept = runs.filter((_, at) => !out.includes(at));
      const dropped = runs.filter((_, at) => out.includes(at));
      const limit = dropped.reduce((sum, run) => sum + runCost(problem, run.layout, run.copies), 0);
      const rest = lacking(problem.wanted, kept);
      const found = yield* cheapestPair(search, rest, limit);
      if (found && found.cost < limit) {
        runs = [...kept, ...found.runs];
        changed = true;
        break;
      }
      if (problem.steps.left <= 0) break;
    }
  }
  return runs;
}

/** Ones, twos and threes of the runs: which to take out together. */
function groupsOf(count: number, problem: Problem, together: 2 | 3): number[][] {
  const groups: number[][] = [];
  for (let a = 0; a < count; a++) groups.push([a]);
  for (let a = 0; a < count; a++) for (let b = a + 1; b < count; b++) groups.push([a, b]);
  const many = together < 3 || problem.wanted.length > 20 || count > 8;
  for (let a = 0; a < count && !many; a++) {
    for (let b = a + 1; b < count; b++) for (let c = b + 1; c < count; c++) groups.push([a, b, c]);
  }
  return groups;
}

function runCost(problem: Problem, layout: Layout, copies: number): number {
  return priceOf(problem, layout.size, copies) + problem.extraLayoutPrice;
}

/** Run after run, each the one that costs least for what it makes at the dual prices, with some noise. */
export function greedily(search: Search, wanted: readonly number[], random: Random, noise: number): Run[] {
  const { problem, layouts, duals } = search;
  const runs: Run[] = [];
  let rest = [...wanted];
  while (rest.some((want) => want > 0)) {
    let best: Run | null = null;
    let bestRate = 0;
    for (const layout of layouts.list) {
      const size = problem.sizes[layout.size];
      if (!size) continue;
      for (const copies of turningPoints(layout.counts, rest)) {
        problem.steps.left -= rest.length;
        const order = size.prices.atLeast(copies);
        const made = rest.reduce(
          (sum, want, at) => sum + Math.min(want, order.copies * (layout.counts[at] ?? 0)) * (duals[at] ?? 0),
          0,
        );
        const rate = ((made + 1e-9) / (order.price + problem.extraLayoutPrice)) * (1 - noise * random.next());
        if (rate > bestRate) {
          bestRate = rate;
          best = { layout, copies: order.copies };
        }
      }
    }
    if (!best) throw new Error("greedily: every wanted design is on some layout");
    runs.push(best);
    rest = lacking(wanted, runs);
  }
  return runs;
}

/** The same layouts with as few copies as the others leave needed, needless runs dropped. */
function tightened({ problem }: Search, start: readonly Run[]): readonly Run[] {
  let runs = [...start];
  for (const run of [...start].sort((a, b) => a.copies - b.copies)) {
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
