/**
 * Column generation (Gilmore and Gomory 1961, Operations Research 9, 849-859): the fractional covering program
 * over the layouts known so far prices every design, and the packer looks for layouts that are worth more at
 * these prices than they cost. Packing is not exact, so its value is no bound.
 */
import { coverFractionally } from "../../../maths/covering.ts";
import type { Random } from "../../../maths/random.ts";
import type { Work } from "../../../maths/work.ts";
import { nicheFiller } from "../../packing/niches.ts";
import { orientationsOf, type Placement } from "../../packing/shapes.ts";
import { spreadOver } from "../../packing/skylines.ts";
import { sliceOver } from "../../packing/slices.ts";
import { type DesignSize, type GangProblem, type Layout, lacking, pause, type SheetRun } from "./problem.ts";

const MOST_ROUNDS = 60;
const ORDERS = 10;
/** More pieces than this are not offered to one sheet at once. */
const MOST_OFFERED = 150;

/** The layouts given and those that column generation adds; `budget` steps at most. */
export function* generated(
  problem: GangProblem,
  given: readonly Layout[],
  setUp: number,
  random: Random,
  budget: number,
): Work<Layout[]> {
  const pool = new Map(given.map((layout) => [keyOf(layout), layout]));
  const stop = Math.max(0, problem.steps.left - budget);
  for (let round = 0; round < MOST_ROUNDS && problem.steps.left > stop; round++) {
    const { prices } = yield* covered(problem, [...pool.values()], problem.wanted, setUp);
    let added = false;
    for (const size of problem.sizes) {
      for (const layout of worthiest(problem, size, prices, random)) {
        const worth = layout.counts.reduce((sum, many, at) => sum + many * (prices[at] ?? 0), 0);
        if (worth <= leastPerCopy(problem, layout, setUp) * (1 + 1e-6)) continue;
        added ||= !pool.has(keyOf(layout));
        pool.set(keyOf(layout), layout);
      }
      yield* pause(problem);
    }
    if (!added) break;
  }
  return [...pool.values()];
}

const keyOf = ({ size, counts }: Layout) => `${size}:${counts.join()}`;

/** The fractional program over these layouts, every copy at the least it can cost. */
function* covered(
  problem: GangProblem,
  layouts: readonly Layout[],
  rest: readonly number[],
  setUp: number,
): Work<{ prices: readonly number[]; bought: { layout: Layout; amount: number }[] }> {
  const columns = layouts.map((layout) => ({
    layout,
    amounts: layout.counts,
    cost: leastPerCopy(problem, layout, setUp),
  }));
  // A column for each design alone keeps the program whole.
  const alone = rest.map((_, row) => ({ amounts: rest.map((_, at) => (at === row ? 1 : 0)), cost: 1e9 }));
  problem.steps.left -= (columns.length + rest.length) * rest.length * 10;
  yield* pause(problem);
  const { prices, bought } = coverFractionally([...columns, ...alone], rest);
  return {
    prices,
    bought: bought.flatMap(({ column, amount }) => {
      const layout = columns.find((known) => known === column)?.layout;
      return layout ? [{ layout, amount }] : [];
    }),
  };
}

/** The least a copy of this layout can cost, `setUp` spread over its copies. */
function leastPerCopy({ wanted, sizes }: GangProblem, { counts, size }: Layout, setUp: number): number {
  const useful = counts.map((many, at) => (many > 0 ? Math.ceil((wanted[at] ?? 0) / many) : 0));
  const most = Math.max(1, ...useful);
  let least = Number.POSITIVE_INFINITY;
  for (let copies = 1; copies <= most; copies++) {
    least = Math.min(least, ((sizes[size]?.prices.atLeast(copies).price ?? 0) + setUp) / copies);
  }
  return least;
}

