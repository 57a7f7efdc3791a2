/**
 * The reverse question: for this many sheets, or this much money, the most valuable mix of transfers. A transfer counts
 * up to the wanted number of its design; more are spare.
 */
import type { Random } from "../../../maths/random.ts";
import type { Work } from "../../../maths/work.ts";
import { costOf, type GangProblem, type Layout, lacking, pause, type SheetRun } from "./problem.ts";

export type Means = { readonly sheets: number; readonly money: number };

export type LayoutMix = {
  readonly runs: readonly SheetRun[];
  readonly value: number;
  /** No mix within the means is worth more. */
  readonly limit: number;
};

const MOST_LAYOUTS = 5;

/** The best mix found; one step for every layout looked at. `values` are the worth of one transfer of each. */
export function* bestMix(
  problem: GangProblem,
  layouts: readonly Layout[],
  values: readonly number[],
  given: Means,
  random: Random,
): Work<LayoutMix> {
  const cheapest = Math.min(...problem.sizes.map((size) => cheapestSheet(size.prices.exactly, given.sheets)));
  const means = { ...given, sheets: Math.min(given.sheets, Math.floor(given.money / cheapest)) };
  const limit = mostValue(problem, values, means);
  let best: { runs: readonly SheetRun[]; value: number; cost: number } = { runs: [], value: 0, cost: 0 };
  const consider = (runs: readonly SheetRun[]) => {
    const cost = costOf(problem, runs);
    if (cost > means.money || runs.reduce((sum, { copies }) => sum + copies, 0) > means.sheets) return;
    const value = worthOf(problem, values, runs);
    if (value > best.value || (value === best.value && cost < best.cost)) best = { runs, value, cost };
  };
  for (const split of splits(problem, means, random)) {
    if (problem.steps.left <= 0 && best.runs.length > 0) break;
    consider(ascend(problem, layouts, values, split));
    yield* pause(problem);
    if (best.value >= limit - 1e-9) break;
  }
  return { runs: best.runs, value: best.value, limit: Math.max(limit, best.value) };
}

function worthOf({ wanted }: GangProblem, values: readonly number[], runs: readonly SheetRun[]): number {
  const rest = lacking(wanted, runs);
  return wanted.reduce((sum, want, at) => sum + (want - (rest[at] ?? 0)) * (values[at] ?? 0), 0);
}

type Slot = { readonly size: number; readonly copies: number };

/** Numbers of copies to try: for every size and number of layouts, even shares, then chance. */
function* splits(problem: GangProblem, means: Means, random: Random): Generator<readonly Slot[]> {
  for (let many = 1; many <= MOST_LAYOUTS; many++) {
    for (const size of problem.sizes) {
      const total = affordableCopies(problem, size.at, many, means);
      for (const copies of evenAndUneven(total, many))
        yield copies.map((each) => ({ size: size.at, copies: each }));
    }
  }
  for (let round = 0; round < 400; round++) {
    const many = 1 + random.below(MOST_LAYOUTS);
    const slots: Slot[] = [];
    let left = means.sheets;
    for (let at = 0; at < many && left > 0; at++) {
      const size = random.below(problem.sizes.length);
      const total = Math.min(left, affordableCopies(problem, size, many, means));
      const copies = at === many - 1 ? total : 1 + random.below(Math.max(1, total));
      if (problem.sizes[size]?.prices.exactly(copies)) slots.push({ size, copies });
      left -= copies;
    }
    if (slots.length > 0) yield slots;
  }
}

/** The most sheets of one size that `many` equal runs can have within the means. */
function affordableCopies(
  problem: GangProblem,
  size: number,
  many: number,
  { sheets, money }: Means,
): number {
  const prices = problem.sizes[size]?.prices;
  const extra = (many - 1) * problem.extraLayoutPrice;
  const affordable = (total: number): boolean => {
    const order = prices?.exactly(Math.floor(total / many));
    return order ? order.pricePerSheet * total + extra <= money : false;
  };
  // Prices fall in steps, so affordability is not monotone: the best total is looked for from above.
  const most = Math.min(sheets, 20_000);
  for (let total = most; total >= many; total--) if (affordable(total)) return total;
  return 0;
}

function evenAndUneven(total: number, many: number): number[][] {
  if (total < many) return [];
  const even = Array.from({ length: many }, (_, at) => Math.floor((total + at) / many));
  const uneven: number[] = [];
  let left = total;
  for (let at = 0; at < many; at++) {
    const copies = at === many - 1 ? left : Math.max(1, Math.round((left * 2) / 3));
    if (copies < 1) return [even];
    uneven.push(copies);
    left -= copies;
  }
  return left === 0 ? [even, uneven] : [even];
}

/** The best layout for each run in turn, given the others, until nothing changes. */
function ascend(
  problem: GangProblem,
  layouts: readonly Layout[],
  values: readonly number[],
  slots: readonly Slot[],
): SheetRun[] {
  const runs: SheetRun[] = [];
  for (let round = 0, changed = true; changed && round < 8; round++) {
    changed = false;
    for (let at = 0; at < slots.length; at++) {
      const slot = slots[at];
      if (!slot) continue;
      const others = runs.filter((_, index) => index !== at);
      const layout = bestLayout(problem, layouts, values, slot, lacking(problem.wanted, others));
      if (!layout) return [];
      if (runs[at]?.layout !== layout) changed = true;
      runs[at] = { layout, copies: slot.copies };
    }
  }
  return runs.filter(({ copies, layout }) => problem.sizes[layout.size]?.prices.exactly(copies));
}

function bestLayout(
  problem: GangProblem,
  layouts: readonly Layout[],
  values: readonly number[],
  { size, copies }: Slot,
  rest: readonly number[],
): Layout | null {
  let best: Layout | null = null;
  let most = -1;
  for (const layout of layouts) {
    if (layout.size !== size) continue;
    problem.steps.left -= rest.length;
    let value = 0;
    for (let at = 0; at < rest.length; at++) {
      value += Math.min(rest[at] ?? 0, copies * (layout.counts[at] ?? 0)) * (values[at] ?? 0);
    }
    if (value > most) {
      most = value;
      best = layout;
    }
  }
  return best;
}

/**
 * A bound: each transfer takes its area, and the sheets there can be are
 * filled with the worthiest transfers first.
 */
function mostValue(problem: GangProblem, values: readonly number[], { sheets }: Means): number {
  const share = (at: number) => Math.min(...problem.sizes.map(({ single }) => single.areas[at] ?? 0));
  const byWorth = problem.wanted
    .map((want, at) => ({ want, value: values[at] ?? 0, share: share(at) }))
    .sort((a, b) => b.value / Math.max(1e-12, b.share) - a.value / Math.max(1e-12, a.share));
  let left = sheets;
  let worth = 0;
  for (const { want, value, share: each } of byWorth) {
    const made = each <= 0 ? want : Math.min(want, left / each);
    worth += made * value;
    left -= made * each;
  }
  return worth;
}

function cheapestSheet(
  exactly: (copies: number) => { readonly pricePerSheet: number } | null,
  most: number,
): number {
  let best = Number.POSITIVE_INFINITY;
  for (let copies = 1; copies <= Math.min(most, 100_000); copies++) {
    best = Math.min(best, exactly(copies)?.pricePerSheet ?? Number.POSITIVE_INFINITY);
  }
  return best;
}
