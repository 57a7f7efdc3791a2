/** From the words of a text to what they mean. */
import { isName, type Lexicon, type Meaning } from "./lexicon.ts";
import { near, slipsForgiven } from "./slips.ts";
import type { RawToken } from "./tokens.ts";

/** One word, phrase or number of a text with its meaning. */
export type Token =
  | {
      readonly type: "number";
      readonly n: number;
      readonly spelt: boolean;
      /** The size it would be with the word after it: "2 xl" may be 2XL. */
      readonly sized?: Meaning;
    }
  | { readonly type: "times"; readonly n: number; readonly before: boolean }
  | {
      readonly type: "name";
      readonly meaning: Meaning;
      /** Whether it was guessed from a short word with a slip in it. */
      readonly doubtful: boolean;
    }
  /** Not part of the order, but may count one: "una". */
  | { readonly type: "filler"; readonly one?: boolean }
  | {
      readonly type:
        | "child"
        | "size-word"
        | "colour-word"
        | "joiner"
        | "comma"
        | "break"
        | "negation"
        | "removal";
    }
  | { readonly type: "unknown"; readonly text: string };

export type Piece = readonly Token[];

// "car" and "hot" are a slip from "cap" and "hat", but words of their own too.
const SURE_GUESS = 5;

/** The meaning of each token: the longest phrase that the menu or a language has, else the word a slip away. */
export function interpretations(lexicon: Lexicon, tokens: readonly RawToken[]): Piece {
  const said: Token[] = [];
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index];
    if (token === undefined) break;
    if (token.type === "comma" || token.type === "break") said.push({ type: token.type });
    else if (token.type === "times") said.push({ type: "times", n: token.n, before: token.before });
    else {
      const phrase = phraseAt(lexicon, tokens, index) ?? spoiltPhraseAt(lexicon, tokens, index);
      if (phrase !== undefined) index += phrase.words - 1;
      const next = tokens[index + 1];
      const many = phrase?.meaning.role === "amount" ? countIn(lexicon, next) : undefined;
      if (many !== undefined) {
        said.push({ type: "times", n: many, before: false });
        index += 1;
      } else if (phrase !== undefined) said.push(meant(phrase.meaning, phrase.text));
      else if (token.type === "number") said.push(counting(lexicon, token.n, tokens[index + 1]));
      else said.push(guessed(lexicon, token.text));
    }
  }
  return said;
}

/** The number that a token is, in digits or spelt; "a" is none. */
function countIn({ meanings }: Lexicon, token: RawToken | undefined): number | undefined {
  if (token?.type === "number") return token.n;
  const meaning = token?.type === "word" ? meanings.get(token.text) : undefined;
  return meaning?.role === "filler" ? undefined : meaning?.number;
}

function counting(lexicon: Lexicon, n: number, next: RawToken | undefined): Token {
  const sized = next?.type === "word" ? lexicon.meanings.get(`${n}${next.text}`) : undefined;
  return { type: "number", n, spelt: false, ...(sized?.sizes === undefined ? {} : { sized }) };
}

/** The longest known phrase that begins at a token. */
export function phraseAt(
  lexicon: Lexicon,
  tokens: readonly RawToken[],
  from: number,
): { readonly text: string; readonly words: number; readonly meaning: Meaning } | undefined {
  const first = wordAt(tokens, from);
  if (first === undefined) return undefined;
  const reach = lexicon.reach.get(first) ?? 1;
  let text = first;
  let found: { readonly text: string; readonly words: number; readonly meaning: Meaning } | undefined;
  for (let words = 1; words <= reach; words++) {
    const next = words === 1 ? "" : wordAt(tokens, from + words - 1);
    if (next === undefined) break;
    if (words > 1) text = `${text} ${next}`;
    const meaning = lexicon.meanings.get(text);
    if (meaning !== undefined && (words > 1 || tokens[from]?.type === "word"))
      found = { text, words, meaning };
  }
  return found;
}

/** A name of several words whose first or second has a slip in it: "etxra large" and "extra lrage" are no L. */
function spoiltPhraseAt(
  lexicon: Lexicon,
  tokens: readonly RawToken[],
  from: number,
): ReturnType<typeof phraseAt> {
  const token = tokens[from];
  if (token?.type !== "word" || token.text.length < 4) return undefined;
  for (const start of near(token.text, lexicon.starts, slipsForgiven(token.text))) {
    const mended = [{ type: "word", text: start } as const, ...tokens.slice(from + 1, from + 4)];
    const phrase = phraseAt(lexicon, mended, 0);
    if (phrase !== undefined && phrase.words > 1 && isName(phrase.meaning)) return phrase;
  }
  const next = tokens[from + 1];
  if (next?.type !== "word" || !lexicon.reach.has(token.text) || lexicon.meanings.has(next.text))
    return undefined;
  for (const second of near(next.text, lexicon.names, slipsForgiven(next.text))) {
    const mended = [token, { type: "word", text: second } as const, ...tokens.slice(from + 2, from + 4)];
    const phrase = phraseAt(lexicon, mended, 0);
    if (phrase !== undefined && phrase.words > 1 && isName(phrase.meaning)) return phrase;
  }
  return undefined;
}

function wordAt(tokens: readonly RawToken[], index: number): string | undefined {
  const token = tokens[index];
  if (token?.type === "word") return token.text;
  return token?.type === "number" ? String(token.n) : undefined;
}

function meant(meaning: Meaning, text: string): Token {
  if (isName(meaning)) return { type: "name", meaning, doubtful: false };
  if (meaning.role === "filler") return { type: "filler", one: meaning.number === 1 };
  if (meaning.number !== undefined) return { type: "number", n: meaning.number, spelt: true };
  if (meaning.role === "adult" || meaning.role === "amount") return { type: "filler" };
  if (meaning.role !== undefined) return { type: meaning.role };
  return meaning.command === undefined ? { type: "unknown", text } : { type: "filler" };
}

/** The one name that a misspelt word can be; the word itself if there is none or more than one. */
function guessed(lexicon: Lexicon, word: string): Token {
  const unknown: Token = { type: "unknown", text: word };
  const most = slipsForgiven(word);
  if (most === 0) return unknown;
  // In the shortest words a wrong first letter makes another word.
  const names = near(word, lexicon.names, most).filter((name) => word.length > 3 || name[0] === word[0]);
  const [first, ...others] = names.flatMap((name) => lexicon.meanings.get(name) ?? []);
  if (first === undefined || others.some((other) => !same(first, other))) return unknown;
  return { type: "name", meaning: first, doubtful: word.length < SURE_GUESS };
}

/** Whether two words name the same things. */
function same(one: Meaning, other: Meaning): boolean {
  const named = ({ offers, colours, sizes }: Meaning) =>
    JSON.stringify([
      [...(offers ?? [])],
      [...(colours ?? [])].map(([blank, ids]) => [blank, ...ids]),
      [...(sizes ?? [])].map(([blank, ids]) => [blank, ...ids]),
    ]);
  return one === other || named(one) === named(other);
}
