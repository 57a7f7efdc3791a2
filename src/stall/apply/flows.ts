/** What an event did to the line and to the takings, noted in the quarter of an hour it belongs to. */
import type { Closed, Instant, Order, StallEvent } from "../facts.ts";
import type { StallState } from "../state.ts";
import { tally } from "./rows.ts";

/** How an order ended, and how it had ended before that. */
function endings(closed: Closed | null): readonly Closed["as"][] {
  return closed === null ? [] : [closed.as, ...endings(closed.before)];
}

/** What an order has brought in so far, tax included; where no payment is noted, handing over counts as one. */
function takenFor(order: Order | undefined): number {
  if (order === undefined) return 0;
  const ends = endings(order.closed);
  if (ends.includes("refunded")) return 0;
  if (order.paid !== null) return order.paid.amount;
  return ends.includes("collected") || ends.includes("exchanged") ? order.total : 0;
}

/** The order whose takings an event may change, and when: taking something back belongs to when it was done. */
function takingsOf(state: StallState, event: StallEvent, at: Instant) {
  switch (event.type) {
    case "paid":
    case "closed":
      return { number: event.number, at };
    case "unpaid":
      return { number: event.number, at: state.order(event.number)?.paid?.at ?? at };
    case "reopened":
      return { number: event.number, at: state.anyOrder(event.number)?.closed?.at ?? at };
    default:
      return null;
  }
}

/** Makes a change, and counts by how much it changed the backlog and the takings. */
export function countingFlows(state: StallState, event: StallEvent, at: Instant, change: () => void): void {
  const backlog = state.standing.backlog;
  const takings = takingsOf(state, event, at);
  const taken = takings === null ? 0 : takenFor(state.anyOrder(takings.number));
  change();
  const grown = state.standing.backlog - backlog;
  if (grown !== 0) tally(state, at, (bucket) => ({ backlogChange: bucket.backlogChange + grown }));
  if (takings === null) return;
  const more = takenFor(state.anyOrder(takings.number)) - taken;
  if (more !== 0) tally(state, takings.at, (bucket) => ({ takings: bucket.takings + more }));
}
