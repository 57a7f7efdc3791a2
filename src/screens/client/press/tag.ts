/** The garment on the press as a swing tag: what to take, what to put on it, how to press it. */
import type { Look } from "../../../model/garment/look.ts";
import type { JobView, QueueView } from "../../../model/orders/order.ts";
import { timeOfDay } from "../crew/words/clock.ts";
import { dwellWords, garmentWords, pressesWords, temperature } from "../crew/words/settings.ts";
import { garmentOf } from "../garment/garments.ts";
import { element } from "../kit/dom.ts";
import { heatStep } from "./shown.ts";

type Press = QueueView["presses"][number];

const field = (label: string, value: string, kind = ""): HTMLElement =>
  element("div", { class: `field ${kind}` }, element("dt", {}, label), element("dd", {}, value));

function sized(node: HTMLElement, text: string): HTMLElement {
  // Long words are set smaller, so that "one size" stays on its line.
  node.classList.toggle("long", text.length > 3);
  return node;
}

export type TagNotes = {
  /** What the press was last set to, where this tablet knows. */
  readonly before: number | null;
  /** Presses an operator may serve while this one changes its heat. */
  readonly meanwhile: readonly string[];
  readonly goTo: (press: string) => void;
  /** How its garment looks, where that is known. */
  readonly look: Look | null;
  /** What the tag is called. */
  readonly label: string;
};

/** What the platen is to be set to, about how long that takes, and where to be useful until then. */
function heatChange({ setTo, settings }: JobView, notes: TagNotes): HTMLElement | null {
  const { before, meanwhile, goTo } = notes;
  const to = settings.temperatureFahrenheit;
  if (setTo === null)
    return before === null || before === to
      ? null
      : element("p", { class: "change change-to" }, heatStep(before, to));
  const { fahrenheit, aboutMinutes, readyAt } = setTo;
  const step =
    before === null || before === fahrenheit
      ? `Set ${temperature(fahrenheit)}`
      : heatStep(before, fahrenheit);
  return element(
    "div",
    { class: "change" },
    element("p", { class: "change-to" }, `${step}, about ${aboutMinutes} min`),
    element("p", {}, `There about ${timeOfDay(readyAt)}. The press’s own display decides.`),
    ...meanwhile.map((press) =>
      element("button", { type: "button", onclick: () => goTo(press) }, `Meanwhile at press ${press}`),
    ),
  );
}

function settingsOf(job: JobView, notes: TagNotes): HTMLElement {
  const { settings, placement } = job;
  return element(
    "div",
    { class: "settings" },
    heatChange(job, notes),
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

/** Where to look before this garment is pressed, because presses that were silent, this one too, may have pressed it. */
const lookFirst = ({ letGo }: JobView, own: string): readonly HTMLElement[] =>
  letGo.map(({ press, silentSince }) => {
    const since = timeOfDay(silentSince);
    const [look, then] =
      press === own
        ? [
            "Look first: is it pressed already?",
            `This press had it reserved and was silent from ${since}. If you pressed it then, tap Pressed.`,
          ]
        : [
            `Look at press ${press} first.`,
            `It had this garment reserved and was silent from ${since}. If the garment is pressed there, tap Pressed. If it lies on that press, tap Give back.`,
          ];
    return element("p", { class: "change look-first" }, element("strong", {}, look), ` ${then}`);
  });

/** The tag of a garment on the press. */
function garmentTag(press: string, job: JobView, notes: TagNotes): readonly (HTMLElement | null)[] {
  const n = job.job.split("-")[1] ?? "1";
  return [
    ...lookFirst(job, press),
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
        job.unclaimed ? element("strong", {}, " Web order, nobody came yet") : null,
      ),
    ),
    element(
      "div",
      { class: "garment" },
      notes.look === null
        ? null
        : garmentOf({ look: notes.look, colour: job.colour, size: job.size, measured: true }),
      element("p", { class: "garment-colour" }, job.colourName),
      element("p", { class: "garment-blank" }, job.blankName),
      element("p", { class: "design" }, job.designName),
      sized(element("p", { class: "garment-size" }, job.sizeName), job.sizeName),
    ),
    job.wish === undefined
      ? null
      : element("p", { class: "wish" }, element("span", {}, "Asked for, not on the menu:"), ` “${job.wish}”`),
    settingsOf(job, notes),
    element("ul", { class: "cautions" }, ...job.cautions.map((caution) => element("li", {}, caution))),
  ];
}

/** The garment that comes next to a press, as far as the screen is told. */
const nextFor = ({ platen, reserve }: Press, queue: QueueView): JobView | null =>
  reserve[0] ?? queue.next.find((job) => job.platen === platen) ?? null;

function emptyTag(press: Press, next: JobView | null): readonly HTMLElement[] {
  if (press.downSince !== null) {
    return [
      element("p", { class: "empty" }, "Out of order"),
      element(
        "p",
        {},
        `Since ${timeOfDay(press.downSince)}. What it had went back to the line, first in turn.`,
      ),
      element(
        "p",
        {},
        "Let it cool with the plug out before anybody opens it; repairs are for whoever is trained.",
      ),
    ];
  }
  return [
    element("p", { class: "empty" }, "Nothing on this press"),
    element(
      "p",
      {},
      next === null
        ? `No garment waits for a ${press.platen} platen.`
        : `Next: ${next.number}, ${garmentWords(next)}, ${next.designName}.`,
    ),
  ];
}

/** A function that draws the tag of a press into `root`; it leaves the tag alone while nothing about it changed. */
export function tagOn(root: HTMLElement): (press: Press, queue: QueueView, notes: TagNotes) => void {
  let shown = "";
  return (press, queue, notes) => {
    const next = press.job === null ? nextFor(press, queue) : null;
    const now = JSON.stringify([press.press, press.downSince, press.job, next?.job ?? null, notes]);
    if (now === shown) return;
    shown = now;
    const parts = press.job === null ? emptyTag(press, next) : garmentTag(press.press, press.job, notes);
    root.replaceChildren(...parts.filter((part) => part !== null));
    root.scrollTop = 0;
    root.closest(".tag")?.setAttribute("aria-label", notes.label);
  };
}
