/** What sold out on a day, when, and how many asked afterwards. */

import type { Closeout } from "../../model/accounts/closeout.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { Instant } from "../../time/instants.ts";
import { isoOrNull } from "../../time/instants.ts";
import { piecesOf } from "../state/counts.ts";
import { type DayChoice, type DayRows, EMPTY_CHOICE } from "../state/day-rows.ts";
import type { PieceKey } from "../state/shapes/piece.ts";
import { coloursOf, offerParts, sizesOf } from "../stock/offers.ts";
import { inMenuOrder, namedChoice } from "./closeout-sales.ts";
import type { PricedPiece } from "./closeout-stock.ts";

/** Since when a piece was out at the end of the day; "all-day" if there was none, null if some is free. */
function outSince({ row, left }: PricedPiece): Instant | "all-day" | null {
  if (row.emptyAt !== null) return row.emptyAt;
  return left <= 0 ? "all-day" : null;
}

/** Every choice of the menu, and choices of the day that have left the menu since. */
function choicesOf(menu: Menu, known: readonly DayChoice[]): readonly DayChoice[] {
  const seen = new Map(known.map((row) => [`${row.offer}.${row.colour}.${row.size}`, row]));
  for (const { id, offered } of menu.offers) {
    const choice = offered ? offerParts(menu, id) : undefined;
    if (choice === undefined) continue;
    for (const colour of coloursOf(choice)) {
      for (const size of sizesOf(choice)) {
        const key = `${id}.${colour.id}.${size.id}`;
        const made = { offer: id, blank: choice.blank.id, design: choice.design.id };
        if (!seen.has(key)) seen.set(key, { ...made, colour: colour.id, size: size.id, ...EMPTY_CHOICE });
      }
    }
  }
  return inMenuOrder(menu, [...seen.values()]);
}

/** The choices that were out when the day ended, since the first of their pieces ran out. */
export function soldOutOf(
  menu: Menu,
  { choices }: DayRows,
  pieces: readonly PricedPiece[],
): Closeout["soldOut"] {
  const out = new Map<PieceKey, Instant | "all-day">();
  for (const piece of pieces) {
    const since = outSince(piece);
    if (since !== null) out.set(piece.key, since);
  }
  return choicesOf(menu, choices).flatMap((choice) => {
    const since = piecesOf(choice).flatMap((piece) => out.get(piece) ?? []);
    // A choice with no stock all day and no requests did not sell out: it was not brought.
    if (since.length === 0) return [];
    const instants = since.filter((one) => one !== "all-day");
    if (instants.length < since.length && choice.unmetWhileOut === 0) return [];
    const at = instants.length < since.length ? null : Math.min(...instants);
    return [{ ...namedChoice(menu, choice), at: isoOrNull(at), unmetAfter: choice.unmetWhileOut }];
  });
}
