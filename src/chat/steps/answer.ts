/** What a customer's text does at the step they are at. */
import type { Counter } from "../counter.ts";
import type { LineReading } from "../garment.ts";
import { ask } from "../question.ts";
import { nameIn, rangesOf } from "../range.ts";
import { type Reading, read } from "../read.ts";
import { type Draft, EMPTY_DRAFT, IDLE, NO_LIST, type Pick, type Talk } from "../talk.ts";
import { type Answer, after } from "../turn.ts";
import { sentencesOf } from "../wording.ts";
import { hold, proceed, proceedAll } from "./choose.ts";
import { add, change, changePart, emptied, yes } from "./confirm.ts";
import { dropOrder } from "./drop.ts";
import { status } from "./inform.ts";
import { stopped } from "./refused.ts";

/** The garment being put together at this step. */
export const draftOf = ({ step }: Talk): Draft | null =>
  step.at === "choosing" || step.at === "which" || step.at === "instead" ? step.draft : null;

/** A bare number: the place of something on the list last sent. */
export function numbered(counter: Counter, talk: Talk, number: number): Answer {
  const { list } = talk;
  const draft = draftOf(talk) ?? EMPTY_DRAFT;
  const picked = pickOf(talk, number);
  if (list.of === "nothing") {
    const offer = counter.menu.offers[number - 1];
    if (counter.orders().length > 0) return menuAfter(status(counter, talk), counter);
    return offer === undefined
      ? notListed(counter, menuTalk(talk))
      : proceed(counter, talk, { ...EMPTY_DRAFT, offer: offer.id });
  }
  if (list.of === "quantity") {
    return number < 1 ? notListed(counter, talk) : proceed(counter, talk, { ...draft, quantity: number });
  }
  return picked === undefined ? notListed(counter, talk) : taken(counter, talk, picked);
}

function pickOf({ list }: Talk, number: number): Pick | undefined {
  switch (list.of) {
    case "offers": {
      const offer = list.offers[number - 1];
      return offer && { take: "offer", offer };
    }
    case "colours": {
      const colour = list.colours[number - 1];
      return colour && { take: "colour", colour };
    }
    case "sizes": {
      const size = list.sizes[number - 1];
      return size && { take: "size", size };
    }
    case "picks":
      return list.picks[number - 1];
    case "nothing":
    case "quantity":
      return undefined;
    default:
      return list satisfies never;
  }
}

const menuTalk = (talk: Talk): Talk => ({ ...talk, step: { at: "choosing", draft: EMPTY_DRAFT, page: 0 } });

/** An answer, and the menu after it. */
const menuAfter = ({ talk, say }: Answer, counter: Counter): Answer =>
  after(say, ask(counter, menuTalk(talk)));

const notListed = (counter: Counter, talk: Talk): Answer =>
  after(sentencesOf(talk.language).notOnTheList(), ask(counter, talk));

/** Does what a pick stands for. */
export function taken(counter: Counter, talk: Talk, pick: Pick): Answer {
  const draft = draftOf(talk) ?? EMPTY_DRAFT;
  switch (pick.take) {
    case "offer":
      return proceed(counter, talk, fitting(counter, { ...draft, offer: pick.offer }));
    case "colour":
      return proceed(counter, talk, { ...draft, colour: pick.colour });
    case "size":
      return proceed(counter, talk, { ...draft, size: pick.size });
    case "drafts": {
      const [first, ...others] = pick.drafts;
      if (first === undefined) return ask(counter, talk);
      return proceed(counter, { ...talk, pending: [...others, ...talk.pending] }, fitting(counter, first));
    }
    case "yes":
      return agreed(counter, talk);
    case "add":
      return add(counter, talk);
    case "change":
      return change(counter, talk);
    case "line":
      return ask(counter, { ...talk, step: { at: "change", line: pick.line } });
    case "part":
      return changePart(counter, talk, pick.line, pick.part);
    case "drop-order":
      return dropOrder(counter, talk, pick.number);
    case "drop-basket":
      return emptied(counter, talk);
    case "keep":
      return status(counter, { ...talk, list: NO_LIST });
    case "swap":
      return swapped(counter, talk, pick.number, pick.draft);
    case "menu":
      return menu(counter, talk);
    default:
      return pick satisfies never;
  }
}

/** A draft without what its offer does not come in, and with what it comes in only one of. */
export function fitting(counter: Counter, draft: Draft): Draft {
  const range = draft.offer === null ? undefined : rangesOf(counter.menu).get(draft.offer);
  if (range === undefined) return draft;
  const only = <Id>(choices: readonly { readonly id: Id }[], id: Id | null): Id | null =>
    choices.length === 1 ? (choices[0]?.id ?? null) : choices.some((choice) => choice.id === id) ? id : null;
  return { ...draft, colour: only(range.colours, draft.colour), size: only(range.sizes, draft.size) };
}

/** An order that cannot be pressed is given up for another garment, which is then to be confirmed. */
function swapped(counter: Counter, talk: Talk, number: number, draft: Draft): Answer {
  const given = dropOrder(counter, { ...talk, list: NO_LIST }, number);
  return after(given.say, proceed(counter, given.talk, draft));
}

/** YES, wherever it is said. */
export function agreed(counter: Counter, talk: Talk): Answer {
  if (talk.step.at === "confirm" && talk.basket.length > 0) return yes(counter, talk, talk.step.shown);
  if (talk.step.at === "idle") return talk.basket.length > 0 ? hold(counter, talk) : status(counter, talk);
  return ask(counter, talk);
}

