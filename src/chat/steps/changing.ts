/** Changing an order that is placed: which order, which garment of it, and what it is to become. */
import { begunAt, fitting } from "../talk/draft.ts";
import type { ChatOrder, OrderingPort } from "../talk/ordering-port.ts";
import { type ChangeAsked, type Choice, type Draft, EMPTY_DRAFT, type Talk } from "../talk/talk.ts";
import { changeAsked } from "../understand/changes.ts";
import type { LineReading } from "../understand/garment.ts";
import { type Context, FRESH, read } from "../understand/read.ts";
import { sentencesOf } from "../wording/languages.ts";
import { isOpen } from "../wording/say-names.ts";
import { applyChanges, changedTalk, takenOff } from "./apply-change.ts";
import { proceed } from "./choose.ts";
import { ask } from "./question.ts";
import type { TurnAnswer } from "./turn.ts";
import { oneLine } from "./words.ts";

/** The change that a text asks for in a placed order; null if it asks for none or means the basket. */
export function changing(port: OrderingPort, talk: Talk, text: string): TurnAnswer | null {
  const asked = changeAsked(text);
  if (asked === null) return null;
  const open = port.orders().filter(isOpen);
  const begun = talk.basket.length > 0 || (talk.changing === undefined && begunAt(talk.step) !== null);
  if (asked.number === null && (begun || open.length === 0)) return null;
  // ADD alone is another order, as it ever was.
  if (asked.number === null && asked.act === "add" && garmentsIn(port, talk, asked.what).length === 0)
    return null;
  const numbers = asked.number === null ? open.map(({ number }) => number) : [asked.number];
  const [only, ...others] = numbers;
  if (only !== undefined && others.length === 0) return onOrder(port, talk, only, asked);
  const picks = numbers.map((number): Choice => ({ take: "change-order", number, asked }));
  return ask(port, { ...talk, step: { at: "changing", about: "order", draft: EMPTY_DRAFT, picks } });
}

/** Goes on with the order that is meant. */
export function onOrder(port: OrderingPort, talk: Talk, number: number, asked: ChangeAsked): TurnAnswer {
  const order = port.orders().find((other) => other.number === number && isOpen(other));
  if (order === undefined)
    return {
      talk: changedTalk(talk),
      say: sentencesOf(port, talk).cannotChange({ number, why: "over" }),
    };
  if (asked.act === "add") return adding(port, talk, number, asked.what);
  const said = asked.act === "change" ? asked.which : asked.what;
  const lines = meant(order, draftIn(port, talk, FRESH, said));
  const [only, ...others] = lines;
  if (only !== undefined && others.length === 0) return onLine(port, talk, number, only, asked);
  const picks = lines.map((line): Choice => ({ take: "change-line", number, line, asked }));
  return ask(port, { ...talk, step: { at: "changing", about: "line", draft: EMPTY_DRAFT, picks } });
}

type Line = ChatOrder["lines"][number];

/** The lines of an order that some words may mean; all lines if the words fit none. */
function meant({ lines }: ChatOrder, named: Draft): readonly Line[] {
  const fits = lines.filter(
    ({ offer, colour, size }) =>
      (named.offer === null || named.offer === offer) &&
      (named.colour === null || named.colour === colour) &&
      (named.size === null || named.size === size),
  );
  return fits.length > 0 ? fits : lines;
}

/** Goes on with the garment that is meant. */
export function onLine(
  port: OrderingPort,
  talk: Talk,
  number: number,
  line: Line,
  asked: ChangeAsked,
): TurnAnswer {
  const { offer, colour, size, quantity } = line;
  if (asked.act === "take-off") {
    const said = draftIn(port, talk, FRESH, asked.what).quantity ?? quantity;
    return takenOff(port, talk, number, { offer, colour, size }, Math.min(said, quantity));
  }
  const draft: Draft = { offer, colour, size, quantity };
  const changed = draftIn(port, talk, { draft }, asked.what, draft);
  const same = (Object.keys(draft) as (keyof Draft)[]).every((part) => changed[part] === draft[part]); // its own keys
  if (same) return whatPart(port, talk, number, line);
  return become(
    port,
    talk,
    number,
    line,
    fitting(port.menu, { ...changed, quantity: changed.quantity ?? quantity }),
  );
}

