/** After a change: promises that stock no longer covers fall short, and freed stock goes to short garments. */

import { areThere, needed, piecesOf } from "../state/counts.ts";
import type { QueuedGarment } from "../state/order-index.ts";
import { jobIn, lineOf } from "../state/orders.ts";
import type { StallEvent } from "../state/shapes/event.ts";
import type { PieceKey } from "../state/shapes/piece.ts";
import type { StallState } from "../state/state.ts";

type Apply = (event: StallEvent) => void;

/** The pieces whose stock some events may have lowered below the promises. */
function lowered(events: readonly StallEvent[]): ReadonlySet<PieceKey> {
  return new Set(
    events.flatMap((event) => (event.type === "counted" || event.type === "corrected" ? [event.piece] : [])),
  );
}

/** Drops the latest promise of a piece: a hold, an order still to be paid, or a garment in line. */
function dropLatestPromise(state: StallState, piece: PieceKey): StallEvent | undefined {
  for (const { key } of [...state.orderIndex.holds].reverse()) {
    const hold = state.holds.get(key);
    if (hold !== undefined && needed(hold.lines).has(piece)) {
      return { type: "released", customer: hold.customer, reason: "gone" };
    }
  }
  const outside = [...[...state.orderIndex.toClaim].reverse(), ...[...state.orderIndex.toPay].reverse()];
  for (const { key } of outside) {
    const order = state.order(Number(key));
    if (order !== undefined && needed(order.lines).has(piece)) {
      return { type: "closed", number: order.number, as: "dropped" };
    }
  }
  const { waiting, reserved } = state.orderIndex;
  // A reserved garment may be on its press by now, so it gives up its stock last.
  const latest =
    latestOf(state, [waiting.flat, waiting.cap], piece) ?? latestOf(state, [...reserved.values()], piece);
  return latest && { type: "fell-short", number: latest.number, n: latest.n };
}

/** The last garment in some lists that needs a piece. */
function latestOf(
  state: StallState,
  lists: readonly Iterable<QueuedGarment>[],
  piece: PieceKey,
): QueuedGarment | undefined {
  return lists
    .flatMap((list) => [...list])
    .filter(({ number, n }) => needsPiece(state, number, n, piece))
    .reduce<QueuedGarment | undefined>((last, job) => (last && last.turn > job.turn ? last : job), undefined);
}

function needsPiece(state: StallState, number: number, n: number, piece: PieceKey): boolean {
  const order = state.order(number);
  const job = jobIn(order, n);
  return order !== undefined && job !== undefined && piecesOf(lineOf(order, job)).includes(piece);
}

/**
 * Drops the latest promises until none exceeds the stock, then supplies short garments from what is free. Each event is
 * applied before the next is worked out.
 */
export function reallocate(state: StallState, events: readonly StallEvent[], apply: Apply): void {
  for (const piece of lowered(events)) {
    while (state.free(piece) < 0) {
      const event = dropLatestPromise(state, piece);
      if (event === undefined)
        throw new Error(`${piece}: more is promised than is there, and nothing can give it back`);
      apply(event);
    }
  }
  // The list changes as garments are supplied, so it is copied before it is walked.
  for (const { number, n } of [...state.orderIndex.short]) {
    const order = state.order(number);
    const job = jobIn(order, n);
    if (order === undefined || job === undefined) continue;
    if (areThere(piecesOf(lineOf(order, job)), (piece) => state.free(piece)))
      apply({ type: "supplied", number, n });
  }
}
