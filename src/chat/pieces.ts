/** From words to what they mean, and from one text to the garments it speaks of. */
import type { Lexicon, Meaning } from "./lexicon.ts";
import { slipsBetween, slipsForgiven } from "./slips.ts";
import type { Token } from "./tokens.ts";

/** One word, phrase or number of a text with its meaning. */
export type Said =
  | { readonly is: "number"; readonly n: number; readonly spelt: boolean }
  | { readonly is: "times"; readonly n: number; readonly before: boolean }
  | { readonly is: "name"; readonly meaning: Meaning }
  | { readonly is: "child" | "size-word" | "colour-word" | "joiner" | "comma" | "break" | "filler" }
  | { readonly is: "unknown"; readonly text: string };

export type Piece = readonly Said[];

/** What each token means: the longest phrase the menu or a language knows, else the word a slip away from it. */
export function understood(lexicon: Lexicon, tokens: readonly Token[]): Piece {
  const said: Said[] = [];
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index];
    if (token === undefined) break;
    if (token.kind === "comma" || token.kind === "break") said.push({ is: token.kind });
    else if (token.kind === "times") said.push({ is: "times", n: token.n, before: token.before });
    else {
      const phrase = phraseAt(lexicon, tokens, index);
      if (phrase !== undefined) index += phrase.words - 1;
      const next = tokens[index + 1];
      if (phrase?.meaning.role === "amount" && next?.kind === "number") {
        said.push({ is: "times", n: next.n, before: false });
        index += 1;
      } else if (phrase !== undefined) said.push(meant(phrase.meaning, phrase.text));
      else if (token.kind === "number") said.push({ is: "number", n: token.n, spelt: false });
      else said.push(guessed(lexicon, token.text));
    }
  }
  return said;
}

/** The longest known phrase that begins at a token. */
export function phraseAt(
  lexicon: Lexicon,
  tokens: readonly Token[],
  from: number,
): { readonly text: string; readonly words: number; readonly meaning: Meaning } | undefined {
  const first = wordAt(tokens, from);
  if (first === undefined) return undefined;
  const reach = lexicon.reach.get(first) ?? 1;
  let text = first;
  let found: { readonly text: string; readonly words: number; readonly meaning: Meaning } | undefined;
  for (let words = 1; words <= reach; words++) {
    const next = words === 1 ? "" : wordAt(tokens, from + words - 1);
    if (next === undefined) break;
    if (words > 1) text = `${text} ${next}`;
    const meaning = lexicon.meanings.get(text);
    if (meaning !== undefined && (words > 1 || tokens[from]?.kind === "word"))
      found = { text, words, meaning };
  }
  return found;
}

function wordAt(tokens: readonly Token[], index: number): string | undefined {
  const token = tokens[index];
  if (token?.kind === "word") return token.text;
  return token?.kind === "number" ? String(token.n) : undefined;
}

const isName = ({ offers, colours, sizes, childSizes }: Meaning): boolean =>
  (offers ?? colours ?? sizes ?? childSizes) !== undefined;

function meant(meaning: Meaning, text: string): Said {
  if (isName(meaning)) return { is: "name", meaning };
  if (meaning.role === "filler") return { is: "filler" };
  if (meaning.number !== undefined) return { is: "number", n: meaning.number, spelt: true };
  if (meaning.role === "adult" || meaning.role === "amount") return { is: "filler" };
  if (meaning.role !== undefined) return { is: meaning.role };
  return meaning.command === undefined ? { is: "unknown", text } : { is: "filler" };
}

/** The one name that a spoilt word can be, or the word itself where it is none or more than one. */
function guessed(lexicon: Lexicon, word: string): Said {
  const most = slipsForgiven(word);
  let found: Meaning | undefined;
  if (most === 0) return { is: "unknown", text: word };
  for (const name of lexicon.names) {
    if (slipsBetween(word, name, most) > most) continue;
    const meaning = lexicon.meanings.get(name);
    if (found !== undefined && meaning !== undefined && !same(found, meaning))
      return { is: "unknown", text: word };
    found = meaning;
  }
  return found === undefined ? { is: "unknown", text: word } : { is: "name", meaning: found };
}

/** Whether two words name the very same things. */
function same(one: Meaning, other: Meaning): boolean {
  const named = ({ offers, colours, sizes }: Meaning) =>
    JSON.stringify([
      [...(offers ?? [])],
      [...(colours ?? [])].map(([blank, ids]) => [blank, ...ids]),
      [...(sizes ?? [])].map(([blank, ids]) => [blank, ...ids]),
    ]);
  return one === other || named(one) === named(other);
}

type Slots = {
  readonly offer: boolean;
  readonly colour: boolean;
  readonly size: boolean;
  readonly numbers: number;
};

export function slotsOf(piece: Piece): Slots {
  const has = (what: "offers" | "colours" | "sizes" | "childSizes"): boolean =>
    piece.some((said) => said.is === "name" && said.meaning[what] !== undefined);
  return {
    offer: has("offers"),
    colour: has("colours"),
    size: has("sizes") || has("childSizes"),
    numbers: piece.filter(({ is }) => is === "number").length,
  };
}

const sayNothing = (piece: Piece): boolean =>
  piece.every(
    ({ is }) => is === "filler" || is === "unknown" || is === "joiner" || is === "comma" || is === "break",
  );

