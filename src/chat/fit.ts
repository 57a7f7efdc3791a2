/** Making a reply fit: shorter wordings of it until it takes one message, two at the very most. */
import { inTextAlphabet, septetsOf } from "./alphabet.ts";
import { segments } from "./segments.ts";

/**
 * How short a sentence must be, in the order in which things are dispensed with:
 * 1 greetings and courtesies go; 2 hints go and names are cut to 14 characters; 3 prices in lists go and
 * names are cut to 9; 4 long lists end with how many more there are.
 */
export type Brevity = 0 | 1 | 2 | 3 | 4;
export const BREVITIES: readonly Brevity[] = [0, 1, 2, 3, 4];

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
  return two ?? clipped(inTextAlphabet(say(4)));
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

/** A name cut to so many characters, at a space where that keeps most of it. */
export function cut(name: string, most: number): string {
  if (name.length <= most) return name;
  const characters = [...name].slice(0, most).join("");
  const space = characters.lastIndexOf(" ");
  return space > most / 2 ? characters.slice(0, space) : characters.trimEnd();
}

/** A name as long as the brevity allows. */
export const named = (name: string, brevity: Brevity): string =>
  brevity < 2 ? name : cut(name, brevity < 3 ? 14 : 9);