/** Layouts worth much at these prices: the most valued pieces for their area first, with some noise. */
function worthiest(
  problem: GangProblem,
  size: DesignSize,
  prices: readonly number[],
  random: Random,
): Layout[] {
  const whole = size.sheet.width * size.sheet.height;
  const offered = problem.wanted.flatMap((want, design) => {
    const area = size.single.areas[design] ?? 2;
    const price = prices[design] ?? 0;
    if (area > 1 || price <= 0) return [];
    const many = Math.min(want, Math.floor(1 / area));
    return Array.from({ length: many }, () => ({ design, rate: price / area }));
  });
  offered.sort((a, b) => b.rate - a.rate);
  const members = offered.slice(0, MOST_OFFERED).map(({ design }) => design);
  const pieces = members.flatMap((design) => size.kinds[design] ?? []);
  const orientations = orientationsOf(pieces, size.sheet);
  const filler = nicheFiller(orientations, size.sheet);
  const found: { layout: Layout; worth: number }[] = [];
  for (let nth = 0; nth < ORDERS; nth++) {
    const noises = problem.wanted.map(() => 1 - (nth === 0 ? 0 : 0.6) * random.next());
    const bias = nth % 2 === 0 ? 0 : 0.5;
    const keys = members.map((design) => {
      const area = size.single.areas[design] ?? 1;
      return ((prices[design] ?? 0) / area) * area ** bias * (noises[design] ?? 1);
    });
    const order = members.map((_, at) => at).sort((a, b) => (keys[b] ?? 0) - (keys[a] ?? 0));
    let placed: readonly Placement[];
    if (problem.cuts === "guillotine") {
      const rule = nth % 4 < 2 ? "shorter" : "longer";
      placed = sliceOver(orientations, order, size.sheet, 1, rule, problem.steps).sheets[0] ?? [];
    } else if (nth % 3 === 2) {
      // The niches choose their pieces: only what could fill the sheet one and a quarter times is offered.
      let area = 0;
      const some = order.filter((piece) => {
        area += orientations.areas[piece] ?? 0;
        return area <= 1.25 * whole;
      });
      filler.fill(some, 1, Number.POSITIVE_INFINITY, problem.steps);
      placed = filler.filling().sheets[0] ?? [];
    } else placed = spreadOver(orientations, order, size.sheet, 1, problem.steps).sheets[0] ?? [];
    const layout = layoutOf(problem, size, placed, members);
    const worth = layout.counts.reduce((sum, many, at) => sum + many * (prices[at] ?? 0), 0);
    found.push({ layout, worth });
  }
  return found
    .sort((a, b) => b.worth - a.worth)
    .slice(0, 3)
    .map(({ layout }) => layout);
}

/** A packed sheet as a layout; `members` are the designs of the pieces. */
export function layoutOf(
  problem: GangProblem,
  size: DesignSize,
  placed: readonly Placement[],
  members: readonly number[],
): Layout {
  const counts = problem.wanted.map(() => 0);
  const named = placed.map((placement) => {
    const design = members[placement.piece] ?? 0;
    counts[design] = (counts[design] ?? 0) + 1;
    return { ...placement, piece: design };
  });
  return { size: size.at, counts, placed: named };
}

/** A plan from the program: whole copies are kept and it is asked again, until the rest is less than one of each; null if the steps end first. */
export function* dived(
  problem: GangProblem,
  pool: readonly Layout[],
  setUp: number,
): Work<readonly SheetRun[] | null> {
  const copies = new Map<Layout, number>();
  const made = (): SheetRun[] => [...copies].map(([layout, many]) => ({ layout, copies: many }));
  for (;;) {
    const rest = lacking(problem.wanted, made());
    if (rest.every((want) => want === 0)) break;
    if (problem.steps.left <= 0) return null;
    const { bought } = yield* covered(problem, pool, rest, setUp);
    if (bought.length === 0) return null;
    const most = bought.reduce((a, b) => (b.amount > a.amount ? b : a));
    for (const { layout, amount } of bought) {
      const many = Math.floor(amount + 1e-6);
      if (many > 0) copies.set(layout, (copies.get(layout) ?? 0) + many);
    }
    if (most.amount < 1 - 1e-6) copies.set(most.layout, (copies.get(most.layout) ?? 0) + 1);
  }
  return made().map(({ layout, copies: many }) => ({
    layout,
    copies: problem.sizes[layout.size]?.prices.atLeast(many).copies ?? many,
  }));
}
