/** The price of a garment: an offer's price, and what its size costs on top. In minor units. */
import type { Blank, Offer, Size } from "./catalogue.ts";

/** What a size costs on top of the offer's price: as the offer says, else as the blank's size does, else nothing. */
export const surchargeOf = (offer: Pick<Offer, "surcharges">, size: Pick<Size, "id" | "surcharge">): number =>
  offer.surcharges?.[size.id] ?? size.surcharge ?? 0;

/** The price of one garment of an offer in a size. */
export const priceOf = (
  offer: Pick<Offer, "price" | "surcharges">,
  size: Pick<Size, "id" | "surcharge">,
): number => offer.price + surchargeOf(offer, size);

/** The lowest price of an offer among the sizes on sale, and whether another size costs more. */
export function lowestPrice(
  offer: Pick<Offer, "price" | "surcharges" | "sizes">,
  { sizes }: Pick<Blank, "sizes">,
): { readonly lowest: number; readonly varies: boolean } {
  const prices = sizes
    .filter(({ id, offered }) => offered && (offer.sizes?.includes(id) ?? true))
    .map((size) => priceOf(offer, size));
  const lowest = prices.length === 0 ? offer.price : Math.min(...prices);
  return { lowest, varies: prices.some((price) => price > lowest) };
}
