/**
 * Rectangles onto as few equal sheets as possible. The answer always says how few sheets could ever do, and
 * whether the number found is proven to be the fewest.
 */
import { type Random, seededRandom } from "../../maths/random.ts";
import { shareOut } from "./assign.ts";
import { beamInto } from "./beam.ts";
import { sheetBound, wholeSheets } from "./bounds.ts";
import { decodersFor, packInto } from "./search.ts";
import {
  type Cuts,
  type Filling,
  orientationsOf,
  type PackPiece,
  type PackSteps,
  type Placement,
  type Sheet,
  waysToLie,
} from "./shapes.ts";

export type PackingOptions = {
  readonly cuts: Cuts;
  /** Work allowed, in steps (a piece, corner or free rectangle looked at). */
  readonly steps: number;
  readonly seed: number;
  /** Fewest sheets there can be, if that is known already. */
  readonly fewest?: number;
};

export type Packing =
  | {
      readonly kind: "packed";
      /** Every piece exactly once, sheet by sheet. */
      readonly sheets: readonly (readonly Placement[])[];
      /** No packing needs fewer sheets than this. */
      readonly lowerBound: number;
      /** The number of sheets is proven to be the fewest. */
      readonly proven: boolean;
      readonly stepsUsed: number;
    }
  /** Pieces that do not fit the sheet in any permitted orientation. */
  | { readonly kind: "too-large"; readonly pieces: readonly number[] };

/** Beyond this many pieces an exact search is hopeless and not started. */
const MOST_PIECES_EXACT = 24;
const LEAST_STEPS_EXACT = 1_000_000;

/** Beams are for packings with so large a share of the sheets covered; looser ones are found without. */
const DENSE = 0.93;
const BEAM_WIDTHS = [200, 200, 400, 400];
const MOST_BEAMS = 64;

/**
 * Packs all pieces, in whole units with gaps already added (see packing/shapes.ts). Heuristics come first, down to the
 * lower bound or until a twentieth of the steps is used. Then, for few pieces, the exact search, which may prove the
 * number or find one sheet fewer. Then heuristics again, with beams if hardly any waste is allowed.
 */
export function packSheets(pieces: readonly PackPiece[], sheet: Sheet, options: PackingOptions): Packing {
  const tooLarge = pieces.flatMap((piece, index) => (waysToLie(piece, sheet).length === 0 ? [index] : []));
  if (tooLarge.length > 0) return { kind: "too-large", pieces: tooLarge };

  const steps: PackSteps = { left: options.steps };
  const random = seededRandom(options.seed);
  const orientations = orientationsOf(pieces, sheet);
  const totalArea = pieces.reduce((sum, piece) => sum + piece.width * piece.height, 0);
  const decoders = decodersFor(orientations, sheet, options.cuts);
  const ones = pieces.map(() => 1);
  let lowerBound = options.fewest ?? wholeSheets(sheetBound(pieces, ones, sheet).sheets);
  let best = firstPacking(pieces, sheet, decoders, steps);

  const improve = (budget: number): void => {
    const own: PackSteps = { left: Math.min(budget, steps.left) };
    const before = own.left;
    while (best.sheets.length > lowerBound && own.left > 0) {
      const target = best.sheets.length - 1;
      const found = packInto(orientations, sheet, target, best, decoders, random, own);
      if (found) best = { sheets: found, left: [] };
    }
    steps.left -= before - own.left;
  };

  improve(options.steps / 20);
  if (pieces.length <= MOST_PIECES_EXACT && options.steps >= LEAST_STEPS_EXACT) {
    const own: PackSteps = { left: Math.min(options.steps / 3, steps.left) };
    const before = own.left;
    while (best.sheets.length > lowerBound) {
      const sharing = shareOut(pieces, sheet, lowerBound, options.cuts, own);
      if (sharing.fits === "unknown") break;
      if (sharing.fits === "yes") best = { sheets: sharing.sheets, left: [] };
      else lowerBound += 1;
    }
    steps.left -= before - own.left;
  }
  for (let round = 0; options.cuts === "free" && round < MOST_BEAMS; round++) {
    const target = best.sheets.length - 1;
    const dense = totalArea > DENSE * target * sheet.width * sheet.height;
    if (best.sheets.length <= lowerBound || steps.left <= 0 || !dense) break;
    const found = beamAcross(pieces, sheet, target, round, random, steps);
    if (found) best = found;
  }
  improve(steps.left);
  return {
    kind: "packed",
    sheets: best.sheets,
    lowerBound,
    proven: best.sheets.length === lowerBound,
    stepsUsed: options.steps - Math.max(0, steps.left),
  };
}

/** One beam, every second time with the sheet on its side; wider and wider while nothing is found. */
function beamAcross(
  pieces: readonly PackPiece[],
  sheet: Sheet,
  target: number,
  round: number,
  random: Random,
  steps: PackSteps,
): Filling | null {
  const width = BEAM_WIDTHS[round % BEAM_WIDTHS.length] ?? 200;
  if (round % 2 === 0) return beamInto(orientationsOf(pieces, sheet), sheet, target, width, random, steps);
  const side = { width: sheet.height, height: sheet.width };
  const lying = pieces.map((piece) => ({ ...piece, width: piece.height, height: piece.width }));
  const found = beamInto(orientationsOf(lying, side), side, target, width, random, steps);
  if (!found) return null;
  const upright = (one: Placement) => ({ ...one, x: one.y, y: one.x, width: one.height, height: one.width });
  return { sheets: found.sheets.map((placed) => placed.map(upright)), left: [] };
}

/** The best of a few plain orders, with as many sheets as it takes. */
function firstPacking(
  pieces: readonly PackPiece[],
  sheet: Sheet,
  decoders: ReturnType<typeof decodersFor>,
  steps: PackSteps,
): Filling {
  const sizes = [
    (piece: PackPiece) => piece.width * piece.height,
    (piece: PackPiece) =>
      Math.max(piece.width, piece.height) * sheet.width + Math.min(piece.width, piece.height),
  ];
  let best: Filling | null = null;
  for (const size of sizes) {
    const order = pieces
      .map((piece, index) => ({ index, size: size(piece) }))
      .sort((a, b) => b.size - a.size)
      .map(({ index }) => index);
    for (const { decode, filling } of decoders) {
      decode(order, pieces.length, Number.POSITIVE_INFINITY, steps);
      const found = filling();
      if (best === null || found.sheets.length < best.sheets.length) best = found;
    }
  }
  return best ?? { sheets: [], left: [] };
}
