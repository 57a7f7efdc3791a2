/** The stall's other presses: what lies on them, how hot they are, and the way to stand at one. */
import type { QueueView } from "../../../../model/orders/order.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { garmentWords, temperature } from "../../crew/words/settings.ts";
import { byId, element } from "../../kit/dom.ts";
import { untilWords } from "./reserve.ts";

type Press = QueueView["presses"][number];

/** What is to be said of a press in one line. */
function pressWords({ platen, downSince, job, fahrenheit }: Press): string {
  if (downSince !== null) return `${platen}, out of order since ${timeOfDay(downSince)}`;
  if (job !== null) return `${job.job}, ${garmentWords(job)}, since ${timeOfDay(job.since)}`;
  return `${platen}, nothing on it${fahrenheit === null ? "" : `, ${temperature(fahrenheit)}`}`;
}

/** What is reserved for another press, and when it comes back if that press is silent. */
function reserveWords({ reserve, askedBack, reserveUntil }: Press): string {
  const asked = askedBack.length === 0 ? "" : ` Asked for ${askedBack.length}.`;
  return `${reserve.length} reserved.${asked}${untilWords(reserveUntil)}`;
}

type Ways = {
  /** Makes one of them this tablet's own. */
  readonly goTo: (press: string) => void;
  /** Asks its tablet to give its reserve back. */
  readonly askBack: (press: string) => void;
};

/** Lists the presses but this tablet's own. */
export function showOthers(queue: QueueView, press: string, { goTo, askBack }: Ways): void {
  const others = queue.presses.filter((candidate) => candidate.press !== press);
  byId("others-part").hidden = others.length === 0;
  byId("others").replaceChildren(
    ...others.map((other) =>
      element(
        "li",
        {},
        element("b", {}, other.press),
        element("span", {}, pressWords(other)),
        other.reserve.length === 0 ? null : element("span", { class: "small" }, reserveWords(other)),
        element("button", { type: "button", onclick: () => goTo(other.press) }, `Go to press ${other.press}`),
        other.reserve.length === other.askedBack.length
          ? null
          : element(
              "button",
              { type: "button", onclick: () => askBack(other.press) },
              `Ask press ${other.press} for its reserve`,
            ),
      ),
    ),
  );
}
