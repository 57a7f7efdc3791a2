/** The stall's presses: what lies on them, how hot they are, and which of them this tablet stands at. */
import type { QueueView } from "../../../../model/orders/order.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { garmentWords, temperature } from "../../crew/words/settings.ts";
import { byId, element } from "../../kit/dom.ts";
import { renewByKey } from "./keyed.ts";
import { reserveLabel, reserveSentence, untilWords } from "./reserve.ts";

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

export type PressAct = "go-to" | "beside" | "leave" | "ask-back" | "reserve" | "down" | "up";

const button = (act: PressAct, press: string, label: string): HTMLElement =>
  element("button", { type: "button", "data-act": act, "data-press": press }, label);

function row(press: Press, standing: readonly string[]): HTMLElement {
  const { press: id, reserve, askedBack, downSince } = press;
  const own = standing.includes(id);
  return element(
    "li",
    { class: "press-row", "data-key": id },
    element("b", {}, id),
    element("span", {}, own ? `Here: ${pressWords(press)}` : pressWords(press)),
    own
      ? element("span", { class: "small" }, reserveSentence(press))
      : reserve.length === 0
        ? null
        : element("span", { class: "small" }, reserveWords(press)),
    element(
      "span",
      { class: "row acts" },
      ...(own
        ? [
            button("reserve", id, reserveLabel(press)),
            downSince === null
              ? button("down", id, `Press ${id} is out of order`)
              : button("up", id, `Press ${id} works again`),
            button("leave", id, `Leave press ${id}`),
          ]
        : [
            button("go-to", id, `Go to press ${id}`),
            ...(standing.length === 1 ? [button("beside", id, `Show press ${id} beside`)] : []),
            ...(reserve.length === askedBack.length
              ? []
              : [button("ask-back", id, `Ask press ${id} for its reserve`)]),
          ]),
    ),
  );
}

/** Lists the presses; `standing` are this tablet's own. */
export function showPresses({ presses }: QueueView, standing: readonly string[]): void {
  renewByKey(
    byId("others"),
    presses.map((press) => row(press, standing)),
  );
}

/** Calls `act` when a button of the list is tapped. */
export function onPressAct(act: (what: PressAct, press: string) => void): void {
  byId("others").addEventListener("click", ({ target }) => {
    const tapped = target instanceof Element ? target.closest<HTMLElement>("button[data-act]") : null;
    const { act: what, press } = tapped?.dataset ?? {};
    if (press !== undefined) act(what as PressAct, press); // as `button` writes it
  });
}
