/** Which pieces an event may set free or use up. */

import { needed, piecesOf } from "../../state/counts.ts";
import { jobIn, lineOf } from "../../state/orders.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { StallState } from "../../state/state.ts";

/** The pieces whose free number an event may change, by the state before it. */
export function affectedPieces(state: StallState, event: StallEvent): ReadonlySet<PieceKey> {
  switch (event.type) {
    case "counted":
    case "delivered":
    case "corrected":
      return new Set([event.piece]);
    case "held": {
      const before = state.hold(event.hold.customer)?.lines ?? [];
      return new Set(needed([...before, ...event.hold.lines]).keys());
    }
    case "released":
      return new Set(needed(state.hold(event.customer)?.lines ?? []).keys());
    case "placed": {
      const held = state.hold(event.order.customer)?.lines ?? [];
      return new Set(needed([...held, ...event.order.lines]).keys());
    }
    case "closed":
    case "undo-closed":
      return new Set(needed(state.anyOrder(event.number)?.lines ?? []).keys());
    case "changed":
      return new Set(needed([...(state.order(event.number)?.lines ?? []), ...event.lines]).keys());
    case "taken-instead":
      return new Set(piecesOf(event.line));
    case "spoiled":
    case "undo-spoiled":
    case "undo-pressed":
    case "fell-short":
    case "supplied": {
      const order = state.order(event.number);
      const job = jobIn(order, event.n);
      return new Set(order === undefined || job === undefined ? [] : piecesOf(lineOf(order, job)));
    }
    default:
      // Pressing lowers on-hand and promised stock alike; the other events touch no stock.
      return NOTHING;
  }
}

const NOTHING: ReadonlySet<PieceKey> = new Set();
