/** Garments said in words: taken up as far as they are clear, and the rest asked for. */
import type { Counter } from "../counter.ts";
import { fitting } from "../draft.ts";
import type { LineReading } from "../garment.ts";
import { ask } from "../question.ts";
import { nameIn, rangesOf } from "../range.ts";
import { type Reading, read } from "../read.ts";
import type { Draft, Pick, Talk } from "../talk.ts";
import { type Answer, after } from "../turn.ts";
import { sentencesOf } from "../wording.ts";
import { proceed, proceedAll } from "./choose.ts";

/** Garments in words: taken up as far as they are clear, and the rest asked for. */
export function worded(counter: Counter, talk: Talk, text: string, lines: readonly LineReading[]): Answer {
  const edited = edit(counter, talk, text, lines);
  if (edited !== null) return edited;
  const draftFrom = (line: LineReading): Draft =>
    counting(fitting(counter.menu, line.understood), line.stated);
  const clear = lines.filter(({ ambiguous, impossible }) => ambiguous === null && impossible === null);
  const [first, ...others] = lines.filter((line) => !clear.includes(line));
  if (first === undefined) return proceedAll(counter, talk, clear.map(draftFrom));
  // What is doubtful is asked about first; what is clear waits for it and is not lost.
  return oneLine(counter, { ...talk, pending: [...clear, ...others].map(draftFrom) }, first);
}

/** One text that named at least two things of a garment meant one of it, unless it said how many. */
const counting = (draft: Draft, stated: number): Draft =>
  draft.quantity === null && stated >= 2 ? { ...draft, quantity: 1 } : draft;

function oneLine(counter: Counter, talk: Talk, line: LineReading): Answer {
  const { ambiguous, impossible } = line;
  const sentences = sentencesOf(talk.language);
  const draft = counting(fitting(counter.menu, line.understood), line.stated);
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
