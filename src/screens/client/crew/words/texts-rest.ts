/** Says that no texts go out just now, so that the crew calls numbers out. */
import type { QueueView } from "../../../../model/orders/queue.ts";
import { timeOfDay } from "./clock.ts";

/** The sentence, or null while texts go out. A view kept by an earlier version of the page does not say it. */
export const restWords = ({
  textsRestUntil = null,
}: Partial<Pick<QueueView, "textsRestUntil">>): string | null =>
  textsRestUntil === null
    ? null
    : `No text goes out until ${timeOfDay(textsRestUntil)}. Call ready numbers out.`;
