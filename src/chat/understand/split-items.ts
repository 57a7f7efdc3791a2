/** One text, parted into the garments it speaks of. */

import type { Piece, Token } from "./interpretations.ts";
import type { Meaning } from "./lexicon.ts";

/**
 * One garment's words. Those without an offer's word may belong to the offer named before: likely, if a number among
 * them could also be an offer's; certainly, under a heading.
 */
export type Speaking = { readonly piece: Piece; readonly goesOn: "no" | "likely" | "surely" };

type Slots = {
  readonly offer: boolean;
  readonly colour: boolean;
  readonly size: boolean;
  readonly numbers: number;
};

export function slotsOf(piece: Piece): Slots {
  const has = (what: "offers" | "colours" | "sizes" | "childSizes"): boolean =>
    piece.some((said) => said.type === "name" && said.meaning[what] !== undefined);
  return {
    offer: has("offers"),
    colour: has("colours"),
    size: has("sizes") || has("childSizes"),
    numbers: piece.filter(({ type }) => type === "number").length,
  };
}

const TELLING: ReadonlySet<Token["type"]> = new Set(["name", "number", "times", "child"]);

/** Whether a piece names a garment of its own, and is not one more word about another. */
function standsAlone(piece: Piece): boolean {
  const { offer, colour, size, numbers } = slotsOf(piece);
  const counted = piece.some(({ type }) => type === "times");
  return offer || numbers > 1 || (numbers === 1 && (colour || size || counted)) || (colour && size);
}

/**
 * The garments in a text. A plus sign or an "and" separates two garments; commas and line ends do so if each side names
 * a garment of its own, otherwise they separate words of one. A garment without an offer's word belongs to the offer
 * before it: "2 longtail: navy L, sand M".
 */
export function splitItems(said: Piece): readonly Speaking[] {
  const parts = partedAt(said, ({ type }) => type === "joiner" || type === "break").map(softParts);
  if (parts.flat().length > 1 && !parts.flat().some(standsAlone)) {
    return [{ piece: parts.flat(2), goesOn: "no" }];
  }
  const garments: Speaking[] = [];
  let named = false;
  for (const part of parts) {
    const from = garments.length;
    for (const piece of part.flatMap(partedAtRepeats)) {
      const before = garments.at(-1);
      const { offer } = slotsOf(piece);
      const own = offer || (!named && standsAlone(piece)) || isLoneNumber(piece);
      if (before === undefined || own) garments.push({ piece, goesOn: "no" });
      else if (standsAlone(piece) || clash(before.piece, piece)) garments.push({ piece, goesOn: "likely" });
      else garments[garments.length - 1] = { ...before, piece: [...before.piece, ...piece] };
      named ||= offer;
    }
    garments.push(...withoutHeading(garments.splice(from)));
  }
  return garments;
}

/** The pieces between commas and line ends, if each names a garment of its own; else one piece. */
export function softParts(piece: Piece): readonly Piece[] {
  const parts = partedAt(piece, ({ type }) => type === "comma");
  return parts.length > 1 && parts.every(standsAlone)
    ? parts
    : [piece.filter(({ type }) => type !== "comma")];
}

/**
 * An offer's name alone, before its details: the first words of one garment, or the heading of several, whose number
 * then only counts them.
 */
function withoutHeading(garments: readonly Speaking[]): readonly Speaking[] {
  const [head, ...under] = garments;
  const [first] = under;
  if (head === undefined || !onlyNames(head.piece) || first?.goesOn !== "likely") return garments;
  // "2 longtail, one L": one of two, and nothing of the other.
  if (under.length === 1 && head.piece.some(isCount) && first.piece.some(isCount)) return garments;
  const several = under.filter(({ goesOn }) => goesOn !== "no").length > 1;
  const name = several ? head.piece.filter(isOffer) : head.piece;
  return under.map(({ piece, goesOn }, index): Speaking => {
    if (index === 0) return { piece: [...name, ...piece], goesOn: head.goesOn };
    return { piece, goesOn: goesOn === "likely" ? "surely" : goesOn };
  });
}

