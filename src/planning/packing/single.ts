/**
 * Whether a handful of pieces fits on one sheet: a quick try first, then the exact answer. Answers are
 * remembered, because plans ask about the same handfuls over and over.
 */
import { seededRandom } from "../../maths/random.ts";
import { sheetBound, wholeSheets } from "./bounds.ts";
import { fitsExactly, type Verdict } from "./corners.ts";
import { guillotineBoxes } from "./guillotine.ts";
import { nicheFiller } from "./niches.ts";
import { decodersFor, packInto } from "./search.ts";
import { type Cuts, liesOf, type Piece, type Placement, type Sheet, type Steps } from "./shapes.ts";
import { sliceOver } from "./slices.ts";

export type SingleSheet = {
  /** Whether `counts[k]` pieces of every kind fit together; `piece` in the placements is the kind. */
  readonly fit: (counts: readonly number[], steps: Steps) => Verdict;
  /** False where area or a dual bound rules the handful out; cheap, and never false for one that fits. */
  readonly mightFit: (counts: readonly number[]) => boolean;
};

/** What one question may cost before it is answered "unknown". */
const STEPS_A_QUESTION = 30_000;

/** With more pieces than this the exact answer for free placement is out of reach. */
const MOST_PIECES_EXACT = 16;
/** With more ways than this to part a handful in two, straight cuts are not decided exactly. */
const MOST_PARTS = 5_000;

/** One sheet for these kinds of pieces. Answers "unknown" are remembered too: asking again costs as much. */
export function singleSheet(kinds: readonly Piece[], sheet: Sheet, cuts: Cuts): SingleSheet {
  const known = new Map<string, Verdict>();
  const boxes = guillotineBoxes(kinds, sheet);
  const whole = sheet.width * sheet.height;

  const decide = (counts: readonly number[], steps: Steps): Verdict => {
    const members = counts.flatMap((count, kind) => Array.from({ length: count }, () => kind));
    const pieces = members.flatMap((kind) => kinds[kind] ?? []);
    if (pieces.reduce((sum, piece) => sum + piece.width * piece.height, 0) > whole) return { fits: "no" };
    const quick = quickly(pieces, sheet, cuts, steps);
    if (quick) return { fits: "yes", placed: named(quick, members) };
    if (!mightFit(counts)) return { fits: "no" };

    // Few arrangements defeat straight cuts, so they are worth asking about for free placement too.
    const parts = counts.reduce((product, count) => product * (count + 1), 1);
    if (parts <= MOST_PARTS) {
      const straight = spending(steps, (own) => byStraightCuts(counts, own));
      if (straight.fits === "yes" || cuts === "guillotine") return straight;
    }
    if (cuts === "free" && pieces.length <= MOST_PIECES_EXACT) {
      const exact = spending(steps, (own) => fitsExactly(pieces, sheet, own));
      if (exact.fits === "no") return exact;
      if (exact.fits === "yes") return { fits: "yes", placed: named(exact.placed, members) };
    }
    const found = spending(steps, (own) => patiently(pieces, sheet, cuts, own));
    return found ? { fits: "yes", placed: named(found, members) } : { fits: "unknown" };
  };

  const mightFit: SingleSheet["mightFit"] = (counts) => {
    if (counts.reduce((sum, count, kind) => sum + count * areaOfKind(kind), 0) > whole) return false;
    return wholeSheets(sheetBound(kinds, counts, sheet).sheets) <= 1;
  };
  const areaOfKind = (kind: number) => (kinds[kind]?.width ?? 0) * (kinds[kind]?.height ?? 0);

  const byStraightCuts = (counts: readonly number[], steps: Steps): Verdict => {
    const placed = boxes.place(counts, steps);
    if (placed === null) return { fits: "unknown" };
    return placed === "no" ? { fits: "no" } : { fits: "yes", placed };
  };

  return {
    mightFit,
    fit: (counts, steps) => {
      const key = counts.join();
      const found = known.get(key);
      if (found) return found;
      const verdict = decide(counts, steps);
      known.set(key, verdict);
      return verdict;
    },
  };
}

/** Largest first, by area, by width and by height: most handfuls that fit at all fit one of these ways. */
function quickly(
  pieces: readonly Piece[],
  sheet: Sheet,
  cuts: Cuts,
  steps: Steps,
): readonly Placement[] | null {
  const lies = liesOf(pieces, sheet);
  const filler = nicheFiller(lies, sheet);
  const sizes = [
    (piece: Piece) => piece.width * piece.height,
    (piece: Piece) => piece.width,
    (piece: Piece) => piece.height,
  ];
  for (const size of sizes) {
    const order = pieces
      .map((piece, index) => ({ index, size: size(piece) }))
      .sort((a, b) => b.size - a.size)
      .map(({ index }) => index);
    if (cuts === "guillotine") {
      const { sheets, left } = sliceOver(lies, order, sheet, 1, "shorter", steps);
      if (left.length === 0) return sheets[0] ?? [];
    } else if (filler.fill(order, 1, Number.POSITIVE_INFINITY, steps) === 0) {
      return filler.filling().sheets[0] ?? [];
    }
  }
  return null;
}

/** Gives one question its share of the steps, and takes what it used from all. */
function spending<Answer>(steps: Steps, ask: (own: Steps) => Answer): Answer {
  const given = Math.max(0, Math.min(STEPS_A_QUESTION, steps.left));
  const own: Steps = { left: given };
  const answer = ask(own);
  steps.left -= given - Math.max(0, own.left);
  return answer;
}

function patiently(
  pieces: readonly Piece[],
  sheet: Sheet,
  cuts: Cuts,
  steps: Steps,
): readonly Placement[] | null {
  const lies = liesOf(pieces, sheet);
  const start = { sheets: [], left: pieces.map((_, index) => index) };
  return packInto(lies, sheet, 1, start, decodersFor(lies, sheet, cuts), seededRandom(1), steps)?.[0] ?? null;
}

function named(placed: readonly Placement[], members: readonly number[]): readonly Placement[] {
  return placed.map((placement) => ({ ...placement, piece: members[placement.piece] ?? 0 }));
}
