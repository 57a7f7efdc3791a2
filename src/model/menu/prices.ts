/** The price of a garment: an offer's price, and what its size costs on top. In minor units. */
import type { Blank, Offer, Size } from "./catalogue.ts";

/** The surcharge of a size: the offer's own, else the blank's, else nothing. */
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