/** NO, wherever it is said. */
export function declined(counter: Counter, talk: Talk): Answer {
  switch (talk.step.at) {
    case "confirm":
      return change(counter, talk);
    case "instead":
    case "which":
    case "change":
      return talk.basket.length > 0 ? hold(counter, talk) : menu(counter, talk);
    case "drop":
      return talk.basket.length > 0
        ? hold(counter, talk)
        : status(counter, { ...talk, step: IDLE, list: NO_LIST });
    case "idle":
    case "choosing":
      return ask(counter, talk);
    default:
      return talk.step satisfies never;
  }
}

/** The menu from its first page. */
export function menu(counter: Counter, talk: Talk): Answer {
  const halted = stopped(counter, talk);
  if (halted !== null) return { talk, say: halted };
  return ask(counter, menuTalk({ ...talk, pending: [] }));
}

/** The next page of the menu. */
export function more(counter: Counter, talk: Talk): Answer {
  const { step } = talk;
  if (step.at !== "choosing") return menu(counter, talk);
  return ask(counter, { ...talk, step: { ...step, page: step.page + 1 } });
}

/** One step back: the last thing that was chosen is asked for again. */
export function back(counter: Counter, talk: Talk): Answer {
  const { step } = talk;
  if (step.at === "confirm" || step.at === "change") {
    const last = talk.basket.at(-1);
    if (last !== undefined) return changePart(counter, talk, talk.basket.length - 1, "quantity");
  }
  if (step.at === "drop") return menu(counter, talk);
  const draft = draftOf(talk);
  const range = draft?.offer == null ? undefined : rangesOf(counter.menu).get(draft.offer);
  if (draft === null || range === undefined) {
    if (talk.basket.length > 0) return hold(counter, talk);
    return after(sentencesOf(talk.language).nothingBack(), menu(counter, talk));
  }
  if (step.at === "choosing" && draft.size !== null && range.sizes.length > 1)
    return proceed(counter, talk, { ...draft, size: null });
  if (step.at === "choosing" && draft.colour !== null && range.colours.length > 1)
    return proceed(counter, talk, {
      ...draft,
      size: fitting(counter, { ...draft, size: null }).size,
      colour: null,
    });
  return menu(counter, talk);
}

/** Garments in words: taken up as far as they are clear, and the rest asked for. */
export function worded(counter: Counter, talk: Talk, text: string, lines: readonly LineReading[]): Answer {
  const edited = edit(counter, talk, text, lines);
  if (edited !== null) return edited;
  const [only, ...others] = lines;
  if (only !== undefined && others.length === 0) return oneLine(counter, talk, only);
  const drafts = lines.map((line) => counting(fitting(counter, line.understood), line.stated));
  return proceedAll(counter, talk, drafts);
}

/** One text that named at least two things of a garment meant one of it, unless it said how many. */
const counting = (draft: Draft, stated: number): Draft =>
  draft.quantity === null && stated >= 2 ? { ...draft, quantity: 1 } : draft;

function oneLine(counter: Counter, talk: Talk, line: LineReading): Answer {
  const { ambiguous, impossible } = line;
  const sentences = sentencesOf(talk.language);
  const draft = counting(fitting(counter, line.understood), line.stated);
  if (ambiguous !== null) {
    const picks = picksOf(ambiguous, draft);
    return ask(counter, { ...talk, step: { at: "which", about: ambiguous.about, draft, picks } });
  }
  const next = proceed(counter, talk, draft);
  if (impossible === "number") return after(sentences.notOnTheList(), next);
  const range = draft.offer === null ? undefined : rangesOf(counter.menu).get(draft.offer);
  if (impossible === null || impossible === "offer" || range === undefined) return next;
  const offer = nameIn(talk.language, range.offer);
  return after(sentences.doesNotCome({ offer, what: impossible }), next);
}

function picksOf(ambiguous: NonNullable<LineReading["ambiguous"]>, draft: Draft): readonly Pick[] {
  switch (ambiguous.about) {
    case "offer":
      return ambiguous.offers.map((offer) => ({ take: "offer", offer }));
    case "colour":
      return ambiguous.colours.map((colour) => ({ take: "colour", colour }));
    case "size":
      return ambiguous.sizes.map((size) => ({ take: "size", size }));
    case "reading":
      return ambiguous.drafts.map((meant) => ({
        take: "drafts",
        drafts: [{ ...meant, quantity: meant.quantity ?? draft.quantity ?? 1 }],
      }));
    default:
      return ambiguous satisfies never;
  }
}

/** At the confirming question, "M" or "navy" or "x2" alone changes the one line that was asked about. */
function edit(counter: Counter, talk: Talk, text: string, lines: readonly LineReading[]): Answer | null {
  const [line, ...others] = lines;
  const [only, ...more] = talk.basket;
  if (talk.step.at !== "confirm" || line === undefined || others.length > 0) return null;
  if (only === undefined || more.length > 0 || line.understood.offer !== null) return null;
  const { offer, colour, size, quantity } = only;
  const again: Reading = read(
    counter.menu,
    talk.language,
    { draft: { offer, colour, size, quantity } },
    text,
  );
  if (again.kind !== "garments" || again.lines[0] === undefined) return null;
  return oneLine(counter, { ...talk, basket: [] }, again.lines[0]);
}
