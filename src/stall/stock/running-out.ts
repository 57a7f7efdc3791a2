/** The pieces that run out first at today's pace, and when. */

import type { Menu } from "../../model/menu/catalogue.ts";
import type { Instant } from "../../time/instants.ts";
import { skuKey, transferKey, usedOf } from "../state/counts.ts";
import { openingAt } from "../state/opening.ts";
import type { PieceKey } from "../state/shapes/piece.ts";
import type { StallState } from "../state/state.ts";
import { skusOf } from "./skus.ts";

// Before that much of the day is over, a first order would say more than it knows.
const LEAST_SEEN = 15 * 60_000;

export type Low = { readonly piece: PieceKey; readonly free: number; readonly emptyAt: Instant | null };

/** When a piece runs out at the pace of today's orders; null if it lasts the day, or nobody ordered one. */
function emptyAt(state: StallState, piece: PieceKey, free: number, now: Instant): Instant | null {
  const opening = openingAt(state, now);
  const { day } = state.count(piece);
  if (!opening.open || day === undefined || day.opens !== opening.opens) return null;
  const taken = usedOf(state.count(piece), state.orderIndex.promises.of(piece)) - day.used;
  if (taken <= 0) return null;
  const at = Math.round(now + (free * Math.max(now - day.opens, LEAST_SEEN)) / taken);
  return at < opening.closes ? at : null;
}

/** The counted pieces that are few or will not last the day, those gone first at the front. */
export function runningOut(state: StallState, menu: Menu, now: Instant): readonly Low[] {
  const pieces: PieceKey[] = [...skusOf(menu).map(skuKey), ...menu.designs.map(({ id }) => transferKey(id))];
  const never = Number.POSITIVE_INFINITY;
  return pieces
    .filter((piece) => state.counts.get(piece) !== undefined && !state.status.offMenu.includes(piece))
    .map((piece): Low => {
      const free = Math.max(0, state.free(piece));
      return { piece, free, emptyAt: emptyAt(state, piece, free, now) };
    })
    .filter((low) => low.free <= menu.rules.lowStock || low.emptyAt !== null)
    .sort((one, other) => {
      const [first, second] = [one, other].map(({ free, emptyAt: at }) => (free === 0 ? now : (at ?? never)));
      return first === second ? one.free - other.free : (first ?? never) - (second ?? never);
    });
}
