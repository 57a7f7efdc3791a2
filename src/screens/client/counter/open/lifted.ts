/** Whether the orders from the web are limited just now, and the button that changes it. */
import type { QueueView } from "../../../../model/orders/order.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { byId } from "../../kit/dom.ts";

export const isLifted = (queue: QueueView | null): boolean => (queue?.claimsLiftedUntil ?? null) !== null;

/** Shown while orders from the web wait for their customers, or are let in without limit. */
export function showLifted(queue: QueueView): void {
  // A view that an earlier version of the page kept has no such list.
  const { unclaimed = [], claimsLiftedUntil = null } = queue as Partial<QueueView>;
  byId("lifted-part").hidden = unclaimed.length === 0 && claimsLiftedUntil === null;
  byId("lifted").textContent =
    claimsLiftedUntil === null
      ? "Web orders whose customers are not here yet hold garments."
      : `Web orders are not limited until ${timeOfDay(claimsLiftedUntil)}.`;
  byId("lift-claims").textContent =
    claimsLiftedUntil === null ? "No limit on web orders for an hour" : "Limit web orders again";
}
