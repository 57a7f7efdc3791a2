/** Making a reply fit: shorter wordings of it until it takes one message, two at the very most. */
import type { Menu } from "../../model/menu/catalogue.ts";
import { inTextAlphabet, septetsOf } from "./alphabet.ts";
import { segments } from "./segments.ts";

/**
 * How short a sentence must be, in the order in which things are dispensed with:
 * 1 greetings and courtesies go; 2 hints go; 3 names are cut to 14 characters; 4 prices in lists go and
 * names are cut to 9; 5 names are cut to 6 and long orders end with how many more lines there are.
 */
export type Brevity = 0 | 1 | 2 | 3 | 4 | 5;
const BREVITIES: readonly Brevity[] = [0, 1, 2, 3, 4, 5];

/** Choices that one text lists; those above go to a further page. */
export const PAGE = 9;

/** A sentence that can be said at more than one length. */
export type Say = (brevity: Brevity) => string;

/** The shortest a reply to a larger menu is made for the sake of one message: whole names are worth a second. */
const LONG_ENOUGH: Brevity = 3;
const SMALL = { offers: 6, letters: 14 } as const;

/** Whether every reply about a menu goes into one message: few offers, with short names. */
export function isSmall({ offers }: Pick<Menu, "offers">): boolean {
  return (
    offers.length <= SMALL.offers &&
    offers.every(({ name, translations }) =>
      [name, ...Object.values(translations ?? {})].every((text) => [...text].length <= SMALL.letters),
    )
  );
}

/**
 * The reply as it is sent in a text: in the default alphabet, at the fullest length that takes one message;
 * else two. For a small menu one is reached at any price, for others not by cutting names short.
 */
export function fitted(say: Say, small: boolean): string {
  let two: string | undefined;
  for (const brevity of BREVITIES) {
    const text = inTextAlphabet(say(brevity));
    const { parts } = segments(text);
    if (parts === 1 && (small || brevity <= LONG_ENOUGH || two === undefined)) return text;
    if (parts === 2) two ??= text;
  }
  return two ?? clipped(inTextAlphabet(say(5)));
}

/** Two messages' worth of a text that no wording makes short enough. */
function clipped(text: string): string {
  const room = 2 * 153 - 4;
  let used = 0;
  let kept = "";
  for (const character of text) {
    used += septetsOf(character) ?? 1;
    if (used > room) break;
    kept += character;
  }
  return `${kept}...`;
}

/** The most characters of a name at each brevity. */
const ROOM_FOR_NAME: readonly number[] = [40, 40, 40, 14, 9, 6];

const roomForName = (brevity: Brevity): number => ROOM_FOR_NAME[brevity] ?? 6;

/** A name cut to so many characters, at a space where that costs little. */
export function cut(name: string, most: number): string {
  const characters = [...name];
  if (characters.length <= most) return name;
  const kept = characters.slice(0, most).join("");
  const space = kept.lastIndexOf(" ");
  return space >= most - 3 ? kept.slice(0, space) : kept.trimEnd();
}

/** A name as long as the brevity allows. */
export const named = (name: string, brevity: Brevity): string => cut(name, roomForName(brevity));

/** The names of one list as long as the brevity allows, cut so that they stay apart. */
export function namedApart(names: readonly string[], brevity: Brevity): readonly string[] {
  const most = roomForName(brevity);
  const short = names.map((name) => cut(name, most));
  return short.map((name, index) => {
    const full = names[index] ?? name;
    if (name === full || short.filter((other) => other === name).length === 1) return name;
    // What they all begin with tells little, so the word that tells them apart is kept whole.
    const words = full.split(" ");
    const like = names.filter((_, other) => other !== index && short[other] === name);
    const from = Math.max(
      words.findIndex((word, at) => like.some((other) => other.split(" ")[at] !== word)),
      0,
    );
    const telling = cut(words.slice(from).join(" "), most);
    const room = most - telling.length - 1;
    return room < LEAST_BEGINNING || from === 0 ? telling : `${cut(full, room)} ${telling}`;
  });
}

// Fewer letters of a name's beginning say nothing.
const LEAST_BEGINNING = 4;
