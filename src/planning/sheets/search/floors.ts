/** Costs below which no plan can come, and the dual prices of the designs that go with them. */
import { coverFractionally } from "../../../maths/covering.ts";
import { oneDesignASheet } from "./compare.ts";
import type { Handful, Layouts } from "./layouts.ts";
import type { Problem } from "./problem.ts";

export type Floors = {
  /** No plan's sheets cost less, extra layouts apart. */
  readonly sheets: number;
  /** No plan costs less, extra layouts included. */
  readonly whole: number;
  /** A price for one transfer of each design; no layout is worth more at these than its cheapest copy costs. */
  readonly duals: readonly number[];
};

export function floorsOf(problem: Problem, layouts: Layouts): Floors {
  return layouts.hopeful ? byLayouts(problem, layouts, layouts.hopeful) : byShares(problem, layouts);
}

/**
 * All full handfuls known: the fractional covering program, each layout at the least a copy of it can cost. More
 * copies of a full layout than the last of its designs needs are never worth ordering, save for the price.
 */
function byLayouts(problem: Problem, layouts: Layouts, hopeful: readonly Handful[]): Floors {
  const list: readonly Handful[] = [
    ...hopeful,
    ...oneDesignASheet(problem, layouts).map(({ layout }) => layout),
  ];
  const cover = (setUp: number) => {
    const columns = list.map((layout) => ({
      amounts: layout.counts,
      cost: leastPerCopy(problem, layout, setUp),
    }));
    // A design that is not wanted is on no layout; a column of its own keeps the program whole.
    problem.wanted.forEach((want, row) => {
      if (want === 0)
        columns.push({ amounts: problem.wanted.map((_, at) => (at === row ? 1 : 0)), cost: 1e9 });
    });
    return coverFractionally(columns, problem.wanted);
  };
  const { bound, prices } = cover(0);
  const whole = cover(problem.extraLayoutPrice).bound - problem.extraLayoutPrice;
  return { sheets: bound, whole: Math.max(bound, whole), duals: prices };
}

/** The least a copy of this layout can cost, `setUp` spread over its copies. */
export function leastPerCopy({ wanted, sizes }: Problem, { counts, size }: Handful, setUp: number): number {
  const useful = counts.map((many, at) => (many > 0 ? Math.ceil((wanted[at] ?? 0) / many) : 0));
  const most = Math.max(1, ...useful);
  let least = Number.POSITIVE_INFINITY;
  for (let copies = 1; copies <= most; copies++) {
    least = Math.min(least, ((sizes[size]?.prices.atLeast(copies).price ?? 0) + setUp) / copies);
  }
  return least;
}

/** Not all layouts known: every transfer takes its share of a sheet, by area or a better dual feasible weight. */
function byShares(problem: Problem, layouts: Layouts): Floors {
  const most = Math.max(...problem.wanted);
  const perSheet = problem.sizes.map(({ prices }) => {
    let least = Number.POSITIVE_INFINITY;
    for (let copies = 1; copies <= most; copies++)
      least = Math.min(least, prices.atLeast(copies).price / copies);
    return least;
  });
  const byWeight = problem.wanted.map((_, design) =>
    Math.min(...layouts.shares.map((list, size) => (list[design] ?? 0) * (perSheet[size] ?? 0))),
  );
  const byArea = problem.wanted.map((_, design) =>
    Math.min(
      ...problem.sizes.map(({ at, sheet, kinds }) => {
        const { width, height } = kinds[design] ?? sheet;
        return ((width * height) / (sheet.width * sheet.height)) * (perSheet[at] ?? 0);
      }),
    ),
  );
  const total = (shares: readonly number[]) =>
    problem.wanted.reduce((sum, want, design) => sum + want * (shares[design] ?? 0), 0);
  const sheets = Math.max(total(byWeight), total(byArea));
  // The mean of two valid prices is valid, and gives every design a price above nothing.
  const duals = byWeight.map((weight, design) => (weight + (byArea[design] ?? 0)) / 2);
  return { sheets, whole: sheets, duals };
}
