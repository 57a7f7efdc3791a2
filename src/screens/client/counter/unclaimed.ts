/** Orders from the web whose customers have not come: they hold garments, so the crew sees who holds what. */
import type { QueueView } from "../../../model/orders/order.ts";
import { timeOfDay } from "../crew/words/clock.ts";
import { byId, element } from "../kit/dom.ts";

/** Whether web orders are let in without limit just now. */
export const isLifted = (queue: QueueView | null): boolean => (queue?.claimsLiftedUntil ?? null) !== null;

let drawn = "";

/** Lists them, oldest first; left alone if nothing changed, so that a focused button stays focused. */
export function showUnclaimed(queue: QueueView, open: (number: number) => void): void {
  // A view that an earlier version of the page kept has no such list.
  const { unclaimed = [], claimsLiftedUntil = null } = queue as Partial<QueueView>;
  const now = JSON.stringify([unclaimed, claimsLiftedUntil]);
  if (now === drawn) return;
  drawn = now;
  byId("unclaimed-part").hidden = unclaimed.length === 0 && claimsLiftedUntil === null;
  byId("unclaimed").replaceChildren(
    ...unclaimed.map(({ number, garments, inLine }) =>
      element(
        "button",
        { type: "button", onclick: () => open(number) },
        `${number}: ${garments}${inLine ? "" : ", not in line"}`,
      ),
    ),
  );
  byId("unclaimed-lifted").textContent =
    claimsLiftedUntil === null ? "" : `Web orders are not limited until ${timeOfDay(claimsLiftedUntil)}.`;
  byId("lift-claims").textContent =
    claimsLiftedUntil === null ? "No limit for an hour" : "Limit web orders again";
}
