/** Texts that ask for something by a word of their own. */
import type { Language } from "../../model/basics/words.ts";
import { LANGUAGES, WORDINGS } from "../wording/languages.ts";
import type { CommandWord, Words } from "../wording/shape.ts";
import { phraseAt } from "./interpretations.ts";
import { isName, type Lexicon, type Meaning } from "./lexicon.ts";
import { near, slipsBetween, slipsForgiven } from "./slips.ts";
import { type RawToken, tokens as tokensOf } from "./tokens.ts";

export type Commanded = { readonly command: CommandWord; readonly number: number | null };

const every = (which: (words: Words) => readonly string[]): ReadonlySet<string> =>
  new Set(LANGUAGES.flatMap((language: Language) => which(WORDINGS[language].words)));

const STOP = every(({ commands }) => commands.stop);
const AROUND_STOP = every(({ aroundStop }) => aroundStop);
const ERASING = every(({ erasing }) => erasing);
const GIVE_UP = every(({ giveUp }) => giveUp);
const ORDER_WORDS = every(({ orderWords }) => orderWords);
const NOT_WANTED = [...every(({ notWanted }) => notWanted)];
const WHEREVER = every(({ wherever }) => wherever);
const MINE = every(({ mine }) => mine);

/** Of several commands in one text, the one that counts. */
const RANK: readonly CommandWord[] = [
  "drop",
  "status",
  "sizes",
  "help",
  "menu",
  "back",
  "start",
  "change",
  "add",
  "more",
  "no",
  "yes",
  "thanks",
  "hello",
];
/** These commands count even among a few unknown words: "show me the menu". Dropping does not. */
const PLAIN: ReadonlySet<CommandWord> = new Set(["status", "sizes", "help", "menu", "back"]);
const NUMBERED: ReadonlySet<CommandWord> = new Set(["drop", "status"]);
const FIRST_ORDER_NUMBER = 100;

/**
 * The command of a text; null if it is about garments or nothing. A word for opting out counts only alone: "cancel my
 * order" does not, and is answered with the question which one.
 */
export function commandIn(lexicon: Lexicon, tokens: readonly RawToken[], onPage = false): Commanded | null {
  const words = tokens.flatMap((token) => (token.type === "word" ? [token.text] : []));
  const numbers = tokens.flatMap((token) => (token.type === "number" ? [token.n] : []));
  if (words.length === 0) return null;
  if (numbers.length === 0 && optsOut(words)) {
    // No text is sent to a page, so there the word for cancelling means an order.
    const cancels = onPage && words.some((word) => GIVE_UP.has(word));
    return { command: cancels ? "drop" : "stop", number: null };
  }
  if (givesUp(lexicon, tokens, words)) return { command: "drop-asked", number: null };
  if (removes(lexicon, tokens)) return { command: "change", number: null };
  if (numbers.length > 1 && named(lexicon, tokens) === "drop") return { command: "drop", number: null };
  if (numbers.length > 1 || tokens.some(({ type }) => type === "times")) return null;
  const command = named(lexicon, tokens) ?? (words.length === 1 ? misspelt(lexicon, words[0] ?? "") : null);
  const [number] = numbers;
  if (command === null || number === undefined) return command === null ? null : { command, number: null };
  if (NUMBERED.has(command)) return { command, number };
  return command === "menu" && number >= FIRST_ORDER_NUMBER ? { command: "status", number } : null;
}

/** Whether a text asks to be forgotten: its number and all that was said. */
export const asksErasing = (text: string): boolean =>
  ERASING.has(
    tokensOf(text)
      .flatMap((token) => (token.type === "word" ? [token.text] : ["?"]))
      .join(" "),
  );

/** Whether a text asks to remove something: then it never orders it. */
function removes(lexicon: Lexicon, tokens: readonly RawToken[]): boolean {
  return tokens.some((_, index) => phraseAt(lexicon, tokens, index)?.meaning.role === "removal");
}

/** Whether a text speaks of cancelling an order. */
function givesUp(lexicon: Lexicon, tokens: readonly RawToken[], words: readonly string[]): boolean {
  if (words.some((word) => ORDER_WORDS.has(word))) {
    const sentence = ` ${words.join(" ")} `;
    if (words.some((word) => STOP.has(word))) return true;
    if (NOT_WANTED.some((phrase) => sentence.includes(` ${phrase} `))) return true;
  }
  if (!words.some((word) => GIVE_UP.has(word))) return false;
  return !tokens.some((_, index) => tells(phraseAt(lexicon, tokens, index)?.meaning ?? {}));
}

function optsOut(words: readonly string[]): boolean {
  if (STOP.has(words.join(" "))) return true;
  const telling = words.filter((word) => !AROUND_STOP.has(word));
  return telling.length === 1 && STOP.has(telling[0] ?? "");
}

/** The command among a text's words, if nothing in it names a garment. */
function named(lexicon: Lexicon, tokens: readonly RawToken[]): CommandWord | null {
  const commands = new Set<CommandWord>();
  let unknown = 0;
  let about = 0;
  for (let index = 0; index < tokens.length; index++) {
    const phrase = phraseAt(lexicon, tokens, index);
    if (phrase === undefined) {
      if (tokens[index]?.type === "word") unknown += 1;
      continue;
    }
    index += phrase.words - 1;
    if (phrase.meaning.command !== undefined) commands.add(phrase.meaning.command);
    else if (tells(phrase.meaning)) return null;
    if (phrase.meaning.command !== undefined || isName(phrase.meaning)) about += phrase.words;
  }
  const command = RANK.find((candidate) => commands.has(candidate)) ?? null;
  if (command === null || unknown === 0) return command;
  // In a longer sentence an everyday word such as "where" is no command.
  return PLAIN.has(command) && unknown <= about && !asksForAPlace(tokens) ? command : null;
}

/** Whether a text asks for a place, such as the toilets, and not about the customer's order. */
function asksForAPlace(tokens: readonly RawToken[]): boolean {
  const words = tokens.flatMap((token) => (token.type === "word" ? [token.text] : []));
  const theirs = words.some((word) => MINE.has(word) || ORDER_WORDS.has(word));
  return words.some((word) => WHEREVER.has(word)) && !theirs;
}

/** Whether a word describes a garment, beyond saying that it is one, as "shirt" does. */
function tells({ offers, colours, sizes, childSizes, number, role }: Meaning): boolean {
  if ((colours ?? sizes ?? childSizes) !== undefined || offers?.size === 1) return true;
  return offers === undefined && number !== undefined && role !== "filler";
}

/** A command's word with a slip of the thumb in it, if it can be only one. Never one that opts out. */
function misspelt(lexicon: Lexicon, word: string): CommandWord | null {
  const most = word.length >= 4 ? slipsForgiven(word) : 0;
  if (most === 0 || lexicon.meanings.has(word)) return null;
  if (near(word, lexicon.names, most).length > 0) return null;
  const found = new Set(
    COMMAND_WORDS.filter(([name]) => slipsBetween(word, name, most) <= most).map(([, command]) => command),
  );
  const [only, ...others] = found;
  return only === undefined || others.length > 0 || only === "stop" ? null : only;
}

const COMMAND_WORDS: readonly (readonly [string, CommandWord])[] = LANGUAGES.flatMap((language) =>
  Object.entries(WORDINGS[language].words.commands).flatMap(([command, words]) =>
    // The keys of commands; short words and phrases are not guessed at.
    words.flatMap((word) =>
      word.length >= 4 && !word.includes(" ") ? [[word, command as CommandWord] as const] : [],
    ),
  ),
);
