/**
 * Whether a pattern of pieces fits on one sheet: a few plain orders first, then the packer. Answers are cached, since
 * plans ask about the same patterns often.
 */
import { seededRandom } from "../../maths/random.ts";
import { fitsExactly } from "./corners.ts";
import { guillotineBoxes } from "./guillotine.ts";
import { nicheFiller } from "./niches.ts";
import { decodersFor, packInto } from "./search.ts";
import {
  type Cuts,
  orientationsOf,
  type PackPiece,
  type PackSteps,
  type Placement,
  type Sheet,
  waysToLie,
} from "./shapes.ts";
import { sliceOver } from "./slices.ts";

export type SingleSheet = {
  /**
   * The places of `counts[k]` pieces of every kind on one sheet; null if none were found: a few plain orders are tried,
   * then the packer takes at most `patience` steps. `piece` in the placements is the kind.
   */
  readonly fit: (
    counts: readonly number[],
    steps: PackSteps,
    patience: number,
  ) => readonly Placement[] | null;
  /** For each kind: its part of the sheet's area; more than 1 if it fits in no way. */
  readonly areas: readonly number[];
};

/** With more pieces than this the exact answer for free placement is out of reach. */
const MOST_PIECES_EXACT = 16;
/** With more ways than this to part a pattern in two, straight cuts are not decided exactly. */
const MOST_PARTS = 5_000;
/** The cost of one step of an exact test, in steps of the packer. */
const STEPS_AN_EXACT_STEP = 10;

/** The area of a kind that fits the sheet in no way, as a part of the sheet's. */
const FITS_IN_NO_WAY = 2;

/** One sheet for these kinds of pieces. Answers are kept; an open one is asked again only with more patience. */
export function singleSheet(kinds: readonly PackPiece[], sheet: Sheet, cuts: Cuts): SingleSheet {
  const known = new Map<
    string,
    { readonly placed: readonly Placement[] | null; readonly patience: number }
  >();
  const whole = sheet.width * sheet.height;
  const areas = kinds.map((kind) =>
    waysToLie(kind, sheet).length === 0 ? FITS_IN_NO_WAY : (kind.width * kind.height) / whole,
  );
  const boxes = guillotineBoxes(kinds, sheet);
  const ask = (counts: readonly number[], steps: PackSteps, patience: number) => {
    if (areaOn(areas, counts) > 1) return null;
    const members = counts.flatMap((count, kind) => Array.from({ length: count }, () => kind));
    const pieces = members.flatMap((kind) => kinds[kind] ?? []);
    const named = (placed: readonly Placement[]) =>
      placed.map((one) => ({ ...one, piece: members[one.piece] ?? 0 }));
    const quick = quickly(pieces, sheet, cuts, steps);
    if (quick || patience <= 0) return quick && named(quick);
    // Few arrangements defeat straight cuts, so they are worth asking about for free placement too.
    if (counts.reduce((product, count) => product * (count + 1), 1) <= MOST_PARTS) {
      const straight = spending(steps, patience, STEPS_AN_EXACT_STEP, (own) => boxes.place(counts, own));
      if (straight !== null && straight !== "no") return straight;
      if (straight === "no" && cuts === "guillotine") return null;
    }
    if (cuts === "free" && pieces.length <= MOST_PIECES_EXACT) {
      const exact = spending(steps, patience, STEPS_AN_EXACT_STEP, (own) => fitsExactly(pieces, sheet, own));
      if (exact.fits !== "unknown") return exact.fits === "yes" ? named(exact.placed) : null;
    }
    const found = spending(steps, patience, 1, (own) => patiently(pieces, sheet, cuts, own));
    return found && named(found);
  };
  return {
    areas,
    fit: (counts, steps, patience) => {
      const key = counts.join();
      const found = known.get(key);
      if (found && (found.placed !== null || found.patience >= patience)) return found.placed;
      const placed = ask(counts, steps, patience);
      known.set(key, { placed, patience });
      return placed;
    },
  };
}

/** The part of a sheet that these counts cover; above 1 they never fit. Forgives the last bits of the sum. */
export function areaOn(areas: readonly number[], counts: readonly number[]): number {
  let sum = 0;
  for (let at = 0; at < counts.length; at++) sum += (areas[at] ?? 0) * (counts[at] ?? 0);
  return sum - 1e-9;
}

/** Largest first, by area, by width and by height: most patterns that fit at all fit one of these ways. */
function quickly(
  pieces: readonly PackPiece[],
  sheet: Sheet,
  cuts: Cuts,
  steps: PackSteps,
): readonly Placement[] | null {
  const orientations = orientationsOf(pieces, sheet);
  const filler = nicheFiller(orientations, sheet);
  const sizes = [
    (piece: PackPiece) => piece.width * piece.height,
    (piece: PackPiece) => piece.width,
    (piece: PackPiece) => piece.height,
  ];
  for (const size of sizes) {
    const order = pieces
      .map((piece, index) => ({ index, size: size(piece) }))
      .sort((a, b) => b.size - a.size)
      .map(({ index }) => index);
    if (cuts === "guillotine") {
      const { sheets, left } = sliceOver(orientations, order, sheet, 1, "shorter", steps);
      if (left.length === 0) return sheets[0] ?? [];
    } else if (filler.fill(order, 1, Number.POSITIVE_INFINITY, steps) === 0) {
      return filler.filling().sheets[0] ?? [];
    }
  }
  return null;
}

/** Gives a question a part of the steps, and charges what it used at `price` each. */
function spending<Answer>(
  steps: PackSteps,
  patience: number,
  price: number,
  put: (own: PackSteps) => Answer,
): Answer {
  const given = Math.max(0, Math.min(patience, steps.left) / price);
  const own: PackSteps = { left: given };
  const answer = put(own);
  steps.left -= price * (given - Math.max(0, own.left));
  return answer;
}

function patiently(
  pieces: readonly PackPiece[],
  sheet: Sheet,
  cuts: Cuts,
  steps: PackSteps,
): readonly Placement[] | null {
  const orientations = orientationsOf(pieces, sheet);
  const start = { sheets: [], left: pieces.map((_, index) => index) };
  const decoders = decodersFor(orientations, sheet, cuts);
  const sheets = packInto(orientations, sheet, 1, start, decoders, seededRandom(1), steps);
  return sheets?.[0] ?? null;
}
