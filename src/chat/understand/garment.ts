/** From the words about one garment to what they can mean on this menu. */

import type { BlankId, ColourId, OfferId, SizeId } from "../../model/basics/ids.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import { type Range, rangesOf } from "../talk/range.ts";
import type { Draft } from "../talk/talk.ts";

type Slot = "offer" | "colour" | "size";

/** What a text says about one garment. */
export type LineReading = {
  /** The clear parts; null for parts that are not said or not clear. */
  readonly understood: Draft;
  /** The missing parts, in the order they are asked for. */
  readonly missing: readonly Slot[];
  /** The ambiguous part, with its possible meanings. */
  readonly ambiguous:
    | { readonly about: "offer"; readonly offers: readonly OfferId[] }
    | { readonly about: "colour"; readonly colours: readonly ColourId[] }
    | { readonly about: "size"; readonly sizes: readonly SizeId[] }
    | { readonly about: "reading"; readonly drafts: readonly Draft[] }
    | null;
  /** The part that was said but that the offer lacks, or a number that no list has. */
  readonly impossible: Slot | "number" | null;
  /** How many of offer, colour and size this text states itself. */
  readonly stated: number;
};

/** Words and numbers of a garment, each with the one role it is tried in. */
export type Claims = {
  readonly offers: readonly ReadonlySet<OfferId>[];
  readonly colours: readonly ReadonlyMap<BlankId, ReadonlySet<ColourId>>[];
  readonly sizes: readonly ReadonlyMap<BlankId, ReadonlySet<SizeId>>[];
  /** A word for children was used without a size of theirs. */
  readonly child: boolean;
  /** Bare numbers: places in the lists of the open parts, in order. */
  readonly row: readonly number[];
  readonly quantity: number | null;
};

type Filled = { offer: number | null; colour: number | null; size: number | null; quantity: number | null };

/** Assigns the numbers of a row to the open parts, in the order offer, colour, size, quantity. */
function dealt(menu: Menu, claims: Claims, base: Draft): Filled | null {
  const numbers = [...claims.row];
  const offer = claims.offers.length > 0 || base.offer !== null ? null : (numbers.shift() ?? null);
  const id = offer === null ? (onlyOf(claims.offers) ?? base.offer) : menu.offers[offer - 1]?.id;
  const range = id == null ? undefined : rangesOf(menu).get(id);
  // A part with only one choice is not asked for, so no number is spent on it.
  const open = (said: boolean, choices: number | undefined): boolean => !said && choices !== 1;
  const colour = open(claims.colours.length > 0 || base.colour !== null, range?.colours.length)
    ? numbers.shift()
    : null;
  const size = open(claims.sizes.length > 0 || claims.child || base.size !== null, range?.sizes.length)
    ? numbers.shift()
    : null;
  const quantity = claims.quantity ?? numbers.shift() ?? null;
  return numbers.length > 0 ? null : { offer, colour: colour ?? null, size: size ?? null, quantity };
}

/** The intersection of two sets. */
const both = <T>(one: ReadonlySet<T>, other: ReadonlySet<T>): ReadonlySet<T> =>
  new Set([...one].filter((value) => other.has(value)));

function common<T>(sets: readonly ReadonlySet<T>[]): ReadonlySet<T> {
  return sets.slice(1).reduce((left, set) => both(left, set), sets[0] ?? new Set<T>());
}

const onlyOf = (sets: readonly ReadonlySet<OfferId>[]): OfferId | null => {
  const [only, ...others] = common(sets);
  return only === undefined || others.length > 0 ? null : only;
};

/** The choices of an offer that the claims leave; null if nothing was claimed. */
function leftOf<Id extends string>(
  { blank }: Range,
  choices: readonly { readonly id: Id }[],
  claimed: readonly ReadonlyMap<BlankId, ReadonlySet<Id>>[],
  number: number | null,
): readonly Id[] | null {
  if (number !== null) {
    const at = choices[number - 1];
    return at === undefined ? [] : [at.id];
  }
  if (claimed.length === 0) return null;
  const sets = claimed.map((map) => map.get(blank.id) ?? new Set<Id>());
  const shared = common(sets);
  // "navy or sand": two words that cannot both be are two things it could be.
  const meant = shared.size > 0 ? shared : new Set(sets.flatMap((set) => [...set]));
  return choices.filter(({ id }) => meant.has(id)).map(({ id }) => id);
}

