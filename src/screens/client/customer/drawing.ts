/** Drawing the conversation: lines are added, never redrawn, so that a reader is told each of them once. */
import { byId, element } from "../kit/dom.ts";
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

/** Shows the end of the talk, once all that changes now has changed. */
function toTheEnd(): void {
  requestAnimationFrame(() => window.scrollTo({ top: document.documentElement.scrollHeight }));
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
      for (const line of lines) {
        document.getElementById(lineId(line.id))?.remove();
        talk.append(spokenLine(line, words));
      }
      if (lines.length > 0) toTheEnd();
    },
    waiting(unsent, failed) {
      for (const { id, text } of unsent) {
        const before = document.getElementById(lineId(id));
        const line = before ?? spokenLine({ id, text, from: "customer", isAnswer: false }, words);
        line.querySelector(".state")?.remove();
        line.append(element("span", { class: "state" }, failed ? words.notSent : words.sending));
        talk.append(line);
        if (before === null) toTheEnd();
      }
      const note = byId("unsent");
      const hidden = !failed || unsent.length === 0;
      if (note.hidden !== hidden) toTheEnd();
      note.hidden = hidden;
      byId("unsent-words").textContent = words.unsent(unsent.length);
    },
    choices(conversation, busy) {
      const open = busy ? null : conversation.open();
      openLine?.classList.remove("open");
      openLine = open === null ? null : document.getElementById(lineId(open.id));
      openLine?.classList.add("open");
      const choices = open?.asked.choices ?? [];
      const box = byId("choices");
      const wide = choices.some(({ label }) => label.length > 12);
      box.className = wide ? "wide" : choices.every(({ label }) => label === "") ? "narrow" : "";
      box.replaceChildren(...choices.map(button));
      if (choices.length > 0) toTheEnd();
    },
    trouble(detail) {
      const box = byId("trouble");
      box.hidden = detail === null;
      if (box.textContent !== detail) box.textContent = detail ?? "";
      if (detail !== null) toTheEnd();
    },
  };
}
