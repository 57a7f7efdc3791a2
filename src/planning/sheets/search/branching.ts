/**
 * The exact finish: branch and bound over the copies of every layout. What copies cost is not convex (set-ups,
 * price breaks, minimum copies), so on every range of copies it is replaced by the steepest straight line under
 * it; the covering program with these lines bounds the range, and ranges are split where line and cost part most.
 */
import { type Column, coverFractionally } from "../../../maths/covering.ts";
import type { Work } from "../../../maths/work.ts";
import { costOf, type GangProblem, type Layout, pause, type SheetRun } from "./problem.ts";

export type Proof = {
  readonly runs: readonly SheetRun[];
  /** No plan costs less. */
  readonly limit: number;
};

/** Copies of each layout lie between these; `bound` is for plans inside, extra layout price on every layout. */
type Node = { readonly low: Uint16Array; readonly high: Uint16Array; readonly bound: number };

/** Asking the covering program looks at every column many times over. */
const STEPS_A_COLUMN = 120;

/** Betters `start` and its bound as far as the steps go; `list` must hold every full layout there can be. */
export function* proveByBranching(
  problem: GangProblem,
  list: readonly Layout[],
  start: readonly SheetRun[],
  floor: number,
  budget: number,
): Work<Proof> {
  const stop = Math.max(0, problem.steps.left - budget);
  const extra = problem.extraLayoutPrice;
  const costs = list.map((layout) => costsUpTo(problem, layout));
  const grain = divisorOf(problem, costs);
  let runs = start;
  let best = costOf(problem, start) + extra;
  const rescue = problem.wanted.map(
    (_, row): Column => ({ cost: 1e9, amounts: problem.wanted.map((_, at) => (at === row ? 1 : 0)) }),
  );

  const solve = (
    low: Uint16Array,
    high: Uint16Array,
  ): { node: Node; split: { at: number; copies: number } | null } | null => {
    let fixed = 0;
    const rest = [...problem.wanted];
    const columns: Column[] = [...rescue];
    const whose: number[] = [];
    list.forEach((layout, at) => {
      const least = low[at] ?? 0;
      const most = high[at] ?? 0;
      const cost = costs[at] ?? [];
      fixed += cost[least] ?? 0;
      if (least > 0)
        layout.counts.forEach((many, row) => {
          rest[row] = Math.max(0, (rest[row] ?? 0) - least * many);
        });
      if (most > least) {
        columns.push({ amounts: layout.counts, cost: lineUnder(cost, least, most) });
        whose.push(at);
      }
    });
    problem.steps.left -= STEPS_A_COLUMN * columns.length * rest.length;
    const { bound, bought } = coverFractionally(columns, rest);
    const rounded = Math.ceil((fixed + bound - 1e-6 - extra) / grain) * grain + extra;
    if (rounded >= best) return null;

    const copies = Uint16Array.from(low);
    let split: { at: number; copies: number } | null = null;
    let widest = 1e-6;
    for (const { column, amount } of bought) {
      const at = whose[columns.indexOf(column) - rescue.length];
      if (at === undefined) return { node: { low, high, bound: rounded }, split: widestRange(low, high) };
      const least = low[at] ?? 0;
      const whole = Math.min(high[at] ?? 0, Math.ceil(least + amount - 1e-7));
      copies[at] = whole;
      const cost = costs[at] ?? [];
      const apart = (cost[whole] ?? 0) - (cost[least] ?? 0) - column.cost * amount;
      if (apart > widest) {
        widest = apart;
        split = { at, copies: Math.min(Math.floor(least + amount + 1e-7), (high[at] ?? 0) - 1) };
      }
    }
    consider(copies);
    return { node: { low, high, bound: rounded }, split };
  };

  const consider = (copies: Uint16Array): void => {
    const made = problem.wanted.map((_, row) =>
      list.reduce((sum, layout, at) => sum + (copies[at] ?? 0) * (layout.counts[row] ?? 0), 0),
    );
    if (made.some((many, row) => many < (problem.wanted[row] ?? 0))) return;
    const cost = costs.reduce((sum, table, at) => sum + (table[copies[at] ?? 0] ?? 0), 0);
    if (cost >= best) return;
    best = cost;
    runs = list.flatMap((layout, at): SheetRun[] => {
      const needed = copies[at] ?? 0;
      const order = needed > 0 ? problem.sizes[layout.size]?.prices.atLeast(needed) : undefined;
      return order ? [{ layout, copies: order.copies }] : [];
    });
  };

  const open: { node: Node; split: { at: number; copies: number } }[] = [];
  let limit = floor + extra;
  const push = (low: Uint16Array, high: Uint16Array): void => {
    const solved = solve(low, high);
    if (solved === null) return;
    const { node, split } = solved;
    if (split === null) return; // the lines meet the costs: the plan just considered is the best inside
    open.push({ node, split });
    sink(open);
  };
  push(
    new Uint16Array(list.length),
    Uint16Array.from(costs, (table) => table.length - 1),
  );
  while (open.length > 0 && problem.steps.left > stop) {
    yield* pause(problem);
    const next = pop(open);
    if (!next || next.node.bound >= best) {
      open.length = 0;
      break;
    }
    limit = Math.max(limit, next.node.bound);
    const { low, high } = next.node;
    const under = Uint16Array.from(high);
    under[next.split.at] = next.split.copies;
    const over = Uint16Array.from(low);
    over[next.split.at] = next.split.copies + 1;
    push(low, under);
    push(over, high);
  }
  const proven = open.length === 0;
  const least = proven ? best : Math.min(best, Math.max(limit, open[0]?.node.bound ?? limit));
  return { runs, limit: least - extra };
}

