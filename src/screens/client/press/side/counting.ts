/** Counting stock and adding deliveries without leaving the bench. Pure. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { StockView } from "../../../../model/orders/stock.ts";
import { pieceName } from "../../crew/words/names.ts";
import { type StockLine, stockNoted, type Unsent } from "../acts.ts";
import { afterNote, entryOf, groupOf, type Piece, piecesOf, type Way, wholeNumber } from "./stock-pieces.ts";

type ByPiece<T> = Readonly<Record<string, T>>;

export type Counting = {
  readonly open: boolean;
  readonly way: Way;
  readonly group: string;
  readonly pieces: readonly Piece[];
  /** The numbers being typed. */
  readonly typed: ByPiece<string>;
  /** The piece whose typed text is not a number. */
  readonly wrong: string | null;
  /** The entries waiting to be sent. */
  readonly entries: ByPiece<StockLine>;
  /** By how much that changes each piece, as far as the screen knows. */
  readonly changes: ByPiece<number>;
  readonly said: string;
};

export const NOT_COUNTING: Counting = {
  open: false,
  way: "counted",
  group: "",
  pieces: [],
  typed: {},
  wrong: null,
  entries: {},
  changes: {},
  said: "",
};

/** The stall's own counts came. */
export function withStock(counting: Counting, view: StockView): Counting {
  const pieces = piecesOf(view);
  const isThere = pieces.some(({ piece }) => groupOf(piece) === counting.group);
  return { ...counting, pieces, group: isThere ? counting.group : groupOf(pieces[0]?.piece ?? "") };
}

/** Stores the number typed for a piece, when the person goes on to the next. */
export function noted(counting: Counting, piece: string): Counting {
  const text = counting.typed[piece] ?? "";
  if (text.trim() === "") return { ...counting, wrong: counting.wrong === piece ? null : counting.wrong };
  const number = wholeNumber(text, counting.way);
  if (number === null) return { ...counting, wrong: piece, said: "Type a whole number." };
  const onHand = (pieces: readonly Piece[]): number => pieces.find((row) => row.piece === piece)?.onHand ?? 0;
  const pieces = afterNote(counting.pieces, piece, counting.way, number);
  const change = (counting.changes[piece] ?? 0) + onHand(pieces) - onHand(counting.pieces);
  return {
    ...counting,
    pieces,
    wrong: null,
    said: "",
    typed: { ...counting.typed, [piece]: "" },
    entries: { ...counting.entries, [piece]: entryOf(piece, counting.way, number) },
    changes: { ...counting.changes, [piece]: change },
  };
}

/** The waiting entries as one tap; null if there are none. */
export function toSend({ entries, changes, pieces }: Counting, menu: Menu | null): Unsent | null {
  const names = Object.keys(entries).map((piece) => pieceName(menu, piece));
  if (names.length === 0) return null;
  const free = pieces.filter(({ piece }) => piece in entries).map((row) => [row.piece, row.free] as const);
  const back = Object.entries(changes)
    .filter(([, change]) => change !== 0)
    .map(([piece, change]) => entryOf(piece, "corrected", -change));
  return stockNoted(Object.values(entries), names, Object.fromEntries(free), back);
}

/** All that was typed is on its way. */
export const sentOff = (counting: Counting): Counting => ({ ...counting, entries: {}, changes: {} });
