/** The count page: the stall's stock, the typed counts, and their effects. Pure. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { OpenNeeds } from "../../../model/orders/open-needs.ts";
import type { StockEntry, StockView } from "../../../model/orders/stock.ts";
import { ordersWords } from "../crew/in-use.ts";
import { pieceName } from "../crew/words/names.ts";
import { conflictOf } from "./conflicts.ts";
import { type Counts, countsOf, entryOf, type Way } from "./tables.ts";

/** The typed counts, with the key they are sent with; kept in the browser until they are saved. */
export type Kept = {
  readonly way: Way;
  readonly typed: Readonly<Record<string, string>>;
  readonly once: string;
};
export const NOTHING: Kept = { way: "counted", typed: {}, once: "" };

export type State = {
  readonly menu: Menu;
  readonly counts: (piece: string) => Counts;
  readonly needs: OpenNeeds;
  readonly kept: Kept;
  readonly saving: boolean;
  /** The last copied table, to copy by hand if the browser forbids it. */
  readonly copied: string | null;
};

export const withStock = (state: State, view: StockView): State => ({ ...state, counts: countsOf(view) });

/** Cells are typed or pasted into; an empty one is as it was. */
export function withTyped(
  { kept, ...state }: State,
  cells: ReadonlyMap<string, string>,
  once: string,
): State {
  const all = Object.entries({ ...kept.typed, ...Object.fromEntries(cells) });
  return {
    ...state,
    kept: { ...kept, typed: Object.fromEntries(all.filter(([, text]) => text.trim() !== "")), once },
  };
}

/** The sent counts are saved; those typed since stay. */
export function saved({ kept, ...state }: State, sent: Kept, once: string): State {
  const left = Object.entries(kept.typed).filter(([piece, text]) => sent.typed[piece] !== text);
  return { ...state, kept: { ...kept, typed: Object.fromEntries(left), once } };
}

export const typedIn = ({ kept }: State, piece: string): string => kept.typed[piece] ?? "";

/** The new number of a piece: the typed one if there is one, else the present one. */
export function becomes(state: State, piece: string): number {
  const { onHand } = state.counts(piece);
  const entry = entryOf(piece, typedIn(state, piece), state.kept.way);
  if (entry === null) return onHand;
  return "counted" in entry ? entry.counted : onHand + ("delivered" in entry ? entry.delivered : 0);
}

/** Why a typed number cannot be accepted; null if it can. */
export function wrongIn(state: State, piece: string): string | null {
  const { way } = state.kept;
  const text = typedIn(state, piece);
  if (text === "" || entryOf(piece, text, way) !== null) return null;
  return way === "counted" ? `“${text}” isn’t a whole number.` : `“${text}” isn’t a whole number above 0.`;
}

export const entriesOf = ({ kept: { typed, way } }: State): readonly StockEntry[] =>
  Object.entries(typed).flatMap(([piece, text]) => entryOf(piece, text, way) ?? []);

const pieceWords = ({ menu }: State, piece: string): string => pieceName(menu, piece);

/** The marked cells, in words. */
export const faultsOf = (state: State): readonly string[] =>
  Object.keys(state.kept.typed).flatMap((piece) => {
    const why = wrongIn(state, piece);
    return why === null ? [] : [`${pieceWords(state, piece)}: ${why}`];
  });

/** The effects of counts below the promises, in words. */
export function conflictsOf(state: State): readonly string[] {
  const { kept, counts, needs } = state;
  if (kept.way === "delivered") return [];
  return Object.keys(kept.typed).flatMap((piece) => {
    const found = conflictOf(piece, becomes(state, piece), counts(piece).promised, needs);
    if (found === null) return [];
    const { counted, promised, orders, held } = found;
    const falls =
      orders.length === 0
        ? ""
        : ` ${ordersWords(orders)} would fall short: their customers are told at once, and they get the next that is free.`;
    const gives = held === 0 ? "" : ` ${held} held for customers who have not said yes yet would be let go.`;
    return [`${pieceWords(state, piece)}: ${counted} counted, ${promised} promised.${falls}${gives}`];
  });
}

/** How much is typed but not saved. */
export function unsavedWords(state: State): string {
  const changed = Object.keys(state.kept.typed).length;
  if (state.saving) return "Saving…";
  if (changed === 0) return "Saved.";
  const counts = changed === 1 ? "1 count" : `${changed} counts`;
  return `${counts} typed, not saved yet.${faultsOf(state).length === 0 ? "" : " Fix the marked cells first."}`;
}
