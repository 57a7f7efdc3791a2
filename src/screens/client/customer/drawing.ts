/** Drawing the conversation: lines are added, never redrawn, so that a reader is told each of them once. */
import type { Shown, ShownGarment } from "../../../model/orders/chat.ts";
import { garmentOf, type Looks } from "../garment/garments.ts";
import { byId, element, renew } from "../kit/dom.ts";
import { askedIn, type Choice } from "./choices.ts";
import type { Conversation, Line } from "./conversation.ts";
import type { Unsent } from "./outbox.ts";
import type { PageWords } from "./words.ts";

export type Drawing = {
  readonly lines: (lines: readonly Line[]) => void;
  readonly waiting: (unsent: readonly Unsent[], failed: boolean) => void;
  readonly choices: (conversation: Conversation, busy: boolean, shows: Shown | undefined) => void;
  readonly trouble: (detail: string | null) => void;
};

// A finger's breadth above the end still counts as the end.
const NEARLY_PX = 24;

const isAtEnd = (): boolean =>
  window.scrollY + window.innerHeight >= document.documentElement.scrollHeight - NEARLY_PX;

let isFollowing = false;

/**
 * Scrolls to the end of the talk when all that changes now has changed. Called before a change: a reader who
 * has scrolled up to read something stays there, except after an act of their own (`always`).
 */
function follow(always = false): void {
  if (isFollowing || !(always || isAtEnd())) return;
  isFollowing = true;
  requestAnimationFrame(() => {
    isFollowing = false;
    window.scrollTo({ top: document.documentElement.scrollHeight });
  });
}

/** The same for garments that differ in size only. */
const looksAlike = (garment: ShownGarment | undefined): string =>
  garment === undefined ? "" : `${garment.offer} ${garment.colour ?? ""}`;

const lineId = (id: string): string => `line-${id}`;

function spokenLine({ id, from, text }: Line, words: PageWords): HTMLLIElement {
  const { lead, choices } = from === "stall" ? askedIn(text) : { lead: text, choices: [] };
  const numbersOnly = choices.every(({ label }) => label === "");
  const list = choices
    .map(({ say, label }) => (label === say ? say : `${say} ${label}`.trim()))
    .join(numbersOnly ? "  " : "\n");
  return element(
    "li",
    { id: lineId(id), class: `line ${from}` },
    element("span", { class: "who" }, from === "stall" ? words.stall : words.you),
    element("p", {}, lead),
    choices.length === 0 ? null : element("p", { class: "list" }, list),
  );
}

/** The page's drawing; `say` is called with what a tapped choice says, `looks` gives what is known of how offers look. */
export function drawing(words: PageWords, say: (text: string) => void, looks: () => Looks): Drawing {
  const talk = byId("talk");
  let openLine: Element | null = null;

  const picture = ({ offer, colour, size }: ShownGarment): SVGElement | null => {
    const look = looks().get(offer);
    return look === undefined ? null : garmentOf({ look, colour, size });
  };
  /** What is to be confirmed, each garment once and whole. */
  const basket = (garments: readonly ShownGarment[]): readonly HTMLElement[] => {
    const pictures = garments.flatMap((garment) => picture(garment) ?? []);
    return pictures.length === 0 ? [] : [element("div", { class: "basket" }, ...pictures)];
  };

  const button = ({ say: text, label, gone }: Choice, shown: SVGElement | null): HTMLButtonElement => {
    // The button's own words say what it is.
    shown?.setAttribute("aria-hidden", "true");
    return element(
      "button",
      {
        type: "button",
        class: gone ? "choice gone" : "choice",
        "data-say-text": text,
        onclick: () => say(text),
      },
      label === text ? null : element("span", { class: "choice-number" }, text),
      label === "" ? null : element("span", {}, label),
      shown,
    );
  };

  return {
    lines(lines) {
      if (lines.length > 0) follow();
      for (const line of lines) {
        document.getElementById(lineId(line.id))?.remove();
        talk.append(spokenLine(line, words));
      }
    },
    waiting(unsent, failed) {
      const note = byId("unsent");
      const hidden = !failed || unsent.length === 0;
      if (note.hidden !== hidden) follow();
      for (const line of unsent) showUnsent(talk, line, failed ? words.notSent : words.sending, words);
      note.hidden = hidden;
      const told = words.unsent(unsent.length);
      if (byId("unsent-words").textContent !== told) byId("unsent-words").textContent = told;
    },
    choices(conversation, busy, shows) {
      // While a message is on its way nothing can be chosen: a second tap would answer the next list.
      const open = busy ? null : conversation.open();
      const line = open === null ? null : document.getElementById(lineId(open.id));
      if (line !== openLine) openLine?.classList.remove("open");
      openLine = line;
      openLine?.classList.add("open");
      const choices = open?.asked.choices ?? [];
      const box = byId("choices");
      const wide = choices.some(({ label }) => label.length > 12);
      const shownAs = new Map(shows?.choices.map((garment) => [String(garment.number), garment]));
      // A size looks like the next: only what is chosen by how it looks is drawn.
      const bySight = new Set(choices.map(({ say: text }) => looksAlike(shownAs.get(text)))).size > 1;
      const pictures = choices.map(({ say: text }) => {
        const garment = bySight ? shownAs.get(text) : undefined;
        return garment === undefined ? null : picture(garment);
      });
      const isPictured = pictures.some((one) => one !== null);
      const shape = isPictured
        ? "pictured"
        : wide
          ? "wide"
          : choices.every(({ label }) => label === "")
            ? "narrow"
            : "";
      const buttons = [
        ...(choices.length === 0 ? [] : basket(shows?.basket ?? [])),
        ...choices.map((one, index) => button(one, pictures[index] ?? null)),
      ];
      const isSame =
        box.children.length === buttons.length &&
        buttons.every((wanted, at) => box.children[at]?.isEqualNode(wanted) ?? false);
      if (isSame) return;
      follow();
      const hadFocus = box.contains(document.activeElement);
      box.className = shape;
      renew(box, buttons);
      // A choice that was tapped by key takes the focus with it: the next list is where the reader goes on.
      if (hadFocus && !box.contains(document.activeElement)) box.focus({ preventScroll: true });
    },
    trouble(detail) {
      const box = byId("trouble");
      if (detail !== null && box.textContent !== detail) follow();
      box.hidden = detail === null;
      if (box.textContent !== detail) box.textContent = detail ?? "";
    },
  };
}

/** Shows a message that is still to be sent, after all that was said, with how far it is. */
function showUnsent(talk: HTMLElement, { id, text }: Unsent, state: string, words: PageWords): void {
  const before = document.getElementById(lineId(id));
  const line = before ?? spokenLine({ id, text, from: "customer", isAnswer: false }, words);
  const shown = line.querySelector(".state");
  if (shown === null) line.append(element("span", { class: "state" }, state));
  else if (shown.textContent !== state) shown.textContent = state;
  if (before !== null && isAfterAllSaid(line)) return;
  if (before === null) follow(true);
  talk.append(line);
}

/** Whether only messages that are still to be sent come after this one. */
function isAfterAllSaid(line: Element): boolean {
  for (let next = line.nextElementSibling; next !== null; next = next.nextElementSibling)
    if (next.querySelector(".state") === null) return false;
  return true;
}
