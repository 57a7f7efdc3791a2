/** The arithmetic of stock: what is on hand, what is promised, what is free. */
import { type DesignId, type Sku, skuOf } from "../../model/basics/ids.ts";
import type { Lost } from "../../model/orders/taps.ts";
import type { Line } from "./shapes/line.ts";
import type { Count, PieceKey } from "./shapes/piece.ts";

export const NOTHING_COUNTED: Count = { opening: 0, delivered: 0, corrected: 0, pressed: 0, spoiled: 0 };

/** Pieces that orders took so far: pressed, spoiled or promised. */
export const usedOf = (count: Count, promised: number): number => count.pressed + count.spoiled + promised;

/** Pieces not pressed yet, those that lie on a press included. */
export function onHand(count: Count): number {
  return count.opening + count.delivered + count.corrected - count.pressed - count.spoiled;
}

/** Whether a piece is a blank (else it is a transfer). */
export const isBlank = (piece: string): boolean => piece.startsWith("sku:");

export const skuKey = (sku: Sku): PieceKey => `sku:${sku}`;
export const transferKey = (design: DesignId): PieceKey => `transfer:${design}`;

/** The blank that one garment of a line needs. */
export const blankOf = (line: Pick<Line, "blank" | "colour" | "size">): PieceKey =>
  skuKey(skuOf(line.blank, line.colour, line.size));

/** The transfer that one garment of a line needs. */
const transferOf = (line: Pick<Line, "design">): PieceKey => transferKey(line.design);

type Made = Pick<Line, "blank" | "colour" | "size" | "design" | "own" | "second" | "rack">;

/**
 * The pieces of one garment: its blank, unless the customer brings it, and its transfers. A transfer may appear twice;
 * a garment from the rack needs none.
 */
export const piecesOf = (line: Made): readonly PieceKey[] =>
  line.rack !== undefined
    ? []
    : [
        ...(line.own === true ? [] : [blankOf(line)]),
        transferOf(line),
        ...(line.second ?? []).map(transferKey),
      ];

/** Whether every piece of a garment is free; a piece needed twice must be free twice. */
export function areThere(pieces: readonly PieceKey[], free: (piece: PieceKey) => number): boolean {
  return pieces.every((piece) => free(piece) >= pieces.filter((other) => other === piece).length);
}

/** The pieces of a garment that a spoil cost. */
export function lostPieces(line: Line, lost: Lost): readonly PieceKey[] {
  switch (lost) {
    case "blank":
      return line.own === true ? [] : [blankOf(line)];
    case "transfer":
      // Of several the one that was pressed on last.
      return [transferKey(line.second?.at(-1) ?? line.design)];
    case "both":
      return piecesOf(line);
    default:
      return lost satisfies never;
  }
}

/** The number of each piece that some lines need together. */
export function needed(lines: readonly Line[]): ReadonlyMap<PieceKey, number> {
  const pieces = new Map<PieceKey, number>();
  for (const line of lines) {
    for (const piece of piecesOf(line)) pieces.set(piece, (pieces.get(piece) ?? 0) + line.quantity);
  }
  return pieces;
}

/** A running total of promises per piece. */
export class Promises {
  readonly #pieces = new Map<PieceKey, number>();
  #blanks = 0;

  /** Blanks of every kind together: one a garment. */
  get blanks(): number {
    return this.#blanks;
  }

  of(piece: PieceKey): number {
    return this.#pieces.get(piece) ?? 0;
  }

  add(piece: PieceKey, pieces: number): void {
    if (isBlank(piece)) this.#blanks += pieces;
    const total = this.of(piece) + pieces;
    if (total === 0) this.#pieces.delete(piece);
    else this.#pieces.set(piece, total);
  }
}
