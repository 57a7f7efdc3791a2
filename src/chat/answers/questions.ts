/** Whether a text asks something, and about what. */
import type { Language } from "../../model/basics/words.ts";
import { isName, type Lexicon } from "../understand/lexicon.ts";
import type { Reading } from "../understand/read.ts";
import { slipsBetween } from "../understand/slips.ts";
import { tokens } from "../understand/tokens.ts";
import { EN_ANSWERS } from "./en.ts";
import { ES_ANSWERS } from "./es.ts";
import type { AnswerWording, Asking, Subject } from "./shape.ts";

export const ANSWERS: Readonly<Record<Language, AnswerWording>> = { en: EN_ANSWERS, es: ES_ANSWERS };
const LANGUAGES = Object.keys(ANSWERS) as readonly Language[]; // the keys of a literal

/** A question, and the language it is asked in. */
export type Question = { readonly subject: Subject; readonly language: Language };

/** The most other words between two words of a pattern. */
const MOST_BETWEEN = 4;
/** A text that is any other command is no question. */
const VAGUE: ReadonlySet<string> = new Set(["status", "sizes", "help", "menu", "hello", "thanks"]);
/** Shorter words are not taken for others: one letter makes "card" of "care". */
const LONG = 5;

type Words = ReadonlySet<string>;
type Ready = {
  readonly subject: Subject;
  readonly words: Words;
  readonly alone: Words;
  readonly patterns: readonly (readonly Words[])[];
  readonly not: Words;
};

const set = (words = "", by: string | RegExp = "/"): Words =>
  new Set(words.split(by).filter((word) => word !== ""));

const ready = (subject: Subject, { words, alone, patterns = [], not }: Asking): Ready => ({
  subject,
  words: set(words),
  alone: set(alone),
  patterns: patterns.map((pattern) => pattern.split(" ").map((one) => set(one))),
  not: set(not),
});

const READY = LANGUAGES.map((language) => {
  const { subjects, fillers, cues } = ANSWERS[language].words;
  const asked = Object.entries(subjects).map(([subject, asking]) => ready(subject as Subject, asking)); // the keys of a record
  return { language, subjects: asked, fillers: set(fillers, /\s+/), cues: set(cues) };
});

/**
 * The question in a text, or null. A text that reads as an order is only a question if it has the form of one. The
 * conversation's language is tried first.
 */
export function questionIn(
  { meanings }: Lexicon,
  spoken: Language,
  text: string,
  reading: Reading,
): Question | null {
  if (reading.type === "number" || (reading.type === "command" && !VAGUE.has(reading.command))) return null;
  const said = tokens(text).flatMap((token) =>
    token.type === "word" ? [token.text] : token.type === "number" ? [String(token.n)] : [],
  );
  const orders = reading.type === "garments" && reading.lines.some(({ stated }) => stated >= 2);
  const isMenus = (word: string): boolean => isName(meanings.get(word) ?? {});
  const first = READY.filter(({ language }) => language === spoken);
  for (const { language, subjects, fillers, cues } of [
    ...first,
    ...READY.filter((one) => !first.includes(one)),
  ]) {
    if (orders && !text.includes("?") && !said.some((word) => cues.has(word))) continue;
    const found = subjects.find((asked) => asks(asked, fillers, said, isMenus));
    if (found !== undefined) return { subject: found.subject, language };
  }
  return null;
}

function asks(
  { words, alone, patterns, not }: Ready,
  fillers: Words,
  said: readonly string[],
  isMenus: (word: string) => boolean,
): boolean {
  if (said.some((word) => not.has(word))) return false;
  if (said.some((word) => has(words, word) && !isMenus(word))) return true;
  const telling = said.filter((word) => !fillers.has(word) || alone.has(word));
  if (telling.length > 0 && telling.every((word) => has(alone, word) && !isMenus(word))) return true;
  return patterns.some((pattern) => follows(pattern, said));
}

/** Whether the words of a pattern occur in a text, in this order and near each other. */
function follows(pattern: readonly Words[], said: readonly string[]): boolean {
  const [first, ...others] = pattern;
  if (first === undefined) return false;
  return said.some((word, start) => {
    if (!has(first, word)) return false;
    let at = start;
    return others.every((next) => {
      const found = said.findIndex(
        (other, index) => index > at && index <= at + 1 + MOST_BETWEEN && has(next, other),
      );
      at = found;
      return found >= 0;
    });
  });
}

/** Whether a word is in a list, allowing a typing slip in a long word. */
function has(words: Words, word: string): boolean {
  if (words.has(word)) return true;
  if (word.length < LONG) return false;
  for (const one of words)
    if (one.length >= LONG && one[0] === word[0] && slipsBetween(word, one, 1) <= 1) return true;
  return false;
}
