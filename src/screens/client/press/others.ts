/** The stall's other presses: what lies on them, how hot they are, and the way to stand at one. */
import type { QueueView } from "../../../model/order.ts";
import { timeOfDay } from "../crew/clock.ts";
import { byId, element } from "../kit/dom.ts";
import { garmentWords, temperature } from "./settings.ts";

type Press = QueueView["presses"][number];

/** What is to be said of a press in one line. */
export function pressWords({ platen, downSince, job, fahrenheit }: Press): string {
  if (downSince !== null) return `${platen}, out of order since ${timeOfDay(downSince)}`;
  if (job !== null) return `${job.job}, ${garmentWords(job)}, since ${timeOfDay(job.since)}`;
  return `${platen}, nothing on it${fahrenheit === null ? "" : `, ${temperature(fahrenheit)}`}`;
}

/** Lists the presses but this tablet's own; `goTo` makes one of them its own. */
export function showOthers(queue: QueueView, press: string, goTo: (press: string) => void): void {
  const others = queue.presses.filter((candidate) => candidate.press !== press);
  byId("others-part").hidden = others.length === 0;
  byId("others").replaceChildren(
    ...others.map((other) =>
      element(
        "li",
        {},
        element("b", {}, other.press),
        element("span", {}, pressWords(other)),
        element("button", { type: "button", onclick: () => goTo(other.press) }, `Go to press ${other.press}`),
      ),
    ),
  );
}
