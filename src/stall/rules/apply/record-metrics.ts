/** Records what an event did to the backlog and the takings, in its quarter of an hour. */
import type { Instant } from "../../../time/instants.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { Order } from "../../state/shapes/order.ts";
import type { StallState } from "../../state/state.ts";
import { saleOf } from "./daybook.ts";
import { tally } from "./rows.ts";

/**
 * The takings of an ended order, tax included. They are counted when it ends, so that a payment writes no row of its
 * own: nothing else of the pace depends on payments.
 */
const takenFor = (order: Order | undefined): number =>
  order === undefined || order.closed === null ? 0 : (saleOf(order)?.amount ?? 0);

/** The order whose takings an event may change, and when: taking an ending back belongs to when it ended. */
function takingsOf(state: StallState, event: StallEvent, at: Instant) {
  if (event.type === "closed") return { number: event.number, at };
  if (event.type === "garment-refunded" || event.type === "undo-garment-refunded")
    return { number: event.number, at };
  if (event.type !== "undo-closed") return null;
  return { number: event.number, at: state.anyOrder(event.number)?.closed?.at ?? at };
}

/** Makes a change, and counts by how much it changed the backlog and the takings. */
export function recordMetrics(state: StallState, event: StallEvent, at: Instant, change: () => void): void {
  const backlog = state.orderIndex.backlog;
  const takings = takingsOf(state, event, at);
  const taken = takings === null ? 0 : takenFor(state.anyOrder(takings.number));
  change();
  const grown = state.orderIndex.backlog - backlog;
  if (grown !== 0) tally(state, at, (bucket) => ({ backlogChange: bucket.backlogChange + grown }));
  if (takings === null) return;
  const more = takenFor(state.anyOrder(takings.number)) - taken;
  if (more !== 0) tally(state, takings.at, (bucket) => ({ takings: bucket.takings + more }));
}
