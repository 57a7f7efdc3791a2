/** What the stall keeps aside for a press: all that a tablet without signal may take. */
import type { QueueView } from "../../../../model/orders/order.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { byId } from "../../kit/dom.ts";

type Press = QueueView["presses"][number];

/** How many a tablet asks the stall to keep for its press. */
export const KEPT_ASIDE = 3;

/** The label of the button that takes the next garment, and whether there is one to take. */
export function nextTake({ aside }: Press, lost: boolean): { readonly label: string; readonly can: boolean } {
  const [first] = aside;
  if (!lost) return { label: "Pull the next", can: true };
  return first === undefined
    ? { label: "Nothing is kept aside: wait for the signal", can: false }
    : { label: `Take ${first.job}, kept aside`, can: true };
}

const garments = (count: number): string => (count === 1 ? "1 garment" : `${count} garments`);

/** Until when garments are kept for a press of which nothing is heard. */
export const untilWords = (until: string | null): string =>
  until === null ? "" : ` They go back to the line at ${timeOfDay(until)} if nothing is heard of it.`;

export function showAside({ aside, keepsAside, asideUntil }: Press): void {
  byId("aside-say").textContent =
    aside.length > 0
      ? `Kept aside for this press: ${garments(aside.length)}. Without signal only these can be taken.${untilWords(asideUntil)}`
      : keepsAside > 0
        ? "Nothing is there to keep aside for this press just now: without signal it has to wait."
        : "Nothing is kept aside for this press: without signal it has to wait.";
  byId("aside").textContent =
    keepsAside === 0
      ? `Keep up to ${KEPT_ASIDE} aside`
      : aside.length > 0
        ? "Give them back"
        : "Keep none aside";
}
