/**
 * Which layouts there are. Where few pieces fill a sheet, all of them: every handful of transfers that fits
 * together, grown piece by piece, so that "cheapest" can be proven. Where many do, a pool of good ones.
 */
import type { Work } from "../../../maths/work.ts";
import { sheetBound } from "../../packing/bounds.ts";
import { densePool } from "./pool.ts";
import { type Layout, type Problem, pause, type Size } from "./problem.ts";

/** So many transfers of each design on a sheet of this size, whether or not it is known how they lie. */
export type Handful = { readonly size: number; readonly counts: readonly number[] };

export type Layouts = {
  /** Layouts to choose from; where `complete`, every one that no further piece fits on. */
  readonly list: readonly Layout[];
  /** All layouts are known, and every test for fit was decided. */
  readonly complete: boolean;
  /**
   * Every full handful that fits or may yet fit: no layout holds more than one of these. Null where there are
   * too many to list; the same as `list` where `complete`.
   */
  readonly hopeful: readonly Handful[] | null;
  /** The layout with exactly these transfers on a sheet of this size; null where they do not fit. */
  readonly exactly: (size: number, counts: readonly number[]) => Layout | null;
  /** Shares of a sheet for each design and size, none of which any layout can exceed in sum. */
  readonly shares: readonly (readonly number[])[];
};

/** Handfuls looked at, on all sizes together, before the search for every layout is given up. */
const MOST_HANDFULS = 12_000;

export function* layoutsOf(problem: Problem): Work<Layouts> {
  const shares = problem.sizes.map((size) => sheetBound(size.kinds, problem.wanted, size.sheet).weights);
  const list: Layout[] = [];
  const hopeful: Handful[] = [];
  const tables: ReadonlyMap<string, Layout>[] = [];
  let complete = true;
  let left = MOST_HANDFULS;
  for (const size of problem.sizes) {
    const all = yield* everyHandful(problem, size, left);
    if (all === null) return { ...(yield* pooled(problem)), shares };
    left -= all.looked;
    complete &&= all.undecided.size === 0;
    tables.push(all.fitting);
    list.push(...[...all.fitting.values()].filter(({ counts }) => isFull(problem, counts, [all.fitting])));
    for (const { counts } of [...all.fitting.values(), ...all.undecided.values()]) {
      if (isFull(problem, counts, [all.fitting, all.undecided])) hopeful.push({ size: size.at, counts });
    }
  }
  const exactly: Layouts["exactly"] = (size, counts) => tables[size]?.get(counts.join()) ?? null;
  return { list, complete, hopeful, exactly, shares };
}

type Handfuls = {
  readonly fitting: ReadonlyMap<string, Layout>;
  readonly undecided: ReadonlyMap<string, Handful>;
  readonly looked: number;
};

/** Every handful up to the wanted counts that fits or may fit, smaller ones first; null when there are too many. */
function* everyHandful(problem: Problem, size: Size, most: number): Work<Handfuls | null> {
  const fitting = new Map<string, Layout>();
  const undecided = new Map<string, Handful>();
  const none = problem.wanted.map(() => 0);
  let looked = 0;
  let generation: { counts: readonly number[]; last: number }[] = [{ counts: none, last: 0 }];
  while (generation.length > 0) {
    const next: typeof generation = [];
    for (const { counts, last } of generation) {
      for (let design = last; design < none.length; design++) {
        if ((counts[design] ?? 0) >= (problem.wanted[design] ?? 0)) continue;
        const grown = counts.map((many, at) => (at === design ? many + 1 : many));
        const parts = partsOf(grown);
        if (!parts.every((part) => fitting.has(part) || undecided.has(part))) continue;
        looked += 1;
        yield* pause(problem);
        if (looked > most || problem.steps.left <= 0) return null;
        // With a part that was not decided, the whole is hardly worth the trouble.
        if (parts.every((part) => fitting.has(part))) {
          const verdict = size.single.fit(grown, problem.steps);
          if (verdict.fits === "no") continue;
          if (verdict.fits === "yes")
            fitting.set(grown.join(), { size: size.at, counts: grown, placed: verdict.placed });
          else undecided.set(grown.join(), { size: size.at, counts: grown });
        } else if (size.single.mightFit(grown)) undecided.set(grown.join(), { size: size.at, counts: grown });
        else continue;
        next.push({ counts: grown, last: design });
      }
    }
    generation = next;
  }
  return { fitting, undecided, looked };
}

/** The handful less any one piece, as keys; what does not fit stays out with more. A single piece has no parts. */
function partsOf(counts: readonly number[]): string[] {
  if (counts.reduce((sum, many) => sum + many, 0) === 1) return [];
  return counts.flatMap((many, design) =>
    many === 0 ? [] : [counts.map((other, at) => (at === design ? other - 1 : other)).join()],
  );
}

function isFull(
  { wanted }: Problem,
  counts: readonly number[],
  tables: readonly ReadonlyMap<string, Handful>[],
): boolean {
  return counts.every((many, design) => {
    if (many >= (wanted[design] ?? 0)) return true;
    const more = counts.map((other, at) => (at === design ? other + 1 : other)).join();
    return !tables.some((table) => table.has(more));
  });
}

function* pooled(problem: Problem): Work<Omit<Layouts, "shares">> {
  const exactly: Layouts["exactly"] = (at, counts) => {
    const size = problem.sizes[at];
    if (!size || counts.some((many, design) => many > 0 && !fitsAlone(size, design))) return null;
    const verdict = size.single.fit(counts, problem.steps);
    return verdict.fits === "yes" ? { size: at, counts: [...counts], placed: verdict.placed } : null;
  };
  return { list: yield* densePool(problem, exactly), complete: false, hopeful: null, exactly };
}

function fitsAlone(size: Size, design: number): boolean {
  const piece = size.kinds[design];
  if (!piece) return false;
  const { width, height } = size.sheet;
  const turned = piece.mayTurn && piece.height <= width && piece.width <= height;
  return turned || (piece.width <= width && piece.height <= height);
}
