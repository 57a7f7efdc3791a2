/** The pieces of a stall's stock as the count lists them: by blank, and the transfers together. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { StockView } from "../../../../model/orders/stock.ts";

export type Way = "counted" | "delivered";

export type Piece = {
  /** A sku, or `transfer:` and the design. */
  readonly piece: string;
  readonly onHand: number;
  readonly promised: number;
  readonly free: number;
};

const TRANSFER = "transfer:";

export const piecesOf = ({ skus, transfers }: StockView): readonly Piece[] => [
  ...skus.map(({ sku, ...counts }) => ({ piece: sku, ...counts })),
  ...transfers.map(({ design, ...counts }) => ({ piece: `${TRANSFER}${design}`, ...counts })),
];

/** The heading of a piece: its blank, or the transfers. */
export const groupOf = (piece: string): string =>
  piece.startsWith(TRANSFER) ? TRANSFER : (piece.split(".")[0] ?? piece);

export function groupsOf(
  menu: Menu | null,
  pieces: readonly Piece[],
): readonly { readonly id: string; readonly name: string }[] {
  return [...new Set(pieces.map(({ piece }) => groupOf(piece)))].map((id) => ({
    id,
    name: id === TRANSFER ? "Transfers" : (menu?.blanks.find((blank) => blank.id === id)?.name ?? id),
  }));
}

/** A typed count, or a delivery of at least one; null if it is neither. */
export function wholeNumber(text: string, way: Way): number | null {
  const digits = text.trim();
  if (!/^\d{1,6}$/.test(digits)) return null;
  const number = Number(digits);
  return number > 100_000 || (way === "delivered" && number === 0) ? null : number;
}

/** The pieces after one was counted, or more of it brought: what the stall is about to answer. */
export const afterNote = (
  pieces: readonly Piece[],
  piece: string,
  way: Way,
  number: number,
): readonly Piece[] =>
  pieces.map((row) => {
    if (row.piece !== piece) return row;
    const onHand = way === "counted" ? number : row.onHand + number;
    // If the count is below the promises, the latest orders fall short and promise nothing any more.
    return {
      ...row,
      onHand,
      promised: Math.min(row.promised, onHand),
      free: Math.max(0, onHand - row.promised),
    };
  });

/** The line of a stock sheet that says it. */
export const entryOf = (
  piece: string,
  way: Way | "corrected",
  number: number,
): Record<string, string | number> => ({
  ...(piece.startsWith(TRANSFER) ? { design: piece.slice(TRANSFER.length) } : { sku: piece }),
  [way]: number,
});
