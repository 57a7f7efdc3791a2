/** What the menu offers and what of it is left. */

import type { OfferId } from "../../model/basics/ids.ts";
import type { Left } from "../../model/basics/problem.ts";
import type { Blank, Colour, Design, Menu, Offer, Size } from "../../model/menu/catalogue.ts";
import { priceOf } from "../../model/menu/prices.ts";
import type { WantedLine } from "../../model/orders/order.ts";
import type { Refusal } from "../../model/orders/refusal.ts";
import { blankOf, transferOf } from "../state/counts.ts";
import type { Line } from "../state/facts.ts";
import type { StallState } from "../state/state.ts";

/** An offer with what it is made of; the menu was checked when it was set, so the parts exist. */
export type OfferParts = { readonly offer: Offer; readonly blank: Blank; readonly design: Design };

export function choiceOf(menu: Menu, id: OfferId): OfferParts | undefined {
  const offer = menu.offers.find((candidate) => candidate.id === id);
  const blank = menu.blanks.find((candidate) => candidate.id === offer?.blank);
  const design = menu.designs.find((candidate) => candidate.id === offer?.design);
  return offer === undefined || blank === undefined || design === undefined
    ? undefined
    : { offer, blank, design };
}

/** The colours an offer comes in, as the blank lists them, those no longer offered included. */
export function coloursOf({ offer, blank }: OfferParts): readonly Colour[] {
  return blank.colours.filter(({ id }) => offer.colours?.includes(id) ?? true);
}

/** The sizes an offer comes in, as the blank lists them, those no longer offered included. */
export function sizesOf({ offer, blank }: OfferParts): readonly Size[] {
  return blank.sizes.filter(({ id }) => offer.sizes?.includes(id) ?? true);
}

const onSale = (choice: OfferParts, colour: Colour, size: Size): boolean =>
  choice.offer.offered && choice.blank.offered && choice.design.offered && colour.offered && size.offered;

/** Whether a line's garment, or a part of it, was taken off sale. */
export function offSale(menu: Menu, line: Pick<Line, "offer" | "colour" | "size">): boolean {
  const choice = choiceOf(menu, line.offer);
  const colour = choice?.blank.colours.find(({ id }) => id === line.colour);
  const size = choice?.blank.sizes.find(({ id }) => id === line.size);
  return choice === undefined || colour === undefined || size === undefined || !onSale(choice, colour, size);
}

/** Garments of an offer in a colour and size that could be promised now; 0 for what is not offered. */
export function freeOf(state: StallState, choice: OfferParts, colour: Colour, size: Size): number {
  if (!onSale(choice, colour, size)) return 0;
  const garment = { blank: choice.blank.id, colour: colour.id, size: size.id, design: choice.design.id };
  const pieces = [blankOf(garment), transferOf(garment)];
  if (pieces.some((piece) => state.desk.offMenu.includes(piece))) return 0;
  return Math.max(0, Math.min(...pieces.map((piece) => state.free(piece))));
}

/** Every colour and size of an offer that is left, with counts. */
export function leftOf(state: StallState, choice: OfferParts): readonly Left[] {
  return coloursOf(choice).flatMap((colour) =>
    sizesOf(choice).flatMap((size) => {
      const free = freeOf(state, choice, colour, size);
      return free === 0 ? [] : [{ offer: choice.offer.id, colour: colour.id, size: size.id, free }];
    }),
  );
}

/** The order line that a wish comes to at today's price, or why there is no such garment. */
export function lineFor(menu: Menu, wanted: WantedLine, index: number): Line | Refusal {
  const choice = choiceOf(menu, wanted.offer);
  if (choice === undefined) return { code: "no-such-offer", offer: wanted.offer, line: index };
  const { offer, blank, design } = choice;
  const missing = (what: "colour" | "size", given: string): Refusal => ({
    code: "no-such-choice",
    offer: offer.id,
    what,
    given,
    line: index,
  });
  if (!coloursOf(choice).some(({ id }) => id === wanted.colour)) return missing("colour", wanted.colour);
  const size = sizesOf(choice).find(({ id }) => id === wanted.size);
  if (size === undefined) return missing("size", wanted.size);
  return {
    offer: offer.id,
    blank: blank.id,
    design: design.id,
    colour: wanted.colour,
    size: wanted.size,
    quantity: wanted.quantity,
    each: priceOf(offer, size),
    platen: blank.platen,
    kind: design.kind,
  };
}
