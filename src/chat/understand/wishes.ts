/** Words for something that no menu has: "on the back", "with my name", "gift wrap". */
import type { GarmentWish } from "../../model/menu/wishes.ts";
import { LANGUAGES, WORDINGS } from "../wording/languages.ts";
import { isName, type Lexicon } from "./lexicon.ts";
import { plain } from "./tokens.ts";

/** A customer's words for something off the menu, and the rest of the text. */
export type Wished = { readonly words: string; readonly rest: string };

/** The counter's wish that some words mean; null if there is none. */
export function counterWish({ wishes }: Lexicon, words: string): GarmentWish | null {
  const said = ` ${[...words.matchAll(WORD)].map(([word]) => plain(word)).join(" ")} `;
  for (const [phrase, wish] of wishes) if (said.includes(` ${phrase} `)) return wish;
  return null;
}

const PHRASES: ReadonlySet<string> = new Set(
  LANGUAGES.flatMap((language) => WORDINGS[language].words.wishes),
);
const LONGEST = Math.max(...[...PHRASES].map((phrase) => phrase.split(" ").length));
/** After these comes a name, whatever else its letters could mean: "initials SM". */
const NAMING = new Set(["name", "initials", "nombre", "iniciales"]);
const NUMBERING = new Set(["number", "numero"]);
const JOINING: ReadonlySet<string> = new Set(
  LANGUAGES.flatMap((language) => WORDINGS[language].words.joiners),
);
const PARTS = /[,;:.!?()+&\n]/;
const WORD = /[\p{L}\p{N}'’]+/gu;
const MOST_CHARACTERS = 400;
const MOST_WORDS = 60;
/** The crew sees no more of a wish than this. */
const MOST_SHOWN = 80;

type Word = { readonly from: number; readonly to: number; readonly plain: string };

/** The wish in a text, or null. Words around it that say nothing of a garment belong to it. */
export function wishIn(lexicon: Lexicon, text: string): Wished | null {
  const read = text.slice(0, MOST_CHARACTERS);
  const words = [...read.matchAll(WORD)]
    .slice(0, MOST_WORDS)
    .map(({ 0: word, index }): Word => ({ from: index, to: index + word.length, plain: plain(word) }));
  const taken = new Set<number>();
  for (let at = 0; at < words.length; at++) {
    const length = phraseAt(lexicon, words, at);
    if (length === 0) continue;
    for (let index = at; index < at + length; index++) taken.add(index);
    for (let index = at - 1; belongs(lexicon, read, words, index, index + 1); index--) taken.add(index);
    let next = at + length;
    if (isNamed(read, words, next)) taken.add(next++);
    for (; belongs(lexicon, read, words, next, next - 1); next++) taken.add(next);
    at = next - 1;
  }
  if (taken.size === 0) return null;
  const rest = words.reduceRight(
    (left, { from, to }, index) => (taken.has(index) ? `${left.slice(0, from)} ${left.slice(to)}` : left),
    read,
  );
  const said = words.flatMap(({ from, to }, index) => (taken.has(index) ? [read.slice(from, to)] : []));
  return { words: said.join(" "), rest };
}

/** How many words of a phrase for a wish begin here; 0 if the menu has the words. */
function phraseAt(lexicon: Lexicon, words: readonly Word[], at: number): number {
  for (let length = Math.min(LONGEST, words.length - at); length > 0; length--) {
    const phrase = words
      .slice(at, at + length)
      .map(({ plain: word }) => word)
      .join(" ");
    if (lexicon.wishes.has(phrase)) return length;
    if (PHRASES.has(phrase)) return isName(lexicon.meanings.get(phrase) ?? {}) ? 0 : length;
  }
  return 0;
}

/** Whether a word next to a wish is part of it: no mark is between them, and it describes no garment. */
function belongs(
  lexicon: Lexicon,
  text: string,
  words: readonly Word[],
  index: number,
  beside: number,
): boolean {
  const word = words[index];
  const other = words[beside];
  if (word === undefined || other === undefined || parted(text, word, other)) return false;
  if (JOINING.has(word.plain)) return false;
  if (/\d/.test(word.plain)) return NUMBERING.has(words[index - 1]?.plain ?? "");
  const meaning = lexicon.meanings.get(word.plain);
  if (meaning === undefined) return true;
  return !isName(meaning) && (meaning.number === undefined || meaning.role === "filler");
}

function parted(text: string, one: Word, other: Word): boolean {
  const [first, second] = one.from < other.from ? [one, other] : [other, one];
  return PARTS.test(text.slice(first.to, second.from));
}

/** Whether a word is the requested name, in capitals among small letters. */
function isNamed(text: string, words: readonly Word[], index: number): boolean {
  const word = words[index];
  const before = words[index - 1];
  if (word === undefined || before === undefined || !NAMING.has(before.plain) || parted(text, before, word))
    return false;
  return text !== text.toUpperCase() && /^\p{Lu}{2,}$/u.test(text.slice(word.from, word.to));
}

/** A wish added to earlier wishes, in whole words that fit the crew's screen. */
export function shortWish(before: string | undefined, words: string): string {
  const said = before === undefined || before === words ? words : `${before}; ${words}`;
  let short = "";
  for (const word of said.split(" ")) {
    const longer = short === "" ? word : `${short} ${word}`;
    if (longer.length > MOST_SHOWN) break;
    short = longer;
  }
  return short === "" ? said.slice(0, MOST_SHOWN) : short;
}
