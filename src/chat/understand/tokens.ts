/** A text taken apart into words, numbers and breaks, stable under case, accents, spaces and punctuation. */

export type RawToken =
  | { readonly type: "word"; readonly text: string }
  | { readonly type: "number"; readonly n: number }
  /** "x2", or "2x", which may also be a size. */
  | { readonly type: "times"; readonly n: number; readonly before: boolean }
  /** Parts the words of one garment, or two garments: a comma, a colon, the end of a line. */
  | { readonly type: "comma" }
  /** Parts two garments: a plus sign. */
  | { readonly type: "break" };

// Nobody types more than this by hand for a shirt; the rest is not read.
const MOST_TOKENS = 60;
const MOST_CHARACTERS = 400;
const MOST = 999;

const APOSTROPHES = /['’‘`´]/g;
// A price that was pasted along says nothing. An x that belongs to a size stays with its word: "2 x large", "x-large".
const PATTERN =
  /(?<money>[$£€] ?\d+(?:[.,]\d+)?)|(?<sized>[2-9]xl)(?![\p{L}\d])|(?<before>\d+) ?x(?![\p{L}\d])(?! ?-? ?(?:large|lg|lrg|small|sm)(?!\p{L}))|(?<![\p{L}\d])x ?(?<after>\d+)|(?<number>\d+)|(?<word>\p{L}+)|(?<comma>[,;:\n])|(?<break>[+&])/gu;
/** Brought to one, so that no pattern has to run over them again and again. */
const SPACES = /[^\S\n]+/g;
const SIZE_TIMES = /(?<![\p{L}\d])((?:\d?x*)[sl]|m)x(\d)/gu;

/** Small letters without accents or apostrophes: what words are compared in. */
export const plain = (text: string): string =>
  text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(APOSTROPHES, "");

/** The words of a name, as a text would have them. */
export const wordsOf = (name: string): readonly string[] =>
  tokens(name).flatMap((token) =>
    token.type === "word" ? [token.text] : token.type === "number" ? [String(token.n)] : [],
  );

/** The parts of a text, in order; anything that is neither letter nor digit only separates them. */
export function tokens(text: string): readonly RawToken[] {
  const found: RawToken[] = [];
  const spaced = plain(text.slice(0, MOST_CHARACTERS)).trim().replace(SPACES, " ");
  const readable = spaced.replace(SIZE_TIMES, "$1 x$2");
  for (const { groups } of readable.matchAll(PATTERN)) {
    if (groups === undefined || found.length >= MOST_TOKENS) break;
    const { money, sized, before, after, number: digits, word, comma } = groups;
    if (money !== undefined) continue;
    if (sized !== undefined) found.push({ type: "word", text: sized });
    else if (before !== undefined) found.push(counted(before, true));
    else if (after !== undefined) found.push(counted(after, false));
    else if (digits !== undefined) found.push(number(digits));
    else if (word !== undefined) found.push({ type: "word", text: word });
    else found.push({ type: comma === undefined ? "break" : "comma" });
  }
  return found;
}

function number(digits: string): RawToken {
  const n = Number(digits);
  return n <= MOST ? { type: "number", n } : { type: "word", text: digits };
}

function counted(digits: string, before: boolean): RawToken {
  const n = Number(digits);
  return n <= MOST ? { type: "times", n, before } : { type: "word", text: digits };
}
