/** One run or two that do some work at least cost: what plans are put together from and bettered by. */
import type { Work } from "../../../maths/work.ts";
import { pause, type Run } from "./problem.ts";
import { type Search, worthOf } from "./search.ts";

/** Runs with what they cost, every one charged the price of an extra layout. */
export type Choice = { readonly runs: readonly Run[]; readonly cost: number };

/** One run of at most `copies` that makes all of `rest` for less than `limit`; null where no single layout does. */
export function cheapestSingle(
  { problem, layouts }: Search,
  rest: readonly number[],
  limit = Number.POSITIVE_INFINITY,
  mostCopies = Number.POSITIVE_INFINITY,
): Choice | null {
  const needed = Math.max(...rest);
  if (needed === 0) return { runs: [], cost: 0 };
  const most = Math.min(needed, mostCopies);
  let best: Choice | null = null;
  for (const size of problem.sizes) {
    const at = (copies: number) =>
      layouts.exactly(
        size.at,
        rest.map((want) => Math.ceil(want / copies)),
      );
    const costAt = (copies: number) => size.prices.atLeast(copies).price + problem.extraLayoutPrice;
    const bar = Math.min(limit, best?.cost ?? Number.POSITIVE_INFINITY);
    // Never more copies than the money allows: needing more never costs less.
    let high = costAt(most) < bar ? most : leastWhere(1, most, (copies) => costAt(copies) >= bar) - 1;
    if (high < 1) continue;
    let layout = at(high);
    problem.steps.left -= rest.length;
    if (!layout) continue;
    high = leastWhere(1, high, (copies) => {
      const found = at(copies);
      problem.steps.left -= rest.length;
      if (found) layout = found;
      return found !== null;
    });
    const cost = costAt(high);
    best = { runs: [{ layout, copies: size.prices.atLeast(high).copies }], cost };
  }
  return best;
}

/** The least number from `low` on for which something holds that holds for `high` and all above what it holds for. */
function leastWhere(low: number, high: number, holds: (n: number) => boolean): number {
  let [from, least] = [low, high];
  while (from < least) {
    const middle = (from + least) >> 1;
    if (holds(middle)) least = middle;
    else from = middle + 1;
  }
  return least;
}

/** At most two runs that make all of `rest` for less than `limit`; null where none were found. */
export function* cheapestPair(search: Search, rest: readonly number[], limit: number): Work<Choice | null> {
  const { problem, layouts, duals, worthMost } = search;
  let best = cheapestSingle(search, rest);
  let bar = Math.min(limit, best?.cost ?? Number.POSITIVE_INFINITY);
  const need = worthOf(rest, duals);
  if (need + 2 * problem.extraLayoutPrice >= bar) return best;
  const most = Math.max(...rest);
  const everyCopy = layouts.list.length * most <= 40_000;
  for (const layout of layouts.list) {
    if (problem.steps.left <= 0) break;
    yield* pause(problem);
    const size = problem.sizes[layout.size];
    // This is the run with more copies of the two, so that no pair is looked at twice: neither makes more than this.
    const fewest = need / (worthOf(layout.counts, duals) + worthMost);
    let ordered = 0;
    for (const copies of everyCopy ? range(most) : turningPoints(layout.counts, rest)) {
      const order = size?.prices.atLeast(copies);
      // Where more copies are cheaper, many numbers that are needed come to one order.
      if (!order || order.copies === ordered || order.copies > copies + most || order.copies < fewest)
        continue;
      ordered = order.copies;
      const first = order.price + problem.extraLayoutPrice;
      const left = bar - first - problem.extraLayoutPrice;
      if (left <= 0) continue;
      problem.steps.left -= rest.length;
      if (dearAfter(rest, order.copies, layout.counts, duals) >= left) continue;
      const after = rest.map((want, at) => Math.max(0, want - order.copies * (layout.counts[at] ?? 0)));
      const second = cheapestSingle(search, after, bar - first, order.copies);
      if (second) {
        bar = first + second.cost;
        best = { runs: [{ layout, copies: order.copies }, ...second.runs], cost: bar };
      }
    }
  }
  return best;
}

/** What is still lacking of `rest` once so many copies with these counts are made, at the dual prices: no plan makes it for less. */
function dearAfter(
  rest: readonly number[],
  copies: number,
  counts: readonly number[],
  duals: readonly number[],
): number {
  let sum = 0;
  for (let at = 0; at < rest.length; at++) {
    const lacking = (rest[at] ?? 0) - copies * (counts[at] ?? 0);
    if (lacking > 0) sum += lacking * (duals[at] ?? 0);
  }
  return sum;
}

const range = (most: number): number[] => Array.from({ length: most }, (_, at) => at + 1);

/** The copies at which a layout finishes one of its designs, or nearly. */
export function turningPoints(counts: readonly number[], rest: readonly number[]): number[] {
  const points = new Set<number>();
  counts.forEach((many, at) => {
    if (many === 0 || (rest[at] ?? 0) === 0) return;
    points.add(Math.ceil((rest[at] ?? 0) / many));
    points.add(Math.max(1, Math.floor((rest[at] ?? 0) / many)));
  });
  return [...points];
}
