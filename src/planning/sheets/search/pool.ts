/**
 * A pool of dense layouts for plans with too many to list: each design alone on a sheet, and what comes of
 * packing the counts divided by this or that number of copies onto as few sheets as a quick packing needs.
 */
import type { Work } from "../../../maths/work.ts";
import { nicheFiller } from "../../packing/niches.ts";
import { liesOf, type Placement } from "../../packing/shapes.ts";
import { sliceOver } from "../../packing/slices.ts";
import { type Layout, type Problem, pause, type Size } from "./problem.ts";

type Exactly = (size: number, counts: readonly number[]) => Layout | null;

/** Pieces packed together at once; more are packed in groups, since quick packing takes their square. */
const MOST_TOGETHER = 600;

export function* densePool(problem: Problem, exactly: Exactly): Work<Layout[]> {
  const pool = new Map<string, Layout>();
  const add = (layout: Layout | null) => {
    if (layout) pool.set(`${layout.size}:${layout.counts.join()}`, layout);
  };
  for (const size of problem.sizes) {
    for (const design of problem.wanted.keys()) {
      add(mostAlone(problem, size, design, exactly));
      yield* pause(problem);
    }
    for (const copies of copiesToTry(problem.wanted)) {
      for (const layout of packedAt(problem, size, copies)) add(layout);
      yield* pause(problem);
      if (problem.steps.left <= 0) break;
    }
  }
  return [...pool.values()];
}

/** As many of one design as a sheet takes; null where it does not fit at all. */
export function mostAlone(problem: Problem, size: Size, design: number, exactly: Exactly): Layout | null {
  const counts = (many: number) => problem.wanted.map((_, at) => (at === design ? many : 0));
  const piece = size.kinds[design];
  if (!piece) return null;
  const byArea = Math.floor((size.sheet.width * size.sheet.height) / (piece.width * piece.height));
  let best: Layout | null = null;
  let low = 1;
  let high = Math.min(byArea, Math.max(1, problem.wanted[design] ?? 0));
  while (low <= high) {
    const middle = (low + high + 1) >> 1;
    const layout = exactly(size.at, counts(middle));
    if (layout) {
      best = layout;
      low = middle + 1;
    } else high = middle - 1;
  }
  return best;
}

/** Numbers of copies worth a try: spread evenly in proportion, from 1 to the largest count. */
function copiesToTry(wanted: readonly number[]): number[] {
  const most = Math.max(...wanted);
  const copies = new Set<number>();
  for (let many = 1; many <= most; many = Math.max(many + 1, Math.round(many * 1.25))) copies.add(many);
  return [...copies].sort((a, b) => b - a);
}

/** Layouts that make every count at least when each is ordered `copies` times. */
export function packedAt(problem: Problem, size: Size, copies: number): Layout[] {
  const members = problem.wanted.flatMap((want, design) => {
    const piece = size.kinds[design];
    const fits = piece && liesOf([piece], size.sheet).widths.some((width) => width > 0);
    return fits ? Array.from({ length: Math.ceil(want / copies) }, () => design) : [];
  });
  const sorted = members
    .map((design) => ({ design, area: (size.kinds[design]?.width ?? 0) * (size.kinds[design]?.height ?? 0) }))
    .sort((a, b) => b.area - a.area)
    .map(({ design }) => design);
  // Dealt out like cards, so that every group has large and small pieces.
  const groups = Math.ceil(sorted.length / MOST_TOGETHER);
  return Array.from({ length: groups }, (_, group) =>
    sorted.filter((_, at) => at % groups === group),
  ).flatMap((group) => packGroup(problem, size, group));
}

function packGroup(problem: Problem, size: Size, group: readonly number[]): Layout[] {
  const pieces = group.flatMap((design) => size.kinds[design] ?? []);
  const lies = liesOf(pieces, size.sheet);
  const order = pieces.map((_, index) => index);
  let sheets: readonly (readonly Placement[])[];
  if (problem.cuts === "guillotine") {
    sheets = sliceOver(lies, order, size.sheet, pieces.length, "shorter", problem.steps).sheets;
  } else {
    const filler = nicheFiller(lies, size.sheet);
    filler.fill(order, pieces.length, Number.POSITIVE_INFINITY, problem.steps);
    sheets = filler.filling().sheets;
  }
  return sheets.map((placed) => {
    const counts = problem.wanted.map(() => 0);
    const named = placed.map((placement) => {
      const design = group[placement.piece] ?? 0;
      counts[design] = (counts[design] ?? 0) + 1;
      return { ...placement, piece: design };
    });
    return { size: size.at, counts, placed: named };
  });
}
