/**
 * A rehearsal: a twin of the stall in an object of its own, with the same menu and as much stock, open now.
 * Nothing of it has to be un-counted, since the stall and the fair never hear of it.
 */

import type { Identity } from "../../fair/reports.ts";
import { rehearsalStall } from "../../model/basics/ids.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { StockEntry, StockView } from "../../model/orders/stock.ts";
import type { Instant } from "../../time/instants.ts";
import { skusOf } from "../stock/skus.ts";
import type { PictureOf } from "../storage/picture-bytes.ts";

/** What each piece has in a rehearsal where nothing was counted yet. */
const PRETENDED = 12;

const HOUR = 60 * 60 * 1000;

export type Rehearsal = {
  readonly identity: Identity;
  readonly menu: Menu;
  readonly entries: readonly StockEntry[];
  readonly pictures: readonly PictureOf[];
  /** Whether the stock is invented, since nothing was counted. */
  readonly pretended: boolean;
};

/** As much of each piece as there is, or where nothing was counted, a dozen. */
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

/** The twin of a stall as it stands: its menu with web orders taken, its stock, and hours that are now. */
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
