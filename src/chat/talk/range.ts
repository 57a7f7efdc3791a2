/** The choices that an offer comes in, as the menu lists them. */

import type { ColourId, OfferId, SizeId } from "../../model/basics/ids.ts";
import type { Language } from "../../model/basics/words.ts";
import type { Blank, Colour, Design, Menu, Offer, Size } from "../../model/menu/catalogue.ts";
import { priceOf } from "../../model/menu/prices.ts";

export type Range = {
  readonly offer: Offer;
  /** Its fixed number on the menu, from 1. */
  readonly number: number;
  readonly blank: Blank;
  readonly design: Design;
  /** Those no longer sold included: they keep their numbers. */
  readonly colours: readonly Colour[];
  readonly sizes: readonly Size[];
};

// A menu is set a few times a day and read at every text.
const known = new WeakMap<Menu, ReadonlyMap<OfferId, Range>>();

/** Every offer of a menu with its colours and sizes, in menu order. */
export function rangesOf(menu: Menu): ReadonlyMap<OfferId, Range> {
  const before = known.get(menu);
  if (before !== undefined) return before;
  const ranges = new Map<OfferId, Range>();
  for (const [index, offer] of menu.offers.entries()) {
    const blank = menu.blanks.find(({ id }) => id === offer.blank);
    const design = menu.designs.find(({ id }) => id === offer.design);
    if (blank === undefined || design === undefined) continue;
    ranges.set(offer.id, {
      offer,
      number: index + 1,
      blank,
      design,
      colours: blank.colours.filter(({ id }) => offer.colours?.includes(id) ?? true),
      sizes: blank.sizes.filter(({ id }) => offer.sizes?.includes(id) ?? true),
    });
  }
  known.set(menu, ranges);
  return ranges;
}

type Named = {
  readonly name: string;
  readonly translations?: Partial<Record<Language, string>> | undefined;
};

/** A name in the language asked for, else as the menu gives it. */
export const nameIn = (language: Language, named: Named): string =>
  named.translations?.[language] ?? named.name;

export const colourOf = (range: Range, id: ColourId): Colour | undefined =>
  range.colours.find((colour) => colour.id === id);

export const sizeOf = (range: Range, id: SizeId): Size | undefined =>
  range.sizes.find((size) => size.id === id);

/** The price of one garment in minor units; undefined if the menu has no such offer or size. */
export function priceIn(
  menu: Menu,
  garment: { readonly offer: OfferId; readonly size: SizeId },
): number | undefined {
  const range = rangesOf(menu).get(garment.offer);
  const size = range && sizeOf(range, garment.size);
  return range === undefined || size === undefined ? undefined : priceOf(range.offer, size);
}
