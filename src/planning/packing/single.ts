/**
 * Whether a pattern of pieces fits on one sheet: a quick try first, then the exact answer. Answers are cached, since
 * plans ask about the same patterns often.
 */
import { seededRandom } from "../../maths/random.ts";
import { loadOf, sheetWeights } from "./bounds.ts";
import { fitsExactly, type Verdict } from "./corners.ts";
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
   * Whether `counts[k]` pieces of every kind fit together; `piece` in the placements is the kind. A quick try comes
   * first; then the packer takes at most `patience` steps, and seldom proves a no.
   */
  readonly fit: (counts: readonly number[], steps: PackSteps, patience: number) => Verdict;
  /** Like `fit`, with the exact tests between the quick try and the packer's. */
  readonly decide: (counts: readonly number[], steps: PackSteps) => Verdict;
  /** False if area or a dual bound rules the pattern out; cheap, and never false for a pattern that fits. */
  readonly mightFit: (counts: readonly number[]) => boolean;
  /** Lists of weights for the kinds: no sheet holds more than 1 of any list. The first is by area. */
  readonly weights: readonly (readonly number[])[];
};

/** The most that one question may cost before its answer is "unknown". */
const STEPS_A_QUESTION = 30_000;
/** The cost of one step of an exact test, in steps of the packer. */
const STEPS_AN_EXACT_STEP = 10;

/** With more pieces than this the exact answer for free placement is out of reach. */
const MOST_PIECES_EXACT = 16;
/** With more ways than this to part a pattern in two, straight cuts are not decided exactly. */
const MOST_PARTS = 5_000;

/** One sheet for these kinds of pieces. Answers are kept; an open one is asked again only with more patience. */
export function singleSheet(
  kinds: readonly PackPiece[],
  sheet: Sheet,
  cuts: Cuts,
  counts: readonly number[] = kinds.map(() => 1),
): SingleSheet {
  const known = new Map<string, { readonly verdict: Verdict; readonly patience: number }>();
  const boxes = guillotineBoxes(kinds, sheet);
  const whole = sheet.width * sheet.height;
  const byArea = kinds.map((kind) =>
    waysToLie(kind, sheet).length === 0 ? 2 : (kind.width * kind.height) / whole,
  );
  const weights = [byArea, ...sheetWeights(kinds, counts, sheet)];
  const mightFit: SingleSheet["mightFit"] = (asked) =>
    weights.every((list) => loadOf(list, asked) <= 1 + 1e-9);

  const ask = (asked: readonly number[], steps: PackSteps, patience: number, exactly: boolean): Verdict => {
    if (!mightFit(asked)) return { fits: "no" };
    const members = asked.flatMap((count, kind) => Array.from({ length: count }, () => kind));
    const pieces = members.flatMap((kind) => kinds[kind] ?? []);
    const quick = quickly(pieces, sheet, cuts, steps);
    if (quick) return { fits: "yes", placed: named(quick, members) };
    if (patience <= 0) return { fits: "unknown" };

    // Few arrangements defeat straight cuts, so they are worth asking about for free placement too.
    const parts = asked.reduce((product, count) => product * (count + 1), 1);
    if (exactly && parts <= MOST_PARTS) {
      const straight = spending(steps, patience, STEPS_AN_EXACT_STEP, (own) => byStraightCuts(asked, own));
      if (straight.fits === "yes" || cuts === "guillotine") return straight;
    }
    if (exactly && cuts === "free" && pieces.length <= MOST_PIECES_EXACT) {
      const exact = spending(steps, patience, STEPS_AN_EXACT_STEP, (own) => fitsExactly(pieces, sheet, own));
      if (exact.fits === "no") return exact;
      if (exact.fits === "yes") return { fits: "yes", placed: named(exact.placed, members) };
    }
    const found = spending(steps, patience, 1, (own) => patiently(pieces, sheet, cuts, own));
    return found ? { fits: "yes", placed: named(found, members) } : { fits: "unknown" };
  };

  const byStraightCuts = (counts: readonly number[], steps: PackSteps): Verdict => {
    const placed = boxes.place(counts, steps);
    if (placed === null) return { fits: "unknown" };
    return placed === "no" ? { fits: "no" } : { fits: "yes", placed };
  };

  const remembering = (
    asked: readonly number[],
    steps: PackSteps,
    patience: number,
    exactly: boolean,
  ): Verdict => {
    const key = asked.join();
    const found = known.get(key);
    const tried = exactly ? Number.POSITIVE_INFINITY : patience;
    if (found && (found.verdict.fits !== "unknown" || found.patience >= tried)) return found.verdict;
    const verdict = ask(asked, steps, patience, exactly);
    known.set(key, { verdict, patience: tried });
    return verdict;
  };

  return {
    mightFit,
    weights,
    fit: (asked, steps, patience) => remembering(asked, steps, patience, false),
    decide: (asked, steps) => remembering(asked, steps, STEPS_A_QUESTION, true),
  };
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

/** Gives one question its share of the steps, and charges the steps used to the total. */
function spending<Answer>(
  steps: PackSteps,
  patience: number,
  price: number,
  put: (own: PackSteps) => Answer,
): Answer {
  const given = Math.max(0, Math.min(patience, steps.left / price));
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
  return (
    packInto(
      orientations,
      sheet,
      1,
      start,
      decodersFor(orientations, sheet, cuts),
      seededRandom(1),
      steps,
    )?.[0] ?? null
  );
}

function named(placed: readonly Placement[], members: readonly number[]): readonly Placement[] {
  return placed.map((placement) => ({ ...placement, piece: members[placement.piece] ?? 0 }));
}
