/** Rectangles onto as few equal sheets as the search finds. */
import { type Random, seededRandom } from "../../maths/random.ts";
import { beamInto } from "./beam.ts";
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
};

export type Packing =
  | {
      readonly kind: "packed";
      /** Every piece exactly once, sheet by sheet. */
      readonly sheets: readonly (readonly Placement[])[];
      /** The sheets that the pieces' area alone would fill. */
      readonly lowerBound: number;
      readonly stepsUsed: number;
    }
  /** Pieces that do not fit the sheet in any permitted orientation. */
  | { readonly kind: "too-large"; readonly pieces: readonly number[] };

/** Beams are for packings with so large a share of the sheets covered; looser ones are found without. */
const DENSE = 0.93;
const BEAM_WIDTHS = [200, 200, 400, 400];
const MOST_BEAMS = 64;

/**
 * Packs all pieces, in whole units with gaps already added (see packing/shapes.ts): down to the pieces' area or until
 * the steps are used, with beams between if hardly any waste is allowed.
 */
export function packSheets(pieces: readonly PackPiece[], sheet: Sheet, options: PackingOptions): Packing {
  const tooLarge = pieces.flatMap((piece, index) => (waysToLie(piece, sheet).length === 0 ? [index] : []));
  if (tooLarge.length > 0) return { kind: "too-large", pieces: tooLarge };

  const steps: PackSteps = { left: options.steps };
  const random = seededRandom(options.seed);
  const orientations = orientationsOf(pieces, sheet);
  const totalArea = pieces.reduce((sum, piece) => sum + piece.width * piece.height, 0);
  const decoders = decodersFor(orientations, sheet, options.cuts);
  const lowerBound = Math.ceil(totalArea / (sheet.width * sheet.height) - 1e-9);
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

  improve(options.steps / 10);
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
