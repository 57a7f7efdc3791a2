/**
 * A rehearsal: a copy of the stall in an object of its own, with the same menu and stock, open now. The stall and the
 * fair never see it, so nothing has to be undone.
 */

import type { Identity } from "../../fair/reports.ts";
import { rehearsalStall } from "../../model/basics/ids.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { StockEntry, StockView } from "../../model/orders/stock.ts";
import type { Instant } from "../../time/instants.ts";
import { skusOf } from "../stock/skus.ts";
import type { PictureOf } from "../storage/picture-bytes.ts";

/** The count of each piece in a rehearsal if the stall has counted nothing yet. */
const PRETENDED = 12;

const HOUR = 60 * 60 * 1000;

export type Rehearsal = {
  readonly identity: Identity;
  readonly menu: Menu;
  readonly entries: readonly StockEntry[];
  readonly pictures: readonly PictureOf[];
  /** True if the stock is invented because nothing was counted. */
  readonly pretended: boolean;
};

/** The stock of each piece, or a dozen of each if nothing was counted. */
export function stockToTry(
  menu: Menu,
  stock: StockView | null,
): { readonly entries: readonly StockEntry[]; readonly pretended: boolean } {
  const counted = new Map<string, number>([
    ...(stock?.skus ?? []).map(({ sku, onHand }) => [sku, onHand] as const),
    ...(stock?.transfers ?? []).map(({ design, onHand }) => [design, onHand] as const),
  ]);
  const pretended = ![...counted.values()].some((pieces) => pieces > 0);
  const pieces = (id: string): number => (pretended ? PRETENDED : (counted.get(id) ?? 0));
  const entries = [
    ...skusOf(menu).map((sku) => ({ sku, counted: pieces(sku) })),
    ...menu.designs.map(({ id }) => ({ design: id, counted: pieces(id) })),
  ];
  return { entries, pretended };
}

/** The rehearsal's copy of a stall: its menu with web orders on, its stock, and opening hours that include now. */
export function rehearsalOf(
  identity: Identity,
  menu: Menu,
  stock: StockView,
  pictures: readonly PictureOf[],
  now: Instant,
): Rehearsal {
  return {
    identity: {
      ...identity,
      stall: rehearsalStall(identity.stall),
      openings: [{ opens: now - HOUR, closes: now + 12 * HOUR }],
      rehearsal: true,
    },
    menu: {
      ...menu,
      rules: {
        ...menu.rules,
        webOrders: true,
        webHoldPercent: 100,
        unclaimedGarments: 1000,
        eraseAfterDays: 1,
      },
    },
    pictures,
    ...stockToTry(menu, stock),
  };
}
