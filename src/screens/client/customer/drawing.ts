/** Drawing the conversation: lines are added, never redrawn, so that a reader is told each of them once. */
import { byId, element, renew } from "../kit/dom.ts";
import { askedIn, type Choice } from "./choices.ts";
import type { Conversation, Line } from "./conversation.ts";
import type { Unsent } from "./outbox.ts";
import type { PageWords } from "./words.ts";

export type Drawing = {
  readonly lines: (lines: readonly Line[]) => void;
  readonly waiting: (unsent: readonly Unsent[], failed: boolean) => void;
  readonly choices: (conversation: Conversation, busy: boolean) => void;
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

/** The page's drawing; `say` is called with what a tapped choice says. */
export function drawing(words: PageWords, say: (text: string) => void): Drawing {
  const talk = byId("talk");
  let openLine: Element | null = null;

  const button = ({ say: text, label, gone }: Choice): HTMLButtonElement =>
    element(
      "button",
      {
        type: "button",
        class: gone ? "choice gone" : "choice",
        "data-say-text": text,
        onclick: () => say(text),
      },
      label === text ? null : element("span", { class: "choice-number" }, text),
      label === "" ? null : element("span", {}, label),
    );

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
    choices(conversation, busy) {
      // While a message is on its way nothing can be chosen: a second tap would answer the next list.
      const open = busy ? null : conversation.open();
      const line = open === null ? null : document.getElementById(lineId(open.id));
      if (line !== openLine) openLine?.classList.remove("open");
      openLine = line;
      openLine?.classList.add("open");
      const choices = open?.asked.choices ?? [];
      const box = byId("choices");
      const wide = choices.some(({ label }) => label.length > 12);
      const shape = wide ? "wide" : choices.every(({ label }) => label === "") ? "narrow" : "";
      const buttons = choices.map(button);
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
