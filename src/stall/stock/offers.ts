/** The offers of the menu, and the stock left of them. */

import type { DesignId, OfferId } from "../../model/basics/ids.ts";
import type { Left } from "../../model/basics/problem.ts";
import { ok, type Result, refused } from "../../model/basics/result.ts";
import type { Blank, Colour, Design, Menu, Offer, Size } from "../../model/menu/catalogue.ts";
import { surchargeOf } from "../../model/menu/prices.ts";
import type { GarmentWish } from "../../model/menu/wishes.ts";
import type { WantedLine } from "../../model/orders/order.ts";
import type { Refusal } from "../../model/orders/refusal.ts";
import { piecesOf } from "../state/counts.ts";
import type { Line } from "../state/shapes/line.ts";
import type { PieceKey } from "../state/shapes/piece.ts";
import type { StallState } from "../state/state.ts";

/** An offer with what it is made of; the menu was checked when it was set, so the parts exist. */
export type OfferParts = { readonly offer: Offer; readonly blank: Blank; readonly design: Design };

export function offerParts(menu: Menu, id: OfferId): OfferParts | undefined {
  const offer = menu.offers.find((candidate) => candidate.id === id);
  const blank = menu.blanks.find((candidate) => candidate.id === offer?.blank);
  const design = menu.designs.find((candidate) => candidate.id === offer?.design);
  return offer === undefined || blank === undefined || design === undefined
    ? undefined
    : { offer, blank, design };
}

/** "Longtail tee, Navy, L"; ids for what the menu has no more. */
export function garmentName(menu: Menu, { offer, blank, colour, size }: Garment): string {
  const made = menu.blanks.find(({ id }) => id === blank);
  return [
    menu.offers.find(({ id }) => id === offer)?.name ?? offer,
    made?.colours.find(({ id }) => id === colour)?.name ?? colour,
    made?.sizes.find(({ id }) => id === size)?.name ?? size,
  ].join(", ");
}
type Garment = Pick<Line, "offer" | "blank" | "colour" | "size">;

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
  const choice = offerParts(menu, line.offer);
  const colour = choice?.blank.colours.find(({ id }) => id === line.colour);
  const size = choice?.blank.sizes.find(({ id }) => id === line.size);
  return choice === undefined || colour === undefined || size === undefined || !onSale(choice, colour, size);
}

/** The number of garments of an offer in a colour and size that could be promised now; 0 if it is not offered. */
export function freeOf(state: StallState, choice: OfferParts, colour: Colour, size: Size): number {
  if (!onSale(choice, colour, size)) return 0;
  const second = secondOf(choice.offer, []);
  const pieces = piecesOf({
    blank: choice.blank.id,
    colour: colour.id,
    size: size.id,
    design: choice.design.id,
    ...(second.length === 0 ? {} : { second }),
  });
  if (pieces.some((piece) => state.status.offMenu.includes(piece))) return 0;
  const garments = (piece: PieceKey): number =>
    Math.floor(state.free(piece) / pieces.filter((other) => other === piece).length);
  return Math.max(0, Math.min(...pieces.map(garments)));
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

/** The order line of a wanted garment at today's price, or why there is no such garment. */
export function lineFor(menu: Menu, wanted: WantedLine, index: number): Result<Line, Refusal> {
  const choice = offerParts(menu, wanted.offer);
  if (choice === undefined) return refused({ code: "no-such-offer", offer: wanted.offer, line: index });
  const { offer, blank, design } = choice;
  const missing = (what: "colour" | "size" | "wish", given: string) =>
    refused({ code: "no-such-choice", offer: offer.id, what, given, line: index });
  if (!coloursOf(choice).some(({ id }) => id === wanted.colour)) return missing("colour", wanted.colour);
  const size = sizesOf(choice).find(({ id }) => id === wanted.size);
  if (size === undefined) return missing("size", wanted.size);
  const wishes: GarmentWish[] = [];
  // In the menu's order, so that the same wishes make the same garment.
  for (const wish of menu.wishes ?? []) if (wanted.wishes?.includes(wish.id) === true) wishes.push(wish);
  const unknown = wanted.wishes?.find((id) => !wishes.some((wish) => wish.id === id && wish.offered));
  if (unknown !== undefined) return missing("wish", unknown);
  return ok({
    offer: offer.id,
    blank: blank.id,
    design: design.id,
    colour: wanted.colour,
    size: wanted.size,
    quantity: wanted.quantity,
    ...eachOf(offer, size, wishes),
    platen: blank.platen,
    kind: design.kind,
    ...(wanted.rack === undefined ? wishedFor(menu, choice, wishes) : { rack: wanted.rack }),
  });
}

/** The price of one garment, and the part of it added by size and wishes. */
function eachOf(offer: Offer, size: Size, wishes: readonly GarmentWish[]): Pick<Line, "each" | "extra"> {
  const added = wishes.reduce((sum, { surcharge }) => sum + surcharge, surchargeOf(offer, size));
  const each = Math.max(0, offer.price + added);
  return each === offer.price ? { each } : { each, extra: each - offer.price };
}

/** The designs of the further transfers on a garment: the offer's own second one, then those of its wishes. */
const secondOf = (offer: Offer, wishes: readonly GarmentWish[]): readonly DesignId[] => [
  ...(offer.second === undefined ? [] : [offer.second.design]),
  ...wishes.flatMap(({ second }) => (second === undefined ? [] : [second.design ?? offer.design])),
];

/** The members that wishes and further transfers add to a line; a plain garment's row has none of them. */
function wishedFor(
  menu: Menu,
  { offer, blank }: OfferParts,
  wishes: readonly GarmentWish[],
): Pick<Line, "wishes" | "own" | "second" | "effort"> {
  const second = secondOf(offer, wishes);
  const fitting = menu.presses.filter(({ platen }) => platen === blank.platen);
  const seconds = fitting.reduce((sum, press) => sum + press.garmentSeconds, 0) / fitting.length;
  const longer = wishes.reduce((sum, wish) => sum + wish.seconds, 0) / seconds;
  // In 64ths, which sums of binary fractions are exact in.
  const effort = Math.round((1 + second.length + longer) * 64) / 64;
  return {
    ...(wishes.length === 0 ? {} : { wishes: wishes.map(({ id }) => id) }),
    ...(wishes.some(({ ownGarment }) => ownGarment) ? { own: true } : {}),
    ...(second.length === 0 ? {} : { second }),
    ...(effort === 1 ? {} : { effort }),
  };
}
