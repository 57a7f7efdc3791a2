/**
 * Layouts and copies that meet the counts at little cost: several first plans, each bettered by replacing one,
 * two or three of its runs by the cheapest one or two that do the same work.
 */
import type { Random } from "../../maths/random.ts";
import type { Layouts } from "./layouts.ts";
import { costOf, type Layout, lacking, type Problem, priceOf, type Run } from "./problem.ts";

/** Runs with what they cost, every one charged the price of an extra layout. */
type Choice = { readonly runs: readonly Run[]; readonly cost: number };

export type Search = {
  readonly problem: Problem;
  readonly layouts: Layouts;
  /** A price for one transfer of each design such that no layout is worth more than its cheapest sheet. */
  readonly duals: readonly number[];
};

/** The cheapest plan found; one step for every layout or count looked at. `starts` are plans known already. */
export function cheapestRuns(
  search: Search,
  starts: readonly (readonly Run[])[],
  random: Random,
): readonly Run[] {
  const { problem } = search;
  let best: readonly Run[] | null = null;
  const consider = (runs: readonly Run[]) => {
    const bettered = better(search, runs);
    if (best === null || costOf(problem, bettered) < costOf(problem, best)) best = bettered;
  };
  const single = cheapestSingle(search, problem.wanted);
  if (single) consider(single.runs);
  for (const start of starts) consider(start);
  for (let round = 0; round < 12; round++) {
    if (problem.steps.left <= 0 && best !== null) break;
    consider(greedily(search, problem.wanted, random, round === 0 ? 0 : 0.3));
  }
  if (best === null) throw new Error("cheapestRuns: a greedy plan always exists");
  return best;
}

/** Replaces runs by cheaper ones until nothing changes. */
function better(search: Search, start: readonly Run[]): readonly Run[] {
  const { problem } = search;
  let runs = tightened(search, start);
  for (let changed = true; changed && problem.steps.left > 0; ) {
    changed = false;
    for (const out of groupsOf(runs.length, problem)) {
      const kept = runs.filter((_, at) => !out.includes(at));
      const dropped = runs.filter((_, at) => out.includes(at));
      const limit = dropped.reduce((sum, run) => sum + runCost(problem, run.layout, run.copies), 0);
      const rest = lacking(problem.wanted, kept);
      const found = cheapestPair(search, rest, limit);
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
function groupsOf(count: number, problem: Problem): number[][] {
  const groups: number[][] = [];
  for (let a = 0; a < count; a++) groups.push([a]);
  for (let a = 0; a < count; a++) for (let b = a + 1; b < count; b++) groups.push([a, b]);
  const many = problem.wanted.length > 20 || count > 8;
  for (let a = 0; a < count && !many; a++) {
    for (let b = a + 1; b < count; b++) for (let c = b + 1; c < count; c++) groups.push([a, b, c]);
  }
  return groups;
}

function runCost(problem: Problem, layout: Layout, copies: number): number {
  return priceOf(problem, layout.size, copies) + problem.extraLayoutPrice;
}

/** One run that makes all of `rest`; null where no single layout does. */
function cheapestSingle({ problem, layouts }: Search, rest: readonly number[]): Choice | null {
  const most = Math.max(...rest);
  if (most === 0) return { runs: [], cost: 0 };
  let best: Choice | null = null;
  for (const size of problem.sizes) {
    const at = (copies: number) =>
      layouts.exactly(
        size.at,
        rest.map((want) => Math.ceil(want / copies)),
      );
    let low = 1;
    let high = most;
    let layout = at(most);
    problem.steps.left -= rest.length;
    if (!layout) continue;
    while (low < high) {
      const middle = (low + high) >> 1;
      const found = at(middle);
      problem.steps.left -= rest.length;
      if (found) {
        layout = found;
        high = middle;
      } else low = middle + 1;
    }
    const order = size.prices.atLeast(high);
    const cost = order.price + problem.extraLayoutPrice;
    if (best === null || cost < best.cost) best = { runs: [{ layout, copies: order.copies }], cost };
  }
  return best;
}

/** At most two runs that make all of `rest` for less than `limit`; null where none were found. */
function cheapestPair(search: Search, rest: readonly number[], limit: number): Choice | null {
  const { problem, layouts, duals } = search;
  let best = cheapestSingle(search, rest);
  let bar = Math.min(limit, best?.cost ?? Number.POSITIVE_INFINITY);
  const dear = (need: readonly number[]) => need.reduce((sum, want, at) => sum + want * (duals[at] ?? 0), 0);
  if (dear(rest) + 2 * problem.extraLayoutPrice >= bar) return best;
  const most = Math.max(...rest);
  const everyCopy = layouts.list.length * most <= 40_000;
  for (const layout of layouts.list) {
    if (problem.steps.left <= 0) break;
    for (const copies of everyCopy ? range(most) : turningPoints(layout.counts, rest)) {
      const order = problem.sizes[layout.size]?.prices.atLeast(copies);
      if (!order || order.copies > copies + most) continue;
      const first = order.price + problem.extraLayoutPrice;
      problem.steps.left -= rest.length;
      const after = rest.map((want, at) => Math.max(0, want - order.copies * (layout.counts[at] ?? 0)));
      if (first + problem.extraLayoutPrice + dear(after) >= bar) continue;
      const second = cheapestSingle(search, after);
      if (second && first + second.cost < bar) {
        bar = first + second.cost;
        best = { runs: [{ layout, copies: order.copies }, ...second.runs], cost: bar };
      }
    }
  }
  return best;
}

const range = (most: number): number[] => Array.from({ length: most }, (_, at) => at + 1);

/** The copies at which a layout finishes one of its designs, or nearly. */
function turningPoints(counts: readonly number[], rest: readonly number[]): number[] {
  const points = new Set<number>();
  counts.forEach((many, at) => {
    if (many === 0 || (rest[at] ?? 0) === 0) return;
    points.add(Math.ceil((rest[at] ?? 0) / many));
    points.add(Math.max(1, Math.floor((rest[at] ?? 0) / many)));
  });
  return [...points];
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
export function tightened({ problem }: Search, start: readonly Run[]): readonly Run[] {
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
