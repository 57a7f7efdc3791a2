/**
 * The cheapest one or two layouts that make the missing counts. Copies are chosen first: all pairs of orders whose
 * combined room could hold the counts, the roomiest kinds first and the cheapest first among them. For each pair, the
 * counts are divided between the two sheets, and the packer checks both shares.
 */
import type { Work } from "../../../maths/work.ts";
import { type GangProblem, type Layout, pause, type SheetRun } from "./problem.ts";
import { countsFor, loadOn, pooledLoad, type Slot, slotsOf, waysToShare } from "./slots.ts";

/** Runs with what they cost, every one charged the price of an extra layout. */
export type FewChoice = { readonly runs: readonly SheetRun[]; readonly cost: number };

/** Pairs that fill no more than this share of their room come first, then those that fill more. */
const ROOMY = [0.82, 0.88, 0.92, 0.96, 1];
/** Fuller than this, only few pieces a sheet are worth the packer's patience. */
const DENSE = 0.97;
const FEW_PIECES = 5;
const MOST_SHARINGS = 40;
const SHARINGS_TRIED = 8;
const NODES_A_PAIR = 600;

/** The cheapest single layout for `rest` under `limit`, or null. The packer has `patience` steps for each try. */
function cheapestSingle(
  problem: GangProblem,
  rest: readonly number[],
  limit: number,
  patience: number,
): FewChoice | null {
  for (const slot of slotsOf(problem, rest, limit)) {
    if (problem.steps.left <= 0) return null;
    problem.steps.left -= rest.length;
    const layout = layoutFor(problem, slot, countsFor(rest, slot.copies), patience);
    if (layout) return { runs: [{ layout, copies: slot.copies }], cost: slot.cost };
  }
  return null;
}

function layoutFor(
  problem: GangProblem,
  { size }: Slot,
  counts: readonly number[],
  patience: number,
): Layout | null {
  const placed = size.single.fit(counts, problem.steps, patience);
  return placed && { size: size.at, counts, placed };
}

/** At most two layouts that make all of `rest` for less than `limit`; null if none are found. */
export function* cheapestFew(
  problem: GangProblem,
  rest: readonly number[],
  limit: number,
  patience: number,
  budget: number,
): Work<FewChoice | null> {
  if (rest.every((want) => want === 0)) return limit > 0 ? { runs: [], cost: 0 } : null;
  let best = cheapestSingle(problem, rest, limit, patience);
  let bar = best?.cost ?? limit;
  const stop = problem.steps.left - budget;
  const pieces = rest.reduce((sum, want) => sum + want, 0);
  const pairs = yield* pairsUnder(problem, rest, bar);
  let least = 0;
  for (const most of ROOMY) {
    for (const { load, cost, slots } of pairs) {
      if (problem.steps.left <= Math.max(0, stop)) return best;
      if (cost >= bar) break;
      if (load <= least || load > most) continue;
      const few = pieces < FEW_PIECES * (slots[0].copies + slots[1].copies);
      const runs = sharedOut(
        problem,
        rest,
        slots,
        few || load < DENSE ? patience : 0,
        few ? SHARINGS_TRIED : 2,
      );
      yield* pause(problem);
      if (runs) {
        best = { runs, cost };
        bar = cost;
      }
    }
    least = most;
  }
  return best;
}

type Pair = { readonly slots: readonly [Slot, Slot]; readonly cost: number; readonly load: number };

/** All pairs of orders under the limit whose area is enough, in rising order of cost. */
function* pairsUnder(problem: GangProblem, rest: readonly number[], limit: number): Work<Pair[]> {
  const slots = slotsOf(problem, rest, limit);
  const pairs: Pair[] = [];
  for (let at = 0; at < slots.length; at++) {
    for (let with_ = 0; with_ <= at; with_++) {
      const [one, other] = [slots[at], slots[with_]];
      if (!one || !other) continue;
      const cost = one.cost + other.cost;
      if (cost >= limit) break;
      const large = one.copies >= other.copies ? one : other;
      const small = large === one ? other : one;
      problem.steps.left -= 2 * rest.length;
      const load = pooledLoad(rest, large, small, 1);
      if (load > 1) continue;
      pairs.push({ slots: [large, small], cost, load });
    }
    yield* pause(problem);
  }
  return pairs.sort((a, b) => a.cost - b.cost || a.load - b.load);
}

