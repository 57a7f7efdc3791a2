/** What comes next to each press of this tablet, the line in figures, and what needs somebody. */
import type { QueueView } from "../../../../model/orders/order.ts";
import { garmentWords } from "../../crew/words/settings.ts";
import { restWords } from "../../crew/words/texts-rest.ts";
import { garmentOf, type Looks } from "../../garment/garments.ts";
import { byId, element, renew } from "../../kit/dom.ts";
import { problemsOf, type UpNext, upNext } from "../shown.ts";
import { renewByKey } from "./keyed.ts";

type Press = QueueView["presses"][number];

function countsLine({ counts }: QueueView): string {
  const parts = [`${counts.waiting} waiting`, `${counts.pressing} pressing`, `${counts.ready} ready`];
  if (counts.short > 0) parts.push(`${counts.short} short`);
  if ((counts.toClaim ?? 0) > 0) parts.push(`${counts.toClaim} to claim`);
  if (counts.toPay > 0) parts.push(`${counts.toPay} to pay`);
  return parts.join(" · ");
}

function row(press: string, { job, heat, changes, reserved, chosen }: UpNext, looks: Looks): HTMLElement {
  const maybe = job.letGo.map((other) => ` · maybe at press ${other.press}`).join("");
  const look = looks.get(job.offer);
  return element(
    "li",
    { "data-key": `${press} ${job.job}` },
    look === undefined ? null : garmentOf({ look, colour: job.colour, size: job.size }),
    element("span", { class: "up-what" }, element("b", {}, job.job), ` ${garmentWords(job)}`),
    element(
      "span",
      { class: "small" },
      `${job.designName} · `,
      element(changes ? "strong" : "span", {}, heat),
      maybe,
    ),
    reserved
      ? element(
          "button",
          {
            type: "button",
            "data-press": press,
            "data-job": job.job,
            "aria-pressed": String(chosen),
            "aria-label": `Press ${job.job} next`,
          },
          "Next",
        )
      : null,
  );
}

type Standing = { readonly press: Press; readonly chosen: string | null };

/** Fills Up next and the problems; `standing` are this tablet's presses. */
export function showUpNext(queue: QueueView, standing: readonly Standing[], looks: Looks): void {
  byId("counts").textContent = countsLine(queue);
  const rest = restWords(queue);
  byId("texts-rest").hidden = rest === null;
  byId("texts-rest").textContent = rest ?? "";
  const most = standing.length > 1 ? 2 : 3;
  renewByKey(
    byId("up-next"),
    standing.flatMap(({ press, chosen }) => {
      const rows = upNext(press, queue, chosen, most);
      const key = press.press;
      return [
        ...(standing.length > 1 ? [element("li", { class: "whose", "data-key": key }, `Press ${key}`)] : []),
        ...rows.map((one) => row(key, one, looks)),
        ...(rows.length === 0
          ? [
              element(
                "li",
                { class: "none", "data-key": `${key} none` },
                `Nothing waits for a ${press.platen} platen.`,
              ),
            ]
          : []),
      ];
    }),
  );
  const problems = problemsOf(
    queue,
    standing.map(({ press }) => press.press),
  );
  byId("problems").classList.toggle("needs-you", problems.length > 0);
  byId("problems-say").textContent =
    problems.length === 0
      ? "No problems"
      : `${problems.length} ${problems.length === 1 ? "problem" : "problems"}: ${problems[0]}`;
  renew(
    byId("problems-list"),
    problems.map((problem) => element("li", {}, problem)),
  );
}

/** Calls `choose` when a garment of Up next is tapped to come next. */
export function onChoose(choose: (press: string, job: string) => void): void {
  byId("up-next").addEventListener("click", ({ target }) => {
    const button = target instanceof Element ? target.closest<HTMLElement>("button[data-job]") : null;
    const { press, job } = button?.dataset ?? {};
    if (press !== undefined && job !== undefined) choose(press, job);
  });
}
