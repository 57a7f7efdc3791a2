/** A total followed by its parts: "two navy longtail tees, one small one large". */

import type { Piece, Token } from "./interpretations.ts";
import {
  isOffer,
  partedAt,
  partedAtRepeats,
  type Speaking,
  slotsOf,
  softParts,
  splitItems,
} from "./split-items.ts";

type Counted = { readonly count: number | null; readonly words: Piece };
/** One of the parts, and whether it names the head's garment again. */
type Told = Counted & { readonly again: boolean };

/** The garments a text speaks of, with a total shared out among those that follow it. */
export function sharedQuantity(said: Piece): readonly Speaking[] {
  const all = sharedOut(said);
  if (all !== null) return all;
  // "A longtail navy L and two caps, one navy one black": the total may come after other garments.
  for (const [index, one] of said.entries()) {
    const later = partsGarments(one) ? sharedOut(said.slice(index + 1)) : null;
    if (later !== null) return [...splitItems(said.slice(0, index)), ...later];
  }
  return splitItems(said);
}

/**
 * The garments under a total; null if no parts follow. If their numbers do not add up to the total, or the first number
 * could count only the first part, the result is one ambiguous garment, which is asked about.
 */
function sharedOut(said: Piece): readonly Speaking[] | null {
  const { head, marked, rest } = headed(said);
  const total = countedIn(head);
  const offers = offersOf(head);
  if (total?.count == null || total.count < 2 || offers === null || offers.size === 0) return null;
  const foreign = rest.findIndex((one) => isOffer(one) && !meets(one, offers));
  const end = foreign < 0 ? rest.length : rest.slice(0, foreign).findLastIndex(partsGarments);
  const [own, others] = [rest.slice(0, Math.max(end, 0)), rest.slice(Math.max(end, 0))];
  const told = toldApart(own, total.words);
  if (told === null) return null;
  const sum = told.reduce((all, { count }) => all + (count ?? 1), 0);
  // "3 otter shirts navy L, 2 otter shirts sand M": the first number may count the first garment only.
  const [first, ...later] = told;
  const open = first?.count === null && later.some(({ count, again }) => count !== null || again);
  if (open && later.some(({ count, again }) => count !== null && again)) return null;
  const sure = told.every(({ count }) => count !== null) || (marked && !open);
  if (!sure && sum !== total.count) return null;
  const garments =
    sure && sum === total.count
      ? told.map(({ count, words }) => [times(count ?? 1), ...total.words, ...words])
      : [[times(total.count), ...total.words, ...told.flatMap(({ words }) => words)]];
  return [
    ...garments.map((piece): Speaking => ({ piece, goesOn: "no" })),
    ...(others.length > 0 ? sharedQuantity(others) : []),
  ];
}

const times = (n: number): Token => ({ type: "times", n, before: false });
const partsGarments = ({ type }: Token): boolean => type === "comma" || type === "joiner" || type === "break";

/** The head of a text: up to the first comma or colon after an offer's word, or else to the end of its name. */
function headed(said: Piece): { readonly head: Piece; readonly marked: boolean; readonly rest: Piece } {
  const first = said.findIndex(isOffer);
  if (first < 0) return { head: [], marked: false, rest: said };
  const mark = said.findIndex((one, index) => index > first && partsGarments(one));
  let end = first + 1;
  while (isOffer(said[end])) end += 1;
  const from = said.slice(0, first).findLastIndex(partsGarments) + 1;
  const marked = said[mark]?.type === "comma" && !said.slice(end, mark).some(isCounting);
  const to = marked ? mark : end;
  // Words before the head must be small talk: "hi, two caps".
  const alone = !said
    .slice(0, from)
    .some(({ type }) => type === "name" || type === "number" || type === "times");
  return { head: alone ? said.slice(from, to) : [], marked, rest: said.slice(to) };
}

const isCounting = (one: Token): boolean =>
  one.type === "number" || one.type === "times" || (one.type === "filler" && one.one === true);

/** A piece's words and the one number that counts it; null if there are more numbers. */
function countedIn(piece: Piece): Counted | null {
  const counts = piece.flatMap((one) => (one.type === "number" || one.type === "times" ? [one.n] : []));
  const [count] = counts;
  if (counts.length > 1) return null;
  // "Dos longtail 3": a number behind the name may be a colour's.
  const at = piece.findIndex(({ type }) => type === "number");
  if (at > Math.max(0, piece.findIndex(isOffer)) && piece.some(isOffer)) return null;
  const one = piece.some((word) => word.type === "filler" && word.one === true);
  return {
    count: count ?? (one ? 1 : null),
    words: piece.filter(({ type }) => type !== "number" && type !== "times"),
  };
}

/** The offers that all of a piece's words can mean; null if it names none. */
function offersOf(piece: Piece): ReadonlySet<string> | null {
  const named = piece.filter(isOffer);
  const [first] = named;
  if (first?.meaning.offers === undefined) return null;
  return new Set<string>(
    [...first.meaning.offers].filter((id) => named.every((one) => meets(one, new Set([id])))),
  );
}

const meets = (one: Token & { type: "name" }, offers: ReadonlySet<string>): boolean =>
  [...(one.meaning.offers ?? [])].some((offer) => offers.has(offer));

/** Whether a piece names an offer no more narrowly than the head did. */
function namesAgain(piece: Piece, head: Piece): boolean {
  const offers = offersOf(piece);
  return offers !== null && [...(offersOf(head) ?? [])].every((offer) => offers.has(offer));
}

/** Two or more garments that each add something to the head; null if something else follows. */
function toldApart(rest: Piece, head: Piece): readonly Told[] | null {
  const pieces = partedAt(rest, ({ type }) => type === "joiner" || type === "break")
    .flatMap(softParts)
    .flatMap(partedAtRepeats);
  const told = pieces.flatMap((piece): readonly Told[] => {
    const counted = countedIn(piece);
    return counted === null ? [] : [{ ...counted, again: namesAgain(counted.words, head) }];
  });
  if (pieces.length < 2 || told.length < pieces.length) return null;
  const before = slotsOf(head);
  for (const { words } of told) {
    const { offer, colour, size } = slotsOf(words);
    if (!(offer || colour || size) || (colour && before.colour) || (size && before.size)) return null;
  }
  return withLastWords(told);
}

/** "2 L 1 M navy longtail": what only the last says, an offer or a colour or a size, is said of all. */
function withLastWords(told: readonly Told[]): readonly Told[] {
  const last = told.at(-1)?.words ?? [];
  const others = told.slice(0, -1).map(({ words }) => slotsOf(words));
  const shared = last.filter((one) => {
    const { offer, colour, size } = slotsOf([one]);
    const lacking = (slot: "offer" | "colour" | "size") => others.every((other) => !other[slot]);
    return (offer && lacking("offer")) || (colour && lacking("colour")) || (size && lacking("size"));
  });
  return told.map((one) => (one === told.at(-1) ? one : { ...one, words: [...one.words, ...shared] }));
}
