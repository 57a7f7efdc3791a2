/** Every full layout there is, if few pieces fill a sheet: each pattern that fits together, grown piece by piece. */
import { fitsExactly } from "../../../src/planning/packing/corners.ts";
import { guillotineBoxes } from "../../../src/planning/packing/guillotine.ts";
import type { DesignSize, GangProblem } from "../../../src/planning/sheets/search/problem.ts";
import type { Pattern } from "../../planning/optimum.ts";

const MOST_PATTERNS = 5_000;
const STEPS_A_QUESTION = 30_000;

/** Layouts that no further piece fits on; null if there are too many, or one question was not decided. */
export function everyLayout(problem: GangProblem): Pattern[] | null {
  const list: Pattern[] = [];
  for (const size of problem.sizes) {
    const fitting = everyPattern(problem, size);
    if (fitting === null) return null;
    for (const counts of fitting.values()) {
      const isFull = counts.every(
        (many, at) => many >= (problem.wanted[at] ?? 0) || !fitting.has(withOne(counts, at, 1).join()),
      );
      if (isFull) list.push({ size: size.at, counts });
    }
  }
  return list;
}

const withOne = (counts: readonly number[], design: number, by: number): number[] =>
  counts.map((many, at) => (at === design ? many + by : many));

function everyPattern(problem: GangProblem, size: DesignSize): Map<string, number[]> | null {
  const boxes = guillotineBoxes(size.kinds, size.sheet);
  const fitting = new Map<string, number[]>();
  let generation: { counts: number[]; last: number }[] = [{ counts: problem.wanted.map(() => 0), last: 0 }];
  let looked = 0;
  while (generation.length > 0) {
    const next: typeof generation = [];
    for (const { counts, last } of generation)
      for (let design = last; design < counts.length; design++) {
        if ((counts[design] ?? 0) >= (problem.wanted[design] ?? 0)) continue;
        const grown = withOne(counts, design, 1);
        // What fits still fits with one piece less.
        const isSingle = grown.reduce((sum, many) => sum + many, 0) === 1;
        if (!isSingle && grown.some((many, at) => many > 0 && !fitting.has(withOne(grown, at, -1).join())))
          continue;
        if (++looked > MOST_PATTERNS) return null;
        const fits = decide(problem, size, boxes, grown);
        if (fits === null) return null;
        if (!fits) continue;
        fitting.set(grown.join(), grown);
        next.push({ counts: grown, last: design });
      }
    generation = next;
  }
  return fitting;
}

function decide(
  { cuts }: GangProblem,
  { kinds, sheet }: DesignSize,
  boxes: ReturnType<typeof guillotineBoxes>,
  counts: readonly number[],
): boolean | null {
  const pieces = counts.flatMap((many, at) => Array.from({ length: many }, () => kinds[at] ?? []).flat());
  const area = pieces.reduce((sum, { width, height }) => sum + width * height, 0);
  if (area > sheet.width * sheet.height) return false;
  const straight = boxes.place(counts, { left: STEPS_A_QUESTION });
  if (cuts === "guillotine") return straight === null ? null : straight !== "no";
  if (straight !== null && straight !== "no") return true;
  const verdict = fitsExactly(pieces, sheet, { left: 20 * STEPS_A_QUESTION });
  return verdict.fits === "unknown" ? null : verdict.fits === "yes";
}