type Fit = {
  readonly range: Range;
  readonly colours: readonly ColourId[] | null;
  readonly sizes: readonly SizeId[] | null;
};

/**
 * The result of the claims, on top of what was known. Null if they contradict each other: words of two offers, or more
 * numbers than parts.
 */
export function tried(menu: Menu, claims: Claims, base: Draft): LineReading | null {
  const ranges = rangesOf(menu);
  const filled = dealt(menu, claims, base);
  if (filled === null) return null;
  const meant = claims.offers.length > 0 ? common(claims.offers) : null;
  if (meant !== null && meant.size === 0) return null;
  const numbered = filled.offer === null ? undefined : menu.offers[filled.offer - 1];
  const given =
    numbered === undefined
      ? (meant ?? (base.offer === null ? null : new Set([base.offer])))
      : new Set([numbered.id]);

  const candidates = [...ranges.values()].filter(({ offer }) => given === null || given.has(offer.id));
  const fits = candidates.map((range): Fit => {
    const sizes = leftOf(range, range.sizes, claims.sizes, filled.size);
    return {
      range,
      colours: leftOf(range, range.colours, claims.colours, filled.colour),
      sizes: sizes ?? (claims.child ? range.sizes.filter(({ child }) => child).map(({ id }) => id) : null),
    };
  });
  const good = fits.filter(({ colours, sizes }) => colours?.length !== 0 && sizes?.length !== 0);
  const stated =
    Number(claims.offers.length > 0 || filled.offer !== null) +
    Number(claims.colours.length > 0 || filled.colour !== null) +
    Number(claims.sizes.length > 0 || claims.child || filled.size !== null);
  const left = good.length > 0 ? good : fits;
  const [first] = left;
  if (first === undefined) return null;
  if (filled.offer !== null && numbered === undefined) {
    const rest = undecided(left, first, filled, base, stated, false, good.length > 0);
    return { ...rest, impossible: "number" };
  }
  if (left.length > 1) return undecided(left, first, filled, base, stated, meant !== null, good.length > 0);
  return decided(first, filled, base, stated);
}

const single = <Id>(ids: readonly Id[] | null): Id | null => (ids?.length === 1 ? (ids[0] ?? null) : null);

/** The result if more than one offer can be meant, or none was named. */
function undecided(
  fits: readonly Fit[],
  first: Fit,
  filled: Filled,
  base: Draft,
  stated: number,
  named: boolean,
  good: boolean,
): LineReading {
  const colour = good ? (single(first.colours) ?? base.colour) : null;
  const size = good ? (single(first.sizes) ?? base.size) : null;
  return {
    understood: { offer: null, colour, size, quantity: filled.quantity ?? base.quantity },
    missing: named ? [] : ["offer"],
    ambiguous: named ? { about: "offer", offers: fits.map(({ range }) => range.offer.id) } : null,
    impossible: good ? null : first.colours?.length === 0 ? "colour" : "size",
    stated,
  };
}

/** One offer it type: its colour and size are clear, missing, or one of several. */
function decided({ range, colours, sizes }: Fit, filled: Filled, base: Draft, stated: number): LineReading {
  const known = <Id extends string>(
    meant: readonly Id[] | null,
    before: Id | null,
    all: readonly { readonly id: Id }[],
  ): Id | null => {
    if (meant !== null) return single(meant);
    if (before !== null && all.some(({ id }) => id === before)) return before;
    return all.length === 1 ? (all[0]?.id ?? null) : null;
  };
  const colour = known(colours, base.colour, range.colours);
  const size = known(sizes, base.size, range.sizes);
  const ambiguous =
    colours !== null && colours.length > 1
      ? ({ about: "colour", colours } as const)
      : sizes !== null && sizes.length > 1
        ? ({ about: "size", sizes } as const)
        : null;
  const missing: Slot[] = [];
  if (colour === null && ambiguous?.about !== "colour") missing.push("colour");
  if (size === null && ambiguous?.about !== "size") missing.push("size");
  return {
    understood: { offer: range.offer.id, colour, size, quantity: filled.quantity ?? base.quantity },
    missing,
    ambiguous,
    impossible: colours?.length === 0 ? "colour" : sizes?.length === 0 ? "size" : null,
    stated,
  };
}