/** After a plus sign a number alone is an offer's. */
const isLoneNumber = (piece: Piece): boolean =>
  slotsOf(piece).numbers === 1 &&
  piece.every(({ type }) => type === "number" || type === "times" || type === "filler");

/** Whether a piece names an offer and nothing else but a quantity. */
function onlyNames(piece: Piece): boolean {
  const { offer, colour, size } = slotsOf(piece);
  return offer && !colour && !size;
}

/** Whether two pieces both name a colour, or both a size: then they are two garments. */
function clash(one: Piece, other: Piece): boolean {
  const [before, after] = [slotsOf(one), slotsOf(other)];
  return (before.colour && after.colour) || (before.size && after.size);
}

export function partedAt(said: Piece, parts: (one: Token) => boolean): readonly Piece[] {
  const pieces: Token[][] = [[]];
  for (const one of said) {
    if (parts(one)) pieces.push([]);
    else pieces.at(-1)?.push(one);
  }
  return pieces.filter((piece) => piece.some(({ type }) => TELLING.has(type)));
}

export const isOffer = (said: Token | undefined): said is Token & { type: "name" } =>
  said?.type === "name" && said.meaning.offers !== undefined;
const isCount = (said: Token | undefined): boolean => said?.type === "number" || said?.type === "times";

/** Splits a piece where a second offer is named that cannot be the first, or where rows follow each other. */
export function partedAtRepeats(piece: Piece): readonly Piece[] {
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
 * Where the garment named at `offer` begins: at a second colour or size that the garment before cannot also have, else
 * at the number that counts it, else at its name.
 */
function beginning(piece: Piece, from: number, offer: number): number {
  const again = repeated(piece, from, offer);
  if (again !== null) return again;
  let start = offer;
  while (start > from && !isCount(piece[start]) && !isOffer(piece[start - 1])) start -= 1;
  return isCount(piece[start]) && start > from ? start : offer;
}

/** Where a second colour or size is said that one garment cannot have too, with the number before it. */
function repeated(piece: Piece, from: number, to: number): number | null {
  let colours: Meaning["colours"];
  let sizes: Meaning["sizes"];
  for (let index = from; index < to; index++) {
    const said = piece[index];
    if (said?.type !== "name" || said.meaning.offers !== undefined) continue;
    const again =
      (colours !== undefined && apart(colours, said.meaning.colours)) ||
      (sizes !== undefined && apart(sizes, said.meaning.sizes));
    if (again) return index - 1 > from && isCount(piece[index - 1]) ? index - 1 : index;
    colours ??= said.meaning.colours;
    sizes ??= said.meaning.sizes;
  }
  return null;
}

/** Whether two words for colours, or for sizes, cannot belong to one garment. */
function apart<Id>(
  one: ReadonlyMap<string, ReadonlySet<Id>>,
  other: ReadonlyMap<string, ReadonlySet<Id>> | undefined,
): boolean {
  if (other === undefined) return false;
  return ![...one].some(([blank, ids]) => [...ids].some((id) => other.get(blank)?.has(id) ?? false));
}

/** Rows that follow each other without a mark between them: "1 navy L 2 sand M", "longtail navy L sand M". */
function rowsOf(piece: Piece): readonly Piece[] {
  const again = repeated(piece, 0, piece.length);
  if (again === null) return [piece];
  const [first, second] = [piece.slice(0, again), piece.slice(again)];
  const [one, other] = [slotsOf(first), slotsOf(second)];
  const whole = one.colour && one.size && other.colour && other.size;
  const numbered = one.numbers > 0 && other.numbers > 0 && standsAlone(first) && standsAlone(second);
  return whole || numbered ? [first, ...rowsOf(second)] : [piece];
}
