/**
 * The exact finish: numbers of copies are tried from the cheapest on, and for each whether any layouts make the
 * counts with just those copies. What is left untried when all cheaper ones fail is proven best.
 */
import type { Work } from "../../../maths/work.ts";
import type { Floors } from "./floors.ts";
import { costOf, type Problem, pause, type Run } from "./problem.ts";
import { type Search, worthOf } from "./search.ts";

export type Proof = {
  readonly runs: readonly Run[];
  /** No plan costs less. */
  readonly limit: number;
};

/** A run without its layout yet: so many copies on a sheet size, at this price. */
type Slot = {
  readonly size: number;
  readonly copies: number;
  readonly price: number;
  readonly worth: number;
};

const MOST_TRIALS = 100_000;
const MOST_RUNS = 5;

/** Betters `start` and the bound as far as the steps go. Only for complete lists of layouts. */
export function* proveCheapest(search: Search, start: readonly Run[], floors: Floors): Work<Proof> {
  const { problem } = search;
  let runs = start;
  const grain = divisorOf(problem);
  const rounded = (cost: number) => Math.ceil((cost - 1e-6) / grain) * grain;
  const slots = slotsOf(search);
  for (let many = 1; ; many++) {
    const least = rounded(Math.max(floors.whole, floors.sheets + (many - 1) * problem.extraLayoutPrice));
    if (least >= costOf(problem, runs)) return { runs, limit: costOf(problem, runs) };
    // Plans of many runs are beyond trying out, unless their set-ups alone rule them out.
    if (many > MOST_RUNS) return { runs, limit: least };
    const trials = trialsOf(search, slots, many, costOf(problem, runs));
    if (trials === null) return { runs, limit: least };
    trials.sort((a, b) => a.cost - b.cost);
    for (const trial of trials) {
      if (trial.cost >= costOf(problem, runs)) break;
      const found = layoutsFor(search, trial.slots);
      yield* pause(problem);
      if (found === "unknown") return { runs, limit: Math.min(least, costOf(problem, runs)) };
      if (found) {
        runs = found;
        break;
      }
    }
  }
}

/** Every number of copies worth ordering: no larger order is cheaper. */
function slotsOf({ problem, layouts, duals }: Search): Slot[] {
  const most = Math.max(...problem.wanted);
  return problem.sizes.flatMap((size) => {
    const worth = layouts.list.reduce(
      (best, layout) => (layout.size === size.at ? Math.max(best, worthOf(layout.counts, duals)) : best),
      0,
    );
    const orders = new Map<number, Slot>();
    for (let copies = 1; copies <= most; copies++) {
      const order = size.prices.atLeast(copies);
      orders.set(order.copies, { size: size.at, copies: order.copies, price: order.price, worth });
    }
    return [...orders.values()];
  });
}

/** All ways to order `many` runs for less than `limit` that could make enough; null when there are too many. */
function trialsOf(
  { problem, duals }: Search,
  slots: readonly Slot[],
  many: number,
  limit: number,
): { cost: number; slots: readonly Slot[] }[] | null {
  const need = worthOf(problem.wanted, duals) - 1e-6;
  const sorted = [...slots].sort((a, b) => b.copies * b.worth - a.copies * a.worth);
  const trials: { cost: number; slots: readonly Slot[] }[] = [];
  const grow = (from: number, chosen: readonly Slot[], cost: number, worth: number): boolean => {
    if (chosen.length === many) {
      if (worth >= need) trials.push({ cost, slots: chosen });
      return trials.length <= MOST_TRIALS;
    }
    for (let at = from; at < sorted.length; at++) {
      const slot = sorted[at];
      if (!slot) continue;
      problem.steps.left -= 1;
      if (problem.steps.left <= 0) return false;
      const remaining = many - chosen.length;
      // Slots come in falling order of what they make: all that remain make no more than this one each.
      if (worth + remaining * slot.copies * slot.worth < need) break;
      const next = cost + slot.price + (chosen.length > 0 ? problem.extraLayoutPrice : 0);
      if (next >= limit) continue;
      if (!grow(at, [...chosen, slot], next, worth + slot.copies * slot.worth)) return false;
    }
    return true;
  };
  return grow(0, [], 0, 0) ? trials : null;
}

/** Layouts for these copies that make every count; null when there are none, "unknown" when the steps ran out. */
function layoutsFor(
  { problem, layouts, duals }: Search,
  slots: readonly Slot[],
): readonly Run[] | null | "unknown" {
  const runs: Run[] = [];
  const capacity = slots.map((_, at) =>
    slots.slice(at + 1).reduce((sum, slot) => sum + slot.copies * slot.worth, 0),
  );
  let ranOut = false;
  const place = (at: number, rest: readonly number[], from: number): boolean => {
    const slot = slots[at];
    if (!slot) return false;
    if (at === slots.length - 1) {
      problem.steps.left -= rest.length;
      const layout = layouts.exactly(
        slot.size,
        rest.map((want) => Math.ceil(want / slot.copies)),
      );
      if (layout) runs.push({ layout, copies: slot.copies });
      return layout !== null;
    }
    const twin = slots[at + 1] === slot;
    for (let index = from; index < layouts.list.length; index++) {
      const layout = layouts.list[index];
      if (!layout || layout.size !== slot.size) continue;
      problem.steps.left -= rest.length;
      if (problem.steps.left <= 0) {
        ranOut = true;
        return false;
      }
      const after = rest.map((want, design) =>
        Math.max(0, want - slot.copies * (layout.counts[design] ?? 0)),
      );
      if (worthOf(after, duals) > (capacity[at] ?? 0) + 1e-6) continue;
      runs.push({ layout, copies: slot.copies });
      if (place(at + 1, after, twin ? index : 0)) return true;
      if (ranOut) return false;
      runs.pop();
    }
    return false;
  };
  if (place(0, problem.wanted, 0)) return runs.filter(({ layout }) => layout.counts.some((many) => many > 0));
  return ranOut ? "unknown" : null;
}

/** The largest amount that divides every price: no cost lies between its multiples. */
function divisorOf(problem: Problem): number {
  const amounts = [problem.extraLayoutPrice];
  for (const { prices } of problem.sizes) {
    const most = Math.max(...problem.wanted);
    for (let copies = 1; copies <= most; copies++) amounts.push(prices.atLeast(copies).price);
  }
  const divide = (a: number, b: number): number => (b === 0 ? a : divide(b, a % b));
  return Math.max(
    1,
    amounts.reduce((a, b) => divide(a, b), 0),
  );
}
