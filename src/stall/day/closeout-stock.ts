/** The stock side of a day's account: opening, changes, and leftovers. */

import type { Closeout } from "../../model/accounts/closeout.ts";
import type { DayCosts } from "../../model/accounts/day-costs.ts";
import { skuOf } from "../../model/basics/ids.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import { isoOrNull } from "../../time/instants.ts";
import { onHand, skuKey, transferKey } from "../state/counts.ts";
import { type DayPiece, type DayRows, EMPTY_PIECE, netOf, spoiledOf } from "../state/day-rows.ts";
import type { PieceKey } from "../state/shapes/piece.ts";
import type { StallState } from "../state/state.ts";

/** The cost of a piece, and the percentage of it that a leftover is worth later. */
export type Price = { readonly cost: number; readonly worthPercent: number };

export type PricedPiece = {
  readonly key: PieceKey;
  readonly row: DayPiece;
  readonly price: Price | null;
  /** On hand when the day began, and when it ended. */
  readonly opening: number;
  readonly left: number;
};

/** The cost of a blank in a size: the line of that size if there is one, else the blank's. */
export function blankPrice(costs: DayCosts | null, blank: string, size: string): Price | null {
  const lines = costs?.blanks.filter((line) => line.blank === blank) ?? [];
  return lines.find((line) => line.size === size) ?? lines.find((line) => line.size === undefined) ?? null;
}

export const transferPrice = (costs: DayCosts | null, design: string): Price | null =>
  costs?.transfers.find((line) => line.design === design) ?? null;

/** Every piece of the menu, and pieces of the day that have left the menu since. */
function keysOf(menu: Menu, day: DayRows): readonly PieceKey[] {
  const keys = new Set<PieceKey>();
  for (const { id, colours, sizes } of menu.blanks)
    for (const colour of colours) for (const size of sizes) keys.add(skuKey(skuOf(id, colour.id, size.id)));
  for (const { id } of menu.designs) keys.add(transferKey(id));
  for (const key of day.pieces.keys()) keys.add(key);
  return [...keys];
}

export const priceOf = (costs: DayCosts | null, key: PieceKey): Price | null => {
  if (key.startsWith("transfer:")) return transferPrice(costs, key.slice("transfer:".length));
  const [blank = "", , size = ""] = key.slice("sku:".length).split(".");
  return blankPrice(costs, blank, size);
};

/** What the day did to every piece; `later` is the change of count after the day. */
export function piecesOfDay(
  state: StallState,
  menu: Menu,
  day: DayRows,
  later: ReadonlyMap<PieceKey, number>,
): readonly PricedPiece[] {
  return keysOf(menu, day).map((key) => {
    const row = day.pieces.get(key) ?? EMPTY_PIECE;
    const left = onHand(state.count(key)) - (later.get(key) ?? 0);
    const opening = left - netOf(row) + row.opening;
    return { key, row, price: priceOf(day.costs, key), opening, left };
  });
}

type Counts = Omit<Closeout["skus"][number], "sku" | "name">;

export function countsOf({ row, price, opening, left }: PricedPiece): Counts {
  const expected = opening + row.delivered + row.corrected - row.pressed - spoiledOf(row);
  const counted = row.countedAt === null ? null : left;
  const leftCost = price === null ? null : left * price.cost;
  return {
    opening,
    delivered: row.delivered,
    corrected: row.corrected,
    pressed: row.pressed,
    spoiled: row.spoiled,
    expected,
    counted,
    missing: counted === null ? null : expected - counted,
    left,
    emptyAt: isoOrNull(row.emptyAt),
    unitCost: price?.cost ?? null,
    leftCost,
    worthNextTime: price === null ? null : worthOf(left, price),
  };
}

/** In whole minor units, half a unit and more rounded up. */
const worthOf = (pieces: number, { cost, worthPercent }: Price): number =>
  Math.round((pieces * cost * worthPercent) / 100);

/** Pieces used up: pressed, spoiled, or missing at a count. */
export const goneOf = ({ row }: PricedPiece): number => row.pressed + spoiledOf(row) - row.found;
