/** Choosing a garment: offer, colour, size, quantity. Sold-out choices keep their places, and say so. Pure. */

import type { MenuView } from "../../../../model/menu/menu-view.ts";
import type { RackGarment } from "../../../../model/orders/rack.ts";
import type { SlipLine } from "../../crew/offline.ts";
import { moneyWords } from "../../crew/words/money.ts";
import type { Option } from "../../parts/choices.tsx";
import { alike } from "../rack/on-rack.ts";

/** The tapped choices; which of them still apply follows from the menu each time. */
export type Choice = {
  readonly offer: string | null;
  readonly colour: string | null;
  readonly size: string | null;
  readonly quantity: number;
  /** Wishes on it beyond the menu, and one in the customer's own words. */
  readonly wishes?: readonly string[];
  readonly note?: string;
};

export const NO_CHOICE: Choice = { offer: null, colour: null, size: null, quantity: 1 };

type Chip = { readonly id: string; readonly name: string; readonly surcharge: number };

/** The line with the wishes that were tapped, and what they cost. */
export function withWishes(
  line: SlipLine,
  chips: readonly Chip[],
  { wishes = [], note = "" }: Choice,
): SlipLine {
  const taken = chips.filter(({ id }) => wishes.includes(id));
  const words = note.trim();
  if (taken.length === 0 && words === "") return line;
  return {
    ...line,
    each: Math.max(
      0,
      taken.reduce((sum, { surcharge }) => sum + surcharge, line.each),
    ),
    name: [line.name, ...taken.map(({ name }) => name), ...(words === "" ? [] : [`“${words}”`])].join(", "),
    ...(taken.length === 0 ? {} : { wishes: taken.map(({ id }) => id) }),
    ...(words === "" ? {} : { note: words }),
  };
}

const MOST = 60;

type Offer = MenuView["offers"][number];
/** A piece with how many of it are free, and how many hang on the rack. */
type Left = Offer["left"][number] & { readonly hanging: number };

export type Pad = {
  readonly offers: readonly Option[];
  readonly colours: readonly Option[];
  readonly sizes: readonly Option[];
  /** The line to add; null while something is missing. */
  readonly line: SlipLine | null;
  /** How many of it can be pressed. */
  readonly free: number;
  /** The garments on the rack of exactly this kind. */
  readonly hanging: readonly RackGarment[];
};

export const withMore = (choice: Choice, more: number): Choice => ({
  ...choice,
  quantity: Math.min(Math.max(choice.quantity + more, 1), MOST),
});

/** The applicable choice: the tapped one if it is left, or the only one. */
function marked(options: readonly Omit<Option, "chosen">[], tapped: string | null): readonly Option[] {
  const chosen =
    options.find(({ value, gone }) => value === tapped && !gone) ??
    (options.length === 1 ? options[0] : undefined);
  return options.map((option) => ({ ...option, chosen: option === chosen && !option.gone }));
}

const chosenIn = (options: readonly Option[]): string | undefined =>
  options.find(({ chosen }) => chosen)?.value;

/** "$24.00", or "from $24.00" if some choices cost more. */
function offerPrice({ price, left }: Offer, currency: MenuView["currency"]): string {
  const prices = left.map((piece) => piece.price);
  const lowest = prices.length === 0 ? price : Math.min(...prices);
  const words = moneyWords(lowest, currency);
  return prices.some((one) => one > lowest) ? `from ${words}` : words;
}

/** The number left of each colour or size, in menu order. */
function counted(left: readonly Left[], by: "colour" | "size") {
  const found = new Map<string, { readonly piece: Left; readonly there: number }>();
  for (const piece of left)
    found.set(piece[by], {
      piece,
      there: (found.get(piece[by])?.there ?? 0) + piece.free + piece.hanging,
    });
  return [...found];
}

/** "L +$3.00 (4, 1 on the rack)": what a size costs more, how many are free, and how many are pressed already. */
function sizeWords({ sizeName, price, free, hanging }: Left, base: number, currency: MenuView["currency"]) {
  const more = price === base ? "" : ` +${moneyWords(price - base, currency)}`;
  const counts = [...(free > 0 ? [free] : []), ...(hanging > 0 ? [`${hanging} on the rack`] : [])];
  return `${sizeName}${more}${counts.length === 0 ? "" : ` (${counts.join(", ")})`}`;
}

/** The pad for a choice; `rack` are the garments for sale there. */
export function padOf(
  { offers: onMenu, currency }: MenuView,
  choice: Choice,
  rack: readonly RackGarment[] = [],
): Pad {
  const offers = onMenu.map((offer) => ({
    ...offer,
    left: offer.left.map(
      (piece): Left => ({ ...piece, hanging: alike(rack, { ...piece, offer: offer.offer }).length }),
    ),
  }));
  const whats = marked(
    offers.map((offer) => ({
      value: offer.offer,
      label: `${offer.name} ${offerPrice(offer, currency)}`,
      gone: offer.left.every(({ free, hanging }) => free + hanging === 0),
    })),
    choice.offer,
  );
  const offer = offers.find((one) => one.offer === chosenIn(whats));
  const left = offer?.left ?? [];
  const colours = marked(
    counted(left, "colour").map(([value, { piece, there }]) => ({
      value,
      label: piece.colourName,
      gone: there === 0,
    })),
    choice.colour,
  );
  const inColour = left.filter(({ colour }) => colour === chosenIn(colours));
  const sizes = marked(
    counted(inColour, "size").map(([value, { piece, there }]) => ({
      value,
      label: sizeWords(piece, offer?.price ?? piece.price, currency),
      gone: there === 0,
    })),
    choice.size,
  );
  const piece = inColour.find(({ size }) => size === chosenIn(sizes));
  const line =
    offer === undefined || piece === undefined
      ? null
      : {
          offer: offer.offer,
          colour: piece.colour,
          size: piece.size,
          quantity: choice.quantity,
          each: piece.price,
          name: `${offer.name}, ${piece.colourName}, ${piece.sizeName}`,
        };
  const hanging = line === null ? [] : alike(rack, line);
  return { offers: whats, colours, sizes, line, free: piece?.free ?? 0, hanging };
}
