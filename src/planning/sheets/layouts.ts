/**
 * Which layouts there are. Where few pieces fill a sheet, all of them: every handful of transfers that fits
 * together, grown piece by piece, so that "cheapest" can be proven. Where many do, a pool of good ones.
 */
import { sheetBound } from "../packing/bounds.ts";
import { densePool } from "./pool.ts";
import type { Layout, Problem, Size } from "./problem.ts";

export type Layouts = {
  /** Layouts to choose from; where `complete`, every one that no further piece fits on. */
  readonly list: readonly Layout[];
  /** All layouts are known, and every test for fit was decided. */
  readonly complete: boolean;
  /** The layout with exactly these transfers on a sheet of this size; null where they do not fit. */
  readonly exactly: (size: number, counts: readonly number[]) => Layout | null;
  /** Shares of a sheet for each design and size, none of which any layout can exceed in sum. */
  readonly shares: readonly (readonly number[])[];
};

/** Handfuls looked at, on all sizes together, before the search for every layout is given up. */
const MOST_HANDFULS = 12_000;

export function layoutsOf(problem: Problem): Layouts {
  const shares = problem.sizes.map((size) => sheetBound(size.kinds, problem.wanted, size.sheet).weights);
  const tables: Map<string, Layout>[] = [];
  let complete = true;
  let left = MOST_HANDFULS;
  for (const size of problem.sizes) {
    const all = everyHandful(problem, size, left);
    if (all === null) return { ...pooled(problem), shares };
    left -= all.looked;
    complete &&= all.decided;
    tables.push(all.table);
  }
  const list = tables.flatMap((table) =>
    [...table.values()].filter((layout) => isFull(problem, layout, table)),
  );
  const exactly: Layouts["exactly"] = (size, counts) => tables[size]?.get(counts.join()) ?? null;
  return { list, complete, exactly, shares };
}

/** Every handful up to the wanted counts that fits, by size of handful; null when there are too many. */
function everyHandful(
  problem: Problem,
  size: Size,
  most: number,
): { table: Map<string, Layout>; decided: boolean; looked: number } | null {
  const table = new Map<string, Layout>();
  const none = problem.wanted.map(() => 0);
  let decided = true;
  let looked = 0;
  let generation: { counts: readonly number[]; last: number }[] = [{ counts: none, last: 0 }];
  while (generation.length > 0) {
    const next: typeof generation = [];
    for (const { counts, last } of generation) {
      for (let design = last; design < none.length; design++) {
        if ((counts[design] ?? 0) >= (problem.wanted[design] ?? 0)) continue;
        const grown = counts.map((many, at) => (at === design ? many + 1 : many));
        if (!everyPartFits(grown, table)) continue;
        looked += 1;
        if (looked > most || problem.steps.left <= 0) return null;
        const verdict = size.single.fit(grown, problem.steps);
        if (verdict.fits === "unknown") decided = false;
        if (verdict.fits !== "yes") continue;
        table.set(grown.join(), { size: size.at, counts: grown, placed: verdict.placed });
        next.push({ counts: grown, last: design });
      }
    }
    generation = next;
  }
  return { table, decided, looked };
}

/** Whether the handful less any one piece is known to fit; what does not fit stays out with more. */
function everyPartFits(counts: readonly number[], table: ReadonlyMap<string, Layout>): boolean {
  const total = counts.reduce((sum, many) => sum + many, 0);
  if (total === 1) return true;
  return counts.every(
    (many, design) =>
      many === 0 || table.has(counts.map((other, at) => (at === design ? other - 1 : other)).join()),
  );
}

function isFull({ wanted }: Problem, { counts }: Layout, table: ReadonlyMap<string, Layout>): boolean {
  return counts.every((many, design) => {
    if (many >= (wanted[design] ?? 0)) return true;
    return !table.has(counts.map((other, at) => (at === design ? other + 1 : other)).join());
  });
}

function pooled(problem: Problem): Omit<Layouts, "shares"> {
  const exactly: Layouts["exactly"] = (at, counts) => {
    const size = problem.sizes[at];
    if (!size || counts.some((many, design) => many > 0 && !fitsAlone(size, design))) return null;
    const verdict = size.single.fit(counts, problem.steps);
    return verdict.fits === "yes" ? { size: at, counts: [...counts], placed: verdict.placed } : null;
  };
  return { list: densePool(problem, exactly), complete: false, exactly };
}

function fitsAlone(size: Size, design: number): boolean {
  const piece = size.kinds[design];
  if (!piece) return false;
  const { width, height } = size.sheet;
  const turned = piece.mayTurn && piece.height <= width && piece.width <= height;
  return turned || (piece.width <= width && piece.height <= height);
}
