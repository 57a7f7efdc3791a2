/** Garments said in words: taken up as far as they are clear, and the rest asked for. */

import { draftOf, fitting } from "../talk/draft.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";
import { nameIn, rangesOf } from "../talk/range.ts";
import type { Choice, Draft, Talk } from "../talk/talk.ts";
import type { LineReading } from "../understand/garment.ts";
import { type Reading, read } from "../understand/read.ts";
import { sentencesOf } from "../wording/languages.ts";
import { hold, proceed, proceedAll, settledOf } from "./choose.ts";
import { ask } from "./question.ts";
import { after, type TurnAnswer } from "./turn.ts";

/** Handles words about garments. At the confirmation a word alone changes the line asked about. */
export function worded(
  port: OrderingPort,
  talk: Talk,
  text: string,
  lines: readonly LineReading[],
): TurnAnswer {
  const edited = edit(port, talk, text, lines);
  if (edited !== null) return edited;
  if (repeats(talk, lines)) return hold(port, talk);
  const [only, ...more] = lines;
  if (only !== undefined && more.length === 0) return oneLine(port, talk, only);
  const draftFrom = (line: LineReading): Draft => counting(fitting(port.menu, line.understood), line, talk);
  const clear = lines.filter(({ ambiguous, impossible }) => ambiguous === null && impossible === null);
  const [doubtful, ...others] = lines.filter((line) => !clear.includes(line));
  if (doubtful === undefined) return proceedAll(port, talk, clear.map(draftFrom));
  // Ask about doubtful garments first; complete ones are in the basket by then and cannot get lost.
  const { talk: settled, open } = settledOf(port, talk, clear.map(draftFrom));
  return oneLine(port, { ...settled, pending: [...open, ...others.map(draftFrom)] }, doubtful);
}

/** Whether the text repeats what is to be confirmed: a text sent twice on a bad line is not wanted twice. */
function repeats({ step, basket }: Talk, lines: readonly LineReading[]): boolean {
  if (step.at !== "confirm" || lines.length !== basket.length) return false;
  return lines.every(({ understood: { offer, colour, size, quantity } }, index) => {
    const line = basket[index];
    const same = offer === line?.offer && colour === line.colour && size === line.size;
    return same && (quantity ?? 1) === line.quantity;
  });
}

/**
 * Words that named at least two things of a garment, or all there is to say of it in one go, meant one of
 * it unless they said how many.
 */
function counting(draft: Draft, { stated, missing, ambiguous }: LineReading, talk: Talk): Draft {
  const whole = missing.length === 0 && ambiguous === null && (draftOf(talk)?.offer ?? null) === null;
  return draft.quantity === null && (stated >= 2 || whole) ? { ...draft, quantity: 1 } : draft;
}

/** Takes one garment up as far as it is clear; asks which is meant if its words fit several. */
export function oneLine(port: OrderingPort, talk: Talk, line: LineReading): TurnAnswer {
  const { ambiguous, impossible } = line;
  const sentences = sentencesOf(port, talk);
  const draft = counting(fitting(port.menu, line.understood), line, talk);
  if (ambiguous !== null) {
    const picks = choicesOf(ambiguous, draft);
    return ask(port, { ...talk, step: { at: "which", about: ambiguous.about, draft, picks } });
  }
  const next = proceed(port, talk, draft);
  if (impossible === "number") return after(sentences.notOnTheList(), next);
  const range = draft.offer === null ? undefined : rangesOf(port.menu).get(draft.offer);
  if (impossible === null || impossible === "offer" || range === undefined) return next;
  const offer = nameIn(talk.language, range.offer);
  return after(sentences.doesNotCome({ offer, what: impossible }), next);
}

function choicesOf(ambiguous: NonNullable<LineReading["ambiguous"]>, draft: Draft): readonly Choice[] {
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
function edit(
  port: OrderingPort,
  talk: Talk,
  text: string,
  lines: readonly LineReading[],
): TurnAnswer | null {
  const [line, ...others] = lines;
  const [only, ...more] = talk.basket;
  if (talk.step.at !== "confirm" || line === undefined || others.length > 0) return null;
  if (only === undefined || more.length > 0 || line.understood.offer !== null) return null;
  const { offer, colour, size, quantity } = only;
  const again: Reading = read(port.menu, talk.language, { draft: { offer, colour, size, quantity } }, text);
  if (again.type !== "garments" || again.lines[0] === undefined) return null;
  return oneLine(port, { ...talk, basket: [] }, again.lines[0]);
}
