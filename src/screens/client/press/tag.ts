/** The garment on the press as a swing tag: what to take, what to put on it, how to press it. */
import type { JobView, QueueView } from "../../../model/order.ts";
import { timeOfDay } from "../crew/clock.ts";
import { byId, element } from "../kit/dom.ts";
import { dwellWords, pressesWords, temperature } from "./settings.ts";

type Press = QueueView["presses"][number];

const field = (label: string, value: string, kind = ""): HTMLElement =>
  element("div", { class: `field ${kind}` }, element("dt", {}, label), element("dd", {}, value));

function sized(node: HTMLElement, text: string): HTMLElement {
  // Long words are set smaller, so that "one size" stays on its line.
  node.style.setProperty("--letters", String(Math.max(text.length, 2)));
  return node;
}

export type TagNotes = {
  /** What the press was last set to, where this tablet knows. */
  readonly before: number | null;
};

function settingsOf({ settings, placement }: JobView, { before }: TagNotes): HTMLElement {
  const change =
    before !== null && before !== settings.temperatureFahrenheit
      ? element(
          "p",
          { class: "change" },
          `Change the heat: the last garment here had ${temperature(before)}.`,
        )
      : null;
  return element(
    "div",
    { class: "settings" },
    change,
    element(
      "dl",
      { class: "fields" },
      field("Heat", temperature(settings.temperatureFahrenheit), "wide"),
      field("Dwell", dwellWords(settings)),
      field("Pressure", settings.pressure),
      field("Peel", settings.peel),
      field("Press", pressesWords(settings)),
      placement === null ? null : field("Where", placement, "wide"),
    ),
    element("p", { class: "sheet" }, "From the stall’s menu. The supplier’s sheet wins."),
  );
}

/** The tag of a garment on the press. */
function garmentTag(job: JobView, notes: TagNotes): readonly HTMLElement[] {
  const n = job.job.split("-")[1] ?? "1";
  return [
    element(
      "div",
      { class: "tag-head" },
      element("p", { class: "tag-number" }, String(job.number)),
      element(
        "p",
        { class: "tag-which" },
        job.garments === 1 ? "the only garment" : `garment ${n} of ${job.garments}`,
        element("br"),
        job.dueBy === null ? null : `by ${timeOfDay(job.dueBy)}`,
      ),
    ),
    element(
      "div",
      { class: "garment" },
      element("p", { class: "garment-colour" }, job.colourName),
      element("p", { class: "garment-blank" }, job.blankName),
      element("p", { class: "design" }, job.designName),
      sized(element("p", { class: "garment-size" }, job.sizeName), job.sizeName),
    ),
    settingsOf(job, notes),
    element("ul", { class: "cautions" }, ...job.cautions.map((caution) => element("li", {}, caution))),
  ];
}

/** The garment that comes next to a press, as far as the screen is told. */
const nextFor = ({ platen }: Press, queue: QueueView): JobView | null =>
  queue.next.find((job) => job.platen === platen) ?? null;

function emptyTag(press: Press, next: JobView | null): readonly HTMLElement[] {
  return [
    element("p", { class: "empty" }, "Nothing on this press"),
    element(
      "p",
      {},
      next === null
        ? `No garment waits for a ${press.platen} platen.`
        : `Next: ${next.number}, ${next.colourName} ${next.blankName} ${next.sizeName}, ${next.designName}.`,
    ),
  ];
}

let shown = "";

/** Draws what lies on this tablet's press; leaves it alone where nothing about it changed. */
export function showTag(press: Press, queue: QueueView, notes: TagNotes): void {
  const next = press.job === null ? nextFor(press, queue) : null;
  const now = JSON.stringify([press.press, press.job, next?.job ?? null, notes]);
  if (now === shown) return;
  shown = now;
  byId("tag").replaceChildren(...(press.job === null ? emptyTag(press, next) : garmentTag(press.job, notes)));
}