/** Asks which part of a garment to change. */
function whatPart(port: OrderingPort, talk: Talk, number: number, line: Line): TurnAnswer {
  const parts = (["colour", "size", "quantity", "offer", "all"] as const).filter((part) => {
    const only = fitting(port.menu, {
      ...line,
      ...(part === "colour" || part === "size" ? { [part]: null } : {}),
    });
    if (part === "colour") return only.colour === null;
    if (part === "size") return only.size === null;
    return part !== "offer" || port.menu.offers.length > 1;
  });
  const picks = parts.map((part): Choice => ({ take: "change-part", number, line, part }));
  return ask(port, { ...talk, step: { at: "changing", about: "part", draft: line, picks } });
}

/** A part of a garment is to be another one: asked for, or all of it taken off. */
export function changeOrderPart(
  port: OrderingPort,
  talk: Talk,
  { number, line, part }: Extract<Choice, { readonly take: "change-part" }>,
): TurnAnswer {
  const { offer, colour, size, quantity } = line;
  if (part === "all") return takenOff(port, talk, number, { offer, colour, size }, quantity);
  return become(port, talk, number, line, { offer, colour, size, quantity, [part]: null });
}

/** Changes the garments of a line as far as the customer said how, and asks for the rest. */
function become(port: OrderingPort, talk: Talk, number: number, line: Line, draft: Draft): TurnAnswer {
  const { offer, colour, size, quantity } = line;
  return proceed(port, { ...talk, changing: { number, wanted: { offer, colour, size }, quantity } }, draft);
}

/** Garments are added to an order: the whole ones at once, then what the others lack is asked for. */
function adding(port: OrderingPort, talk: Talk, number: number, words: string): TurnAnswer {
  const changed: Talk = { ...talk, changing: { number, wanted: null, quantity: 0 } };
  const said = linesIn(port, talk, words);
  const drafts = garmentsIn(port, talk, words);
  const [first = EMPTY_DRAFT, ...pending] = drafts;
  const [line] = said;
  // "A tote", of which there are two: asked like any other.
  if (line?.ambiguous && said.length === 1)
    return oneLine(port, changed, { ...line, understood: { ...line.understood, quantity: first.quantity } });
  if (pending.length === 0) return proceed(port, changed, first);
  const lines = drafts.flatMap(({ offer, colour, size, quantity }) =>
    offer === null || colour === null || size === null
      ? []
      : [{ offer, colour, size, quantity: quantity ?? 1 }],
  );
  if (lines.length < drafts.length) return proceed(port, { ...changed, pending }, first);
  const changes = lines.map((line) => ({ type: "add", line }) as const);
  const applied = applyChanges(port, talk, number, changes);
  // If a garment is sold out, the customer is asked about it alone.
  return applied.ok ? applied.value : proceed(port, { ...changed, pending }, first);
}

/** The garments that some words name, one of each unless they say how many. */
const garmentsIn = (port: OrderingPort, talk: Talk, words: string): readonly Draft[] =>
  linesIn(port, talk, words).map(({ understood }) => {
    const draft = fitting(port.menu, understood);
    return { ...draft, quantity: draft.quantity ?? 1 };
  });

function linesIn({ menu }: OrderingPort, { language }: Talk, words: string): readonly LineReading[] {
  const reading = read(menu, language, FRESH, words);
  return reading.type === "garments" ? reading.lines : [];
}

/** One garment as known so far, completed by what the words say about it. */
function draftIn(
  { menu }: OrderingPort,
  { language }: Talk,
  context: Context,
  words: string,
  known: Draft = EMPTY_DRAFT,
): Draft {
  const reading = read(menu, language, context, words);
  if (reading.type === "number") return { ...known, quantity: reading.number };
  return reading.type === "garments" ? (reading.lines[0]?.understood ?? known) : known;
}
