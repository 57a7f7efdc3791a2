/** What comes next to each press of this tablet, the line in figures, and what needs somebody. */
import type { QueueView } from "../../../../model/orders/order.ts";
import { garmentWords } from "../../crew/words/settings.ts";
import { showRest } from "../../crew/words/texts-rest.ts";
import { byId, element, renew } from "../../kit/dom.ts";
import { problemsOf, type UpNext, upNext } from "../shown.ts";

type Press = QueueView["presses"][number];

function countsLine({ counts }: QueueView): string {
  const parts = [`${counts.waiting} waiting`, `${counts.pressing} pressing`, `${counts.ready} ready`];
  if (counts.short > 0) parts.push(`${counts.short} short`);
  if ((counts.toClaim ?? 0) > 0) parts.push(`${counts.toClaim} to claim`);
  if (counts.toPay > 0) parts.push(`${counts.toPay} to pay`);
  return parts.join(" · ");
}

function row(press: string, { job, heat, changes, reserved, chosen }: UpNext): HTMLElement {
  const maybe = job.letGo.map((other) => ` · maybe at press ${other.press}`).join("");
  return element(
    "li",
    {},
    element("b", {}, job.job),
    element("span", { class: "up-what" }, garmentWords(job)),
    element(
      "span",
      { class: "small" },
      `${job.designName} · `,
      element(changes ? "strong" : "span", {}, heat),
      `${reserved ? " · reserved" : ""}${maybe}`,
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
export function showUpNext(queue: QueueView, standing: readonly Standing[]): void {
  byId("counts").textContent = countsLine(queue);
  showRest(queue);
  const most = standing.length > 1 ? 2 : 3;
  renew(
    byId("up-next"),
    standing.map(({ press, chosen }) => {
      const rows = upNext(press, queue, chosen, most);
      const none = element("li", { class: "none" }, `Nothing waits for a ${press.platen} platen.`);
      return element(
        "div",
        {},
        standing.length > 1 ? element("h3", {}, `Press ${press.press}`) : null,
        element(
          "ol",
          { class: "up-next" },
          ...(rows.length === 0 ? [none] : rows.map((one) => row(press.press, one))),
        ),
      );
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