/** The price of at least 0, 1, 2 ... copies, including the extra layout, up to the most that could be useful. */
function costsUpTo(problem: GangProblem, { counts, size }: Layout): number[] {
  const useful = counts.map((many, at) => (many > 0 ? Math.ceil((problem.wanted[at] ?? 0) / many) : 0));
  const prices = problem.sizes[size]?.prices;
  const costs = [0];
  for (let copies = 1; copies <= Math.max(...useful); copies++) {
    costs.push((prices?.atLeast(copies).price ?? 0) + problem.extraLayoutPrice);
  }
  return costs;
}

/** The steepest line from the cost of `least` copies that stays under the costs up to `most`. */
function lineUnder(costs: readonly number[], least: number, most: number): number {
  let slope = Number.POSITIVE_INFINITY;
  const from = costs[least] ?? 0;
  for (let copies = least + 1; copies <= most; copies++) {
    const rise = ((costs[copies] ?? 0) - from) / (copies - least);
    if (rise < slope) slope = rise;
  }
  return Math.max(slope, 1e-9);
}

function widestRange(low: Uint16Array, high: Uint16Array): { at: number; copies: number } | null {
  let widest = 0;
  let split: { at: number; copies: number } | null = null;
  low.forEach((least, at) => {
    const width = (high[at] ?? 0) - least;
    if (width > widest) {
      widest = width;
      split = { at, copies: least + (width >> 1) };
    }
  });
  return split;
}

function divisorOf(problem: GangProblem, costs: readonly (readonly number[])[]): number {
  const divide = (a: number, b: number): number => (b === 0 ? a : divide(b, a % b));
  const extra = problem.extraLayoutPrice;
  const prices = costs.flatMap((table) => table.slice(1).map((cost) => cost - extra));
  return Math.max(1, prices.reduce(divide, extra));
}

/** The open list is a heap with the least bound on top: moves the last entry up to its place. */
function sink(heap: { node: Node }[]): void {
  let at = heap.length - 1;
  while (at > 0) {
    const parent = (at - 1) >> 1;
    const child = heap[at];
    const above = heap[parent];
    if (!child || !above || above.node.bound <= child.node.bound) return;
    heap[at] = above;
    heap[parent] = child;
    at = parent;
  }
}

function pop<Entry extends { node: Node }>(heap: Entry[]): Entry | undefined {
  const top = heap[0];
  const last = heap.pop();
  if (heap.length === 0 || !last) return top;
  heap[0] = last;
  let at = 0;
  for (;;) {
    let least = at;
    for (const child of [2 * at + 1, 2 * at + 2]) {
      if ((heap[child]?.node.bound ?? Number.POSITIVE_INFINITY) < (heap[least]?.node.bound ?? 0))
        least = child;
    }
    if (least === at) return top;
    const kept = heap[at];
    const other = heap[least];
    if (!kept || !other) return top;
    heap[at] = other;
    heap[least] = kept;
    at = least;
  }
}
