/** The meaning of a text: the understood parts, the missing ones, and the ambiguous ones. */

import type { Language } from "../../model/basics/words.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import { type Draft, EMPTY_DRAFT } from "../talk/talk.ts";
import type { CommandWord } from "../wording/shape.ts";
import { commandIn } from "./commands.ts";
import type { LineReading } from "./garment.ts";
import { interpretations, type Token } from "./interpretations.ts";
import { type Lexicon, lexiconOf } from "./lexicon.ts";
import { garmentOf } from "./roles.ts";
import { spacedOut } from "./run-together.ts";
import { sharedQuantity } from "./shared-quantity.ts";
import { tokens } from "./tokens.ts";

/** What the customer was asked about; null if nothing is under way. */
export type Context = {
  readonly draft: Draft | null;
  /** Whether it was said on the web page, which gets no texts. */
  readonly onPage?: boolean;
};

export const FRESH: Context = { draft: null };

export type Reading =
  /** No letter and no digit: blank, a smile, a question mark. */
  | { readonly type: "nothing" }
  | { readonly type: "command"; readonly command: CommandWord; readonly number: number | null }
  /** A bare number: it answers the list last sent. */
  | { readonly type: "number"; readonly number: number }
  | { readonly type: "garments"; readonly lines: readonly LineReading[] }
  /** Words, but none about anything here. */
  | { readonly type: "unknown" };

/**
 * Reads a text. All languages are understood; the conversation's language decides only about words of two languages.
 * Never throws, and takes bounded time on any text.
 */
export function read(menu: Menu, language: Language, context: Context, text: string): Reading {
  void language;
  const lexicon = lexiconOf(menu);
  const found = spacedOut(lexicon, tokens(text));
  if (found.length === 0) return { type: "nothing" };
  const command = commandIn(lexicon, found, context.onPage);
  if (command !== null) return { type: "command", ...command };
  const said = interpretations(lexicon, found);
  const number = bareNumber(said);
  if (number !== null) return { type: "number", number };
  return garments(menu, lexicon, context, said);
}

/** The number of a text that says nothing else. */
function bareNumber(said: readonly Token[]): number | null {
  const telling = said.filter(({ type }) => type !== "filler" && type !== "comma" && type !== "break");
  const [only, ...others] = telling;
  return only?.type === "number" && others.length === 0 ? only.n : null;
}

function garments(menu: Menu, lexicon: Lexicon, context: Context, said: readonly Token[]): Reading {
  if (said.some((one, index) => one.type === "negation" && negates(said, index))) return { type: "unknown" };
  if (context.draft === null && isOtherTalk(said)) return { type: "unknown" };
  const lines: LineReading[] = [];
  for (const { piece, goesOn } of sharedQuantity(said)) {
    const before = lines.at(-1)?.understood;
    const base =
      goesOn !== "no" && before !== undefined
        ? { ...before, quantity: null }
        : lines.length === 0
          ? context.draft
          : null;
    const line =
      garmentOf(menu, lexicon, piece, base, goesOn) ?? garmentOf(menu, lexicon, piece, null, "no") ?? UNCLEAR;
    if (goesOn !== "no") lines.push(...completed(lines.pop(), line), line);
    else lines.push(line);
  }
  const telling = lines.filter(says);
  return telling.length === 0 ? { type: "unknown" } : { type: "garments", lines };
}

/**
 * Whether a text is about something else, though a word in it could be a colour, a size or a number: it names no offer
 * for certain, and most of its words mean nothing here.
 */
function isOtherTalk(said: readonly Token[]): boolean {
  const named = said.filter((one) => one.type === "name" && !one.doubtful);
  if (named.some((one) => one.type === "name" && one.meaning.offers !== undefined)) return false;
  const telling = said.filter(({ type }) => type === "number" || type === "times" || type === "child");
  return said.filter(({ type }) => type === "unknown").length > named.length + telling.length;
}

/** A garment was named, but how is past telling: it is asked for from the start. */
const UNCLEAR: LineReading = {
  understood: EMPTY_DRAFT,
  missing: ["offer"],
  ambiguous: null,
  impossible: null,
  stated: 0,
};

const says = ({ understood: draft, ambiguous, impossible }: LineReading): boolean =>
  ambiguous !== null || impossible !== null || Object.values(draft).some((part) => part !== null);

/** "Longtail navy and sand L": what the first lacks, and the second says of the same offer, is for both. */
function completed(
  first: LineReading | undefined,
  { understood: later }: LineReading,
): readonly LineReading[] {
  if (first === undefined) return [];
  const lacks = first.missing.filter(
    (slot) => later[slot] !== null && later.offer === first.understood.offer,
  );
  const missing = first.missing.filter((slot) => !lacks.includes(slot));
  const given = Object.fromEntries(lacks.map((slot) => [slot, later[slot]]));
  return [{ ...first, understood: { ...first.understood, ...given }, missing }];
}

/** Whether a "no" comes before a name: "no navy" has two meanings, so it is not read at all. */
function negates(said: readonly Token[], index: number): boolean {
  const next = said.slice(index + 1).find(({ type }) => type !== "filler");
  return next?.type === "name";
}
