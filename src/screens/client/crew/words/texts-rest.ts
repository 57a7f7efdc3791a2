/** Says that no texts go out just now, so that the crew calls numbers out. */
import type { QueueView } from "../../../../model/orders/order.ts";
import { byId } from "../../kit/dom.ts";
import { timeOfDay } from "./clock.ts";

/** A view kept by an earlier version of the page does not say it. */
export function showRest({ textsRestUntil = null }: Partial<Pick<QueueView, "textsRestUntil">>): void {
  byId("texts-rest").hidden = textsRestUntil === null;
  byId("texts-rest").textContent =
    textsRestUntil === null
      ? ""
      : `No text goes out until ${timeOfDay(textsRestUntil)}. Call ready numbers out.`;
}
