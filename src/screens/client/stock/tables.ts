/** The stock as tables: one a blank, colours down and sizes across, and one of all transfers. */

import type { Menu } from "../../../model/menu/catalogue.ts";
import type { StockEntry, StockView } from "../../../model/orders/stock.ts";
import { spelt } from "../kit/spelling.ts";

type Head = { readonly id: string; readonly name: string };

export type Table = {
  readonly key: string;
  readonly title: string;
  readonly down: { readonly what: string; readonly heads: readonly Head[] };
  readonly across: { readonly what: string; readonly heads: readonly Head[] };
  /** The piece that a cell counts: a sku, or `transfer:` and a design. */
  readonly piece: (down: string, across: string) => string;
};

const TRANSFERS = "transfers";

export function tablesOf(menu: Menu): readonly Table[] {
  const blanks = menu.blanks.map(({ id, name, colours, sizes }) => ({
    key: id,
    title: name,
    down: { what: spelt("Colour"), heads: colours },
    across: { what: "Size", heads: sizes },
    piece: (colour: string, size: string) => `${id}.${colour}.${size}`,
  }));
  const transfers = {
    key: TRANSFERS,
    title: "Transfers",
    down: { what: "Design", heads: menu.designs },
    across: { what: "Kind", heads: [{ id: "pieces", name: "Pieces" }] },
    piece: (design: string) => `transfer:${design}`,
  };
  return [...blanks, transfers];
}

export type Counts = { readonly onHand: number; readonly promised: number; readonly free: number };
const NONE: Counts = { onHand: 0, promised: 0, free: 0 };

/** The present number of each piece. */
export function countsOf(stock: StockView): (piece: string) => Counts {
  const all = new Map<string, Counts>([
    ...stock.skus.map((one) => [one.sku as string, one] as const),
    ...stock.transfers.map((one) => [`transfer:${one.design}`, one] as const),
  ]);
  return (piece) => all.get(piece) ?? NONE;
}

export type Way = "counted" | "delivered";

/** A typed number as the stall takes it; null if it is not a number of pieces. */
export function entryOf(piece: string, typed: string, way: Way): StockEntry | null {
  if (!/^\d{1,5}$/.test(typed.trim())) return null;
  const pieces = Number(typed.trim());
  if (way === "delivered" && pieces === 0) return null;
  const design = piece.startsWith("transfer:") ? piece.slice("transfer:".length) : null;
  // Made of the menu's own ids, which the route checks again.
  return (design === null ? { sku: piece, [way]: pieces } : { design, [way]: pieces }) as StockEntry;
}