/** The counts on two layouts with these copies, if a sharing is found whose both halves fit. */
function sharedOut(
  problem: GangProblem,
  rest: readonly number[],
  [one, other]: readonly [Slot, Slot],
  patience: number,
  patient: number,
): readonly SheetRun[] | null {
  const sharings = sharingsOf(problem, rest, one, other);
  const fits = (counts: readonly number[], slot: Slot, most: number) =>
    counts.every((many) => many === 0)
      ? { size: slot.size.at, counts, placed: [] }
      : layoutFor(problem, slot, counts, most);
  const most = [0, patience];
  for (const allowed of new Set(most)) {
    for (const { firsts, seconds } of sharings.slice(0, allowed === 0 ? SHARINGS_TRIED : patient)) {
      if (problem.steps.left <= 0) return null;
      const first = fits(firsts, one, allowed);
      const second = first && fits(seconds, other, allowed);
      if (!first || !second) continue;
      return [
        { layout: first, copies: one.copies },
        { layout: second, copies: other.copies },
      ].filter(({ layout }) => layout.placed.length > 0);
    }
  }
  return null;
}

type Sharing = { readonly firsts: number[]; readonly seconds: number[]; readonly load: number };

/** Ways to share the counts between two sheets so that neither is overfull by area, the evenest first. */
function sharingsOf(problem: GangProblem, rest: readonly number[], one: Slot, other: Slot): Sharing[] {
  const [firstAreas, secondAreas] = [one.size.single.areas, other.size.single.areas];
  const [oneArea, otherArea] = [one, other].map(
    ({ copies, size }) => copies * size.sheet.width * size.sheet.height,
  ) as [number, number];
  const designs = rest
    .flatMap((want, at) => {
      if (want === 0) return [];
      const ways = [...waysToShare(want, one.copies, other.copies)].map(([first, second]) => {
        const [a, b] = [first * (firstAreas[at] ?? 0), second * (secondAreas[at] ?? 0)];
        return { first, second, a, b, paid: a * oneArea + b * otherArea };
      });
      return [
        { at, ways: ways.sort((x, y) => x.paid - y.paid), least: Math.min(...ways.map(({ paid }) => paid)) },
      ];
    })
    .sort((x, y) => y.least - x.least);
  const after = new Float64Array(designs.length + 1);
  for (let at = designs.length - 1; at >= 0; at--)
    after[at] = (after[at + 1] ?? 0) + (designs[at]?.least ?? 0);
  const room = oneArea + otherArea;
  const found: Sharing[] = [];
  const firsts = rest.map(() => 0);
  const seconds = rest.map(() => 0);
  let nodes = NODES_A_PAIR;
  const share = (depth: number, a: number, b: number, paid: number): void => {
    const design = designs[depth];
    if (!design) {
      const load = Math.max(loadOn(one.size, firsts), loadOn(other.size, seconds));
      if (load <= 1) found.push({ firsts: [...firsts], seconds: [...seconds], load: Math.max(a, b) });
      return;
    }
    // The emptier sheet first, among ways that take hardly more room.
    const ways = design.ways.filter((way) => a + way.a <= 1 && b + way.b <= 1);
    ways.sort(
      (x, y) =>
        x.paid / room + Math.max(a + x.a, b + x.b) / 4 - (y.paid / room + Math.max(a + y.a, b + y.b) / 4),
    );
    for (const way of ways) {
      if (nodes-- <= 0 || found.length >= MOST_SHARINGS) return;
      if (paid + way.paid + (after[depth + 1] ?? 0) > room) continue;
      firsts[design.at] = way.first;
      seconds[design.at] = way.second;
      share(depth + 1, a + way.a, b + way.b, paid + way.paid);
    }
    firsts[design.at] = 0;
    seconds[design.at] = 0;
  };
  share(0, 0, 0, 0);
  problem.steps.left -= (NODES_A_PAIR - nodes) * 8;
  return found.sort((x, y) => x.load - y.load);
}
