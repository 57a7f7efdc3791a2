/**
 * Rectangles in whole units. The caller has already widened each piece by the gap and the sheet by one gap (and reduced
 * it by its margins), so pieces may touch here.
 */
export type PackPiece = { readonly width: number; readonly height: number; readonly mayTurn: boolean };

export type Sheet = { readonly width: number; readonly height: number };

/** One piece on a sheet: lower-left corner, size as it orientations, and which piece of the caller's list it is. */
export type Placement = {
  readonly piece: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly turned: boolean;
};

export type Cuts = "free" | "guillotine";

/** The remaining work, in steps; each use says what it costs. Clocks are never read. */
export type PackSteps = { left: number };

/** The orientations in which a piece fits the sheet: none, one or two (width and height swapped). */
export function waysToLie(
  piece: PackPiece,
  sheet: Sheet,
): readonly { width: number; height: number; turned: boolean }[] {
  const ways: { width: number; height: number; turned: boolean }[] = [];
  if (piece.width <= sheet.width && piece.height <= sheet.height) {
    ways.push({ width: piece.width, height: piece.height, turned: false });
  }
  const turnable = piece.mayTurn && piece.width !== piece.height;
  if (turnable && piece.height <= sheet.width && piece.width <= sheet.height) {
    ways.push({ width: piece.height, height: piece.width, turned: true });
  }
  return ways;
}

/** Pieces with the ways they may lie, as flat arrays: the innermost loop of every search reads them. */
export type Orientations = {
  readonly count: number;
  /** Ways 2i and 2i+1 belong to piece i; width 0 marks a way that does not exist. */
  readonly widths: Int32Array;
  readonly heights: Int32Array;
  readonly turned: Uint8Array;
  readonly areas: Float64Array;
};

/** The result of a filler: placements by sheet, and the unplaced pieces. */
export type Filling = {
  readonly sheets: readonly (readonly Placement[])[];
  readonly left: readonly number[];
};

export function orientationsOf(pieces: readonly PackPiece[], sheet: Sheet): Orientations {
  const widths = new Int32Array(2 * pieces.length);
  const heights = new Int32Array(2 * pieces.length);
  const turned = new Uint8Array(2 * pieces.length);
  pieces.forEach((piece, index) => {
    waysToLie(piece, sheet).forEach((way, which) => {
      widths[2 * index + which] = way.width;
      heights[2 * index + which] = way.height;
      turned[2 * index + which] = way.turned ? 1 : 0;
    });
  });
  const areas = Float64Array.from(pieces, (piece) => piece.width * piece.height);
  return { count: pieces.length, widths, heights, turned, areas };
}

/** Area of the pieces in a list. */
export function areaOf(orientations: Orientations, pieces: readonly number[]): number {
  let area = 0;
  for (const piece of pieces) area += orientations.areas[piece] ?? 0;
  return area;
}
