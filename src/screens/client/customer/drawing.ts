/** Drawing the conversation: lines are added, never redrawn, so that a reader is told each of them once. */
import type { Shown, ShownGarment } from "../../../model/orders/chat.ts";
import { garmentOf, type Looks, swatchOf } from "../garment/garments.ts";
import { byId, element, renew } from "../kit/dom.ts";
import { askedIn, type Choice, gistOf } from "./choices.ts";
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

/** What a choice looks like. */
type Sight = { readonly picture: SVGElement | null; readonly swatch: SVGElement | null };
const UNSEEN: Sight = { picture: null, swatch: null };

const lineId = (id: string): string => `line-${id}`;

/** A line of the talk. A number that answers a list is shown as what it stands for. */
function spokenLine({ id, from, text }: Line, words: PageWords, answers: readonly Choice[]): HTMLLIElement {
  if (from === "customer") {
    const label = answers.find(({ say }) => say === text)?.label ?? "";
    return element(
      "li",
      { id: lineId(id), class: "line customer" },
      element("span", { class: "who" }, words.you),
      element("p", {}, label === "" ? text : label),
    );
  }
  const { lead, choices } = askedIn(text);
  const numbersOnly = choices.every(({ label }) => label === "");
  const list = choices
    .map(({ say, label }) => (label === say ? say : `${say} ${label}`.trim()))
    .join(numbersOnly ? "  " : "\n");
  const [before, gist, after] = gistOf(lead);
  const rest = (part: string): HTMLElement | null =>
    part === "" ? null : element("span", { class: "rest" }, part);
  return element(
    "li",
    { id: lineId(id), class: choices.length === 0 ? "line stall" : "line stall asks" },
    element("span", { class: "who" }, words.stall),
    choices.length === 0 ? element("p", {}, lead) : element("p", {}, rest(before), gist, rest(after)),
    choices.length === 0 ? null : element("p", { class: "list" }, list),
  );
}

/** The page's drawing; `say` is called with what a tapped choice says, `looks` gives what is known of how offers look. */
export function drawing(words: PageWords, say: (text: string) => void, looks: () => Looks): Drawing {
  const talk = byId("talk");
  let openLine: Element | null = null;
  /** The list that the customer's next line answers. */
  let listed: readonly Choice[] = [];

  const picture = ({ offer, colour, size }: ShownGarment): SVGElement | null => {
    const look = looks().get(offer);
    return look === undefined ? null : garmentOf({ look, colour, size });
  };
  /** What is to be confirmed, each garment once and whole. */
  const basket = (garments: readonly ShownGarment[]): readonly HTMLElement[] => {
    const pictures = garments.flatMap((garment) => picture(garment) ?? []);
    return pictures.length === 0 ? [] : [element("div", { class: "basket" }, ...pictures)];
  };

  const swatch = ({ offer, colour }: ShownGarment): SVGElement | null => {
    const look = looks().get(offer);
    return look === undefined || colour === undefined ? null : swatchOf(look, colour);
  };

  const button = ({ say: text, label, gone }: Choice, look: string, shown: Sight): HTMLButtonElement => {
    // The button's own words say what it is.
    shown.picture?.setAttribute("aria-hidden", "true");
    return element(
      "button",
      {
        type: "button",
        class: `choice${look}${gone ? " gone" : ""}`,
        "data-say-text": text,
        onclick: () => say(text),
      },
      label === text ? null : element("span", { class: "choice-number" }, text),
      shown.swatch,
      label === "" ? null : element("span", {}, label),
      shown.picture,
    );
  };

  return {
    lines(lines) {
      if (lines.length > 0) follow();
      for (const line of lines) {
        document.getElementById(lineId(line.id))?.remove();
        const drawn = spokenLine(line, words, listed);
        // The page asks for the menu by itself.
        if (line.from === "customer" && talk.childElementCount === 0) drawn.classList.add("opening");
        talk.append(drawn);
        if (line.from === "stall") listed = askedIn(line.text).choices;
      }
    },
    waiting(unsent, failed) {
      const note = byId("unsent");
      const hidden = !failed || unsent.length === 0;
      if (note.hidden !== hidden) follow();
      const state = failed ? words.notSent : words.sending;
      // Only the first of them surely answers the list that is seen.
      for (const [at, line] of unsent.entries()) showUnsent(talk, line, state, words, at === 0 ? listed : []);
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
      const offers = new Set([...shownAs.values()].map(({ offer }) => offer));
      const sights = choices.map(({ say: text }): Sight => {
        const garment = bySight ? shownAs.get(text) : undefined;
        if (garment === undefined) return UNSEEN;
        return { picture: picture(garment), swatch: offers.size === 1 ? swatch(garment) : null };
      });
      // What is in the basket is to be confirmed: the first choice says yes to it.
      const isConfirming = choices.length > 0 && (shows?.basket.length ?? 0) > 0;
      const shape = isConfirming
        ? "confirming"
        : sights.some((one) => one.picture !== null)
          ? "pictured"
          : wide
            ? "wide"
            : choices.every(({ label }) => label === "")
              ? "narrow"
              : "";
      const buttons = [
        ...(isConfirming ? basket(shows?.basket ?? []) : []),
        ...choices.map((one, index) =>
          button(one, isConfirming && index === 0 ? " main" : "", sights[index] ?? UNSEEN),
        ),
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
function showUnsent(
  talk: HTMLElement,
  { id, text }: Unsent,
  state: string,
  words: PageWords,
  answers: readonly Choice[],
): void {
  const before = document.getElementById(lineId(id));
  const line = before ?? spokenLine({ id, text, from: "customer", isAnswer: false }, words, answers);
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
