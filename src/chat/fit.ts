/** Making a reply fit: shorter wordings of it until it takes one message, two at the very most. */
import { inTextAlphabet, septetsOf } from "./alphabet.ts";
import { segments } from "./segments.ts";

/**
 * How short a sentence must be, in the order in which things are dispensed with:
 * 1 greetings and courtesies go; 2 hints go; 3 names are cut to 14 characters; 4 prices in lists go and
 * names are cut to 9; 5 names are cut to 6 and long orders end with how many more lines there are.
 */
export type Brevity = 0 | 1 | 2 | 3 | 4 | 5;
export const BREVITIES: readonly Brevity[] = [0, 1, 2, 3, 4, 5];

/** A sentence that can be said at more than one length. */
export type Say = (brevity: Brevity) => string;

/** The reply as it is sent in a text: in the default alphabet, at the fullest length that fits. */
export function fitted(say: Say): string {
  let two: string | undefined;
  for (const brevity of BREVITIES) {
    const text = inTextAlphabet(say(brevity));
    const { parts } = segments(text);
    if (parts === 1) return text;
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

export const roomForName = (brevity: Brevity): number => ROOM_FOR_NAME[brevity] ?? 6;

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
    // What they all begin with tells nothing, so the word that tells them apart is kept.
    const words = full.split(" ");
    const like = names.filter((_, other) => other !== index && short[other] === name);
    const telling = words.findIndex((word, at) => like.some((other) => other.split(" ")[at] !== word));
    return cut(words.slice(Math.max(telling, 0)).join(" "), most);
  });
}
