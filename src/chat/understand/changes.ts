/** Texts that ask for a change of an order that is placed: "change 108 to XL", "add a tote to 108", "make it two". */
import type { Language } from "../../model/basics/words.ts";
import type { ChangeAsked } from "../talk/talk.ts";
import { LANGUAGES, WORDINGS } from "../wording/languages.ts";
import type { Words } from "../wording/shape.ts";
import { type RawToken, tokens } from "./tokens.ts";

const every = (which: (words: Words) => readonly string[]): readonly (readonly string[])[] =>
  LANGUAGES.flatMap((language: Language) => which(WORDINGS[language].words)).map((phrase) =>
    phrase.split(" "),
  );
const single = (which: (words: Words) => readonly string[]): ReadonlySet<string> =>
  new Set(every(which).map((words) => words.join(" ")));

/** The phrases that begin such a text, with their meaning. */
const VERBS: readonly (readonly [act: ChangeAsked["act"], phrases: readonly (readonly string[])[]])[] = [
  ["take-off", every(({ removals }) => removals)],
  ["change", every(({ amount }) => amount)],
  ["change", every(({ commands, changing }) => [...commands.change, ...changing])],
  ["add", every(({ adding }) => adding)],
];
const ORDER_WORDS = single(({ orderWords }) => orderWords);
const INTO = single(({ into }) => into);
const OF = single(({ outOf }) => outOf);
/** "Could you please change": the most words before the verb. */
const WORDS_BEFORE = 4;
const FIRST_ORDER_NUMBER = 100;

/** The change that a text asks for; null if none. */
export function changeAsked(text: string): ChangeAsked | null {
  const found = tokens(text);
  const verb = verbIn(found);
  if (verb === null) return null;
  const rest = found.slice(verb.after);
  const number = rest.flatMap((token) =>
    token.type === "number" && token.n >= FIRST_ORDER_NUMBER ? [token.n] : [],
  )[0];
  const told = withoutOrder(rest);
  if (verb.act !== "change") return { act: verb.act, number: number ?? null, which: "", what: written(told) };
  const to = told.findLastIndex((token, at) => isWord(token, INTO) && at < told.length - 1);
  return {
    act: "change",
    number: number ?? null,
    which: to < 0 ? "" : written(told.slice(0, to)),
    what: written(told.slice(to + 1)),
  };
}

const isWord = (token: RawToken | undefined, words: ReadonlySet<string>): boolean =>
  token?.type === "word" && words.has(token.text);

function verbIn(found: readonly RawToken[]): { act: ChangeAsked["act"]; after: number } | null {
  for (let at = 0; at <= WORDS_BEFORE && at < found.length; at++) {
    for (const [act, phrases] of VERBS) {
      const phrase = phrases
        .filter((words) =>
          words.every((word, n) => {
            const token = found[at + n];
            return token?.type === "word" && token.text === word;
          }),
        )
        .sort((one, other) => other.length - one.length)[0];
      if (phrase !== undefined) return { act, after: at + phrase.length };
    }
    // A text that begins with a number or a garment is an order.
    if (found[at]?.type !== "word") return null;
  }
  return null;
}

/** The words without the order's number, its name for an order, and the small words that lead to them. */
function withoutOrder(rest: readonly RawToken[]): readonly RawToken[] {
  const left: RawToken[] = [];
  for (const [at, token] of rest.entries()) {
    const isOrder = (token.type === "number" && token.n >= FIRST_ORDER_NUMBER) || isWord(token, ORDER_WORDS);
    if (isOrder) {
      while (isWord(left.at(-1), INTO) || isWord(left.at(-1), OF)) left.pop();
      continue;
    }
    // "My order", "the order": the word before it says nothing either.
    if (isWord(rest[at + 1], ORDER_WORDS) && isWord(token, MINE)) continue;
    left.push(token);
  }
  return left;
}
const MINE = single(({ mine, fillers }) => [...mine, ...fillers]);

const written = (found: readonly RawToken[]): string =>
  found
    .map((token) => {
      switch (token.type) {
        case "word":
          return token.text;
        case "number":
          return String(token.n);
        case "times":
          return token.before ? `${token.n}x` : `x${token.n}`;
        case "comma":
          return ",";
        case "break":
          return "+";
        default:
          return token satisfies never;
      }
    })
    .join(" ");
