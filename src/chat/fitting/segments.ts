/** The number of segments that a text takes, by 3GPP TS 23.038 and TS 23.040. */
import { septetsOf } from "./alphabet.ts";

export type Segments = {
  readonly alphabet: "GSM-7" | "UCS-2";
  /** Septets in the default alphabet, an extension character counting 2; UTF-16 units in UCS-2. */
  readonly units: number;
  /** Messages it is sent as; an empty text is still one. */
  readonly parts: number;
};

// 140 octets of user data; a concatenated message gives 6 of them to its header (TS 23.040, 9.2.3.24.1).
const ROOM = { "GSM-7": { alone: 160, part: 153 }, "UCS-2": { alone: 70, part: 67 } } as const;

/**
 * The alphabet, units and parts of a text. A character is never split between parts: neither an escape
 * and its septet, nor a surrogate pair (TS 23.040, 9.2.3.24.1).
 */
export function segments(text: string): Segments {
  const septets = inSeptets(text);
  const alphabet = septets === null ? "UCS-2" : "GSM-7";
  const widths = septets ?? Array.from(text, (character) => character.length);
  const units = widths.reduce((sum, width) => sum + width, 0);
  const { alone, part } = ROOM[alphabet];
  if (units <= alone) return { alphabet, units, parts: 1 };
  let parts = 1;
  let used = 0;
  for (const width of widths) {
    if (used + width > part) {
      parts += 1;
      used = 0;
    }
    used += width;
  }
  return { alphabet, units, parts };
}

/** The septets of each character, or null if one is not in the default alphabet. */
function inSeptets(text: string): readonly number[] | null {
  const widths: number[] = [];
  for (const character of text) {
    const septets = septetsOf(character);
    if (septets === undefined) return null;
    widths.push(septets);
  }
  return widths;
}
