/** The default alphabet of text messages, and how to write other letters in it. */

/**
 * The 127 characters of the GSM 7 bit default alphabet (3GPP TS 23.038, clause 6.2.1), in code order
 * without the escape. Note capital C with cedilla: the small one is not in it.
 */
const DEFAULT_ALPHABET =
  "@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà";

/** The extension table (clause 6.2.1.1): each of these is sent as an escape and a second septet. */
const EXTENSION = "\f^{}\\[~]|€";

const SEPTETS: ReadonlyMap<string, 1 | 2> = new Map([
  ...[...DEFAULT_ALPHABET].map((character) => [character, 1] as const),
  ...[...EXTENSION].map((character) => [character, 2] as const),
]);

/** The septets of a character; undefined if the alphabet lacks it. */
export const septetsOf = (character: string): 1 | 2 | undefined => SEPTETS.get(character);

/** Replacements for letters and marks that the alphabet lacks and that do not decompose into ones it has. */
const STAND_INS: ReadonlyMap<string, string> = new Map([
  ["‘", "'"],
  ["’", "'"],
  ["‚", ","],
  ["‛", "'"],
  ["“", '"'],
  ["”", '"'],
  ["„", '"'],
  ["«", '"'],
  ["»", '"'],
  ["‹", "'"],
  ["›", "'"],
  ["`", "'"],
  ["´", "'"],
  ["–", "-"],
  ["—", "-"],
  ["‐", "-"],
  ["‑", "-"],
  ["−", "-"],
  ["•", "-"],
  ["·", "."],
  ["…", "..."],
  ["×", "x"],
  ["÷", "/"],
  ["ç", "c"],
  ["ł", "l"],
  ["Ł", "L"],
  ["đ", "d"],
  ["Đ", "D"],
  ["œ", "oe"],
  ["Œ", "OE"],
  ["ı", "i"],
  ["ð", "d"],
  ["þ", "th"],
  ["º", "o"],
  ["ª", "a"],
  ["™", "TM"],
  ["©", "(c)"],
  ["®", "(R)"],
  ["°", " deg"],
  ["\t", " "],
]);

const MARKS = /\p{M}/gu;
const UNSEEN = /[\p{Cf}\p{Cc}\p{M}]/u;

/**
 * The text in the default alphabet. Letters lose only marks that the alphabet lacks (á becomes a, ñ stays). A run of
 * other characters becomes one "?"; invisible characters are removed.
 */
export function inTextAlphabet(text: string): string {
  let written = "";
  let lost = false;
  for (const character of text.normalize("NFC")) {
    const letters = lettersFor(character);
    if (letters === null) {
      if (!lost) written += "?";
      lost = true;
      continue;
    }
    if (letters !== "") lost = false;
    written += letters;
  }
  return written;
}

function lettersFor(character: string): string | null {
  if (septetsOf(character) !== undefined) return character;
  const standIn = STAND_INS.get(character);
  if (standIn !== undefined) return standIn;
  if (/\p{Zs}/u.test(character)) return " ";
  if (UNSEEN.test(character)) return "";
  const bare = character.normalize("NFKD").replace(MARKS, "");
  if (bare !== "" && bare !== character && [...bare].every((part) => septetsOf(part) !== undefined))
    return bare;
  return null;
}

/** The characters of a text that its letters in the default alphabet do not have, each once. */
export function outsideTextAlphabet(text: string): readonly string[] {
  return [...new Set([...text.normalize("NFC")].filter((character) => septetsOf(character) === undefined))];
}
