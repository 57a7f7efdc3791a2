/**
 * Every layout there is, if few pieces fill a sheet: each pattern of transfers that fits together, grown piece by
 * piece, so that "cheapest" can be proven.
 */
import type { Work } from "../../../maths/work.ts";
import { type DesignSize, type GangProblem, type Layout, pause } from "./problem.ts";

/** The transfers of each design on a sheet of this size, whether or not a layout is known. */
type Pattern = { readonly size: number; readonly counts: readonly number[] };

export type Layouts = {
  /** Layouts that no further piece fits on. */
  readonly list: readonly Layout[];
  /** Every full pattern that fits or may yet fit: no layout holds more than one of these. */
  readonly hopeful: readonly Pattern[];
  /** Every test for fit was decided. */
  readonly complete: boolean;
};

/** Patterns looked at, on all sizes together, before the search for every layout is given up. */
const MOST_PATTERNS = 5_000;

/** All full layouts, or null if there are too many to list within `budget` steps. */
export function* everyLayout(problem: GangProblem, budget: number): Work<Layouts | null> {
  const list: Layout[] = [];
  const hopeful: Pattern[] = [];
  let complete = true;
  let left = MOST_PATTERNS;
  const stop = Math.max(0, problem.steps.left - budget);
  if (!fewEnough(problem)) return null;
  for (const size of problem.sizes) {
    const all = yield* everyPattern(problem, size, left, stop);
    if (all === null) return null;
    left -= all.looked;
    complete &&= all.undecided.size === 0;
    list.push(...[...all.fitting.values()].filter(({ counts }) => isFull(problem, counts, [all.fitting])));
    for (const { counts } of [...all.fitting.values(), ...all.undecided.values()]) {
      if (isFull(problem, counts, [all.fitting, all.undecided])) hopeful.push({ size: size.at, counts });
    }
  }
  return { list, hopeful, complete };
}

/** Whether the bounds alone leave few enough patterns. */
function fewEnough(problem: GangProblem): boolean {
  let left = MOST_PATTERNS;
  const counts = problem.wanted.map(() => 0);
  const grow = (size: DesignSize, last: number): boolean => {
    for (let design = last; design < counts.length; design++) {
      const many = counts[design] ?? 0;
      if (many >= (problem.wanted[design] ?? 0)) continue;
      counts[design] = many + 1;
      const fine = !size.single.mightFit(counts) || (--left > 0 && grow(size, design));
      counts[design] = many;
      if (!fine) return false;
    }
    return true;
  };
  return problem.sizes.every((size) => grow(size, 0));
}

type Patterns = {
  readonly fitting: ReadonlyMap<string, Layout>;
  readonly undecided: ReadonlyMap<string, Pattern>;
  readonly looked: number;
};

/** Every pattern up to the wanted counts that fits or may fit, smaller ones first; null when there are too many. */
function* everyPattern(
  problem: GangProblem,
  size: DesignSize,
  most: number,
  stop: number,
): Work<Patterns | null> {
  const fitting = new Map<string, Layout>();
  const undecided = new Map<string, Pattern>();
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
        if (looked > most || problem.steps.left <= stop) return null;
        // With a part that was not decided, the whole is hardly worth the trouble.
        if (parts.every((part) => fitting.has(part))) {
          const verdict = size.single.decide(grown, problem.steps);
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

/** The pattern less any one piece, as keys; what does not fit stays out with more. A single piece has no parts. */
function partsOf(counts: readonly number[]): string[] {
  if (counts.reduce((sum, many) => sum + many, 0) === 1) return [];
  return counts.flatMap((many, design) =>
    many === 0 ? [] : [counts.map((other, at) => (at === design ? other - 1 : other)).join()],
  );
}

function isFull(
  { wanted }: GangProblem,
  counts: readonly number[],
  tables: readonly ReadonlyMap<string, Pattern>[],
): boolean {
  return counts.every((many, design) => {
    if (many >= (wanted[design] ?? 0)) return true;
    const more = counts.map((other, at) => (at === design ? other + 1 : other)).join();
    return !tables.some((table) => table.has(more));
  });
}