/** Whether a piece names a garment of its own, and is not just one more word about another. */
function standsAlone(piece: Piece): boolean {
  const { offer, colour, size, numbers } = slotsOf(piece);
  return offer || numbers > 1 || (numbers === 1 && (colour || size));
}

/** One garment's words; those that inherit speak of the offer named before them. */
export type Speaking = { readonly piece: Piece; readonly inherits: boolean };

/**
 * The garments a text speaks of. A plus sign or an "and" parts two garments, and so do commas and line
 * ends where each side names a garment of its own; otherwise they only part the words of one.
 */
export function garmentsIn(said: Piece): readonly Speaking[] {
  const hard = partedAt(said, ({ is }) => is === "joiner" || is === "break");
  const soft = hard.flatMap((piece) => {
    const parts = partedAt(piece, ({ is }) => is === "comma");
    return parts.length > 1 && parts.every(standsAlone) ? parts : [piece.filter(({ is }) => is !== "comma")];
  });
  if (soft.length > 1 && !soft.some(standsAlone)) return [{ piece: soft.flat(), inherits: false }];
  const garments: Speaking[] = [];
  for (const piece of soft.flatMap(partedAtRepeats)) {
    const before = garments.at(-1);
    const sameOffer = before !== undefined && namesOnly(before.piece) && !slotsOf(piece).offer;
    if (before === undefined || (standsAlone(piece) && !sameOffer)) garments.push({ piece, inherits: false });
    else if (clash(before.piece, piece)) garments.push({ piece, inherits: true });
    else garments[garments.length - 1] = { ...before, piece: [...before.piece, ...piece] };
  }
  return garments;
}

/** Whether a piece names an offer and says nothing else of it yet. */
function namesOnly(piece: Piece): boolean {
  const { offer, colour, size } = slotsOf(piece);
  return offer && !colour && !size && !piece.some(isCount);
}

/** Whether two pieces both name a colour, or both a size: then they are two garments. */
function clash(one: Piece, other: Piece): boolean {
  const [before, after] = [slotsOf(one), slotsOf(other)];
  return (before.colour && after.colour) || (before.size && after.size);
}

function partedAt(said: Piece, parts: (one: Said) => boolean): readonly Piece[] {
  const pieces: Said[][] = [[]];
  for (const one of said) {
    if (parts(one)) pieces.push([]);
    else pieces.at(-1)?.push(one);
  }
  return pieces.filter((piece) => !sayNothing(piece));
}

const isOffer = (said: Said | undefined): said is Said & { is: "name" } =>
  said?.is === "name" && said.meaning.offers !== undefined;
const isCount = (said: Said | undefined): boolean => said?.is === "number" || said?.is === "times";

/** Parts a piece where a second offer is named that cannot be the first, or where rows follow each other. */
function partedAtRepeats(piece: Piece): readonly Piece[] {
  const starts = [0];
  let offers: ReadonlySet<string> | undefined;
  for (const [index, said] of piece.entries()) {
    if (!isOffer(said) || said.meaning.offers === undefined) continue;
    const names: ReadonlySet<string> = said.meaning.offers;
    const common = offers === undefined ? names : new Set([...offers].filter((offer) => names.has(offer)));
    if (common.size > 0) {
      offers = common;
      continue;
    }
    if (said.meaning.colours !== undefined) continue;
    starts.push(beginning(piece, starts.at(-1) ?? 0, index));
    offers = names;
  }
  return starts.length > 1 ? starts.map((from, n) => piece.slice(from, starts[n + 1])) : rowsOf(piece);
}

/**
 * Where the garment begins that is named at `offer`: where a second colour or size is said that the garment
 * before cannot also have, or at the number that counts it, or else at its own name.
 */
function beginning(piece: Piece, from: number, offer: number): number {
  let colours: Meaning["colours"];
  let sizes: Meaning["sizes"];
  for (let index = from; index < offer; index++) {
    const said = piece[index];
    if (said?.is !== "name" || said.meaning.offers !== undefined) continue;
    const again =
      (colours !== undefined && apart(colours, said.meaning.colours)) ||
      (sizes !== undefined && apart(sizes, said.meaning.sizes));
    if (again) return index > from && isCount(piece[index - 1]) ? index - 1 : index;
    colours ??= said.meaning.colours;
    sizes ??= said.meaning.sizes;
  }
  let start = offer;
  while (start > from && !isCount(piece[start]) && !isOffer(piece[start - 1])) start -= 1;
  return isCount(piece[start]) && start > from ? start : offer;
}

/** Whether two words for colours, or for sizes, cannot be of one garment. */
function apart<Id>(
  one: ReadonlyMap<string, ReadonlySet<Id>>,
  other: ReadonlyMap<string, ReadonlySet<Id>> | undefined,
): boolean {
  if (other === undefined) return false;
  return ![...one].some(([blank, ids]) => [...ids].some((id) => other.get(blank)?.has(id) ?? false));
}

/** Rows that follow each other without a mark between them: "1 navy L 2 sand M". */
function rowsOf(piece: Piece): readonly Piece[] {
  const rows = piece.flatMap((said, index) => (said.is === "number" ? [index] : []));
  const parts = rows.map((from, n) => piece.slice(from, rows[n + 1]));
  const whole = parts.every((part) => slotsOf(part).colour && slotsOf(part).size);
  return rows.length > 1 && rows[0] === 0 && whole ? parts : [piece];
}
