/** Counts below the promises, and the orders that would fall short: those last in line. */
import type { OpenNeeds } from "../../../model/orders/open-needs.ts";

export type Conflict = {
  readonly piece: string;
  readonly counted: number;
  readonly promised: number;
  /** The orders that would lose a garment, those nearest the end of the line first. */
  readonly orders: readonly number[];
  /** Pieces that are held for customers who have not said yes. */
  readonly held: number;
};

type Line = OpenNeeds["orders"][number]["lines"][number];

const needsPiece = (line: Line, piece: string): boolean =>
  piece === `transfer:${line.design}` || piece === `${line.blank}.${line.colour}.${line.size}`;

/** The effects of a count below the promises; null if it covers them. */
export function conflictOf(
  piece: string,
  counted: number,
  promised: number,
  { orders }: OpenNeeds,
): Conflict | null {
  if (counted >= promised) return null;
  const needing = orders.flatMap(({ number, lines }) => {
    const pieces = lines.reduce((sum, line) => sum + (needsPiece(line, piece) ? line.promised : 0), 0);
    return pieces === 0 ? [] : [{ number, pieces }];
  });
  const held = Math.max(0, promised - needing.reduce((sum, { pieces }) => sum + pieces, 0));
  let missing = promised - counted - held;
  const short: number[] = [];
  for (const { number, pieces } of needing.reverse()) {
    if (missing <= 0) break;
    short.push(number);
    missing -= pieces;
  }
  return { piece, counted, promised, orders: short, held: Math.min(held, promised - counted) };
}
