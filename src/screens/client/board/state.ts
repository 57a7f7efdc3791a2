/** The board's state: the stall's last answer, the numbers that just became ready, and the room. */
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { BoardView } from "../../../model/orders/queue.ts";
import { onSale } from "../garment/garments.ts";
import { type Box, lineFitting, readyPixels } from "./fit.ts";

/** The window, and the parts of it that numbers have, in pixels. */
export type Room = { readonly window: Box; readonly ready: Box; readonly line: Box };

export type State = {
  readonly board: BoardView | null;
  /** Numbers that have become ready since the look before. */
  readonly fresh: readonly number[];
  readonly trouble: string | null;
  /** Garments to show while no number is. */
  readonly garments: ReturnType<typeof onSale>;
  readonly room: Room | null;
};

/** The most garments shown while there are no numbers. */
const MOST_GARMENTS = 6;

export const FIRST: State = { board: null, fresh: [], trouble: null, garments: [], room: null };

/** The state after an answer of the stall. Orders already ready when the page opened are not news. */
export function heard(state: State, board: BoardView): State {
  const known = new Set(state.board?.ready ?? board.ready);
  return { ...state, board, fresh: board.ready.filter((number) => !known.has(number)), trouble: null };
}

export const unchanged = (state: State): State => ({ ...state, fresh: [], trouble: null });
export const refused = (state: State, trouble: string): State => ({ ...state, fresh: [], trouble });
export const sells = (state: State, view: MenuView): State => ({
  ...state,
  garments: onSale(view, MOST_GARMENTS),
});
export const measured = (state: State, room: Room): State => ({ ...state, room });

export type Shown = {
  readonly ready: readonly number[];
  readonly making: readonly number[];
  readonly waiting: readonly number[];
  /** How many more orders are in line. */
  readonly more: number;
  readonly readyPixels: number;
  readonly linePixels: number;
};

const byNumber = (one: number, other: number): number => one - other;

/** The numbers to show; null if there are none. */
export function shownOf({ board, room }: State): Shown | null {
  if (board === null) return null;
  const [ready, making, waiting] = [board.ready, board.pressing, board.waiting].map((numbers) =>
    numbers.toSorted(byNumber),
  ) as [number[], number[], number[]]; // three in, three out
  if (ready.length + making.length + waiting.length + board.more === 0) return null;
  if (room === null) return { ready, making, waiting, more: board.more, readyPixels: 0, linePixels: 0 };
  const large = readyPixels(ready, room.ready, room.window);
  const line = lineFitting(making, waiting, room.line, large);
  return {
    ready,
    making,
    waiting: line.waiting,
    more: board.more + waiting.length - line.waiting.length,
    readyPixels: large,
    linePixels: line.pixels,
  };
}
