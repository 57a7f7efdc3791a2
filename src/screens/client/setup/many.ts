/** When a menu has more choices than a stall does well with (common practice, no source), or a bundle that saves nothing. */

import type { Fault } from "../../../model/basics/faults.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import { spelt } from "../kit/spelling.ts";

// A small menu sells faster and leaves less over: a couple of colours, the sizes that sell, a few designs.
const ENOUGH = { offers: 6, colours: 4, designs: 8, pieces: 48 } as const;

const SLOWER = "every customer reads and picks among all of them, so the line moves slower";
const SPREAD = "the same stock is spread thinner, so more sells out and more is left over";

/** Advice only: nothing here keeps a menu from being saved. */
export function tooMany(menu: Menu): readonly Fault[] {
  const offers = menu.offers.filter(({ offered }) => offered).length;
  const blanks = menu.blanks.filter(({ offered }) => offered);
  const designs = menu.designs.filter(({ offered }) => offered).length;
  const pieces = blanks.reduce(
    (sum, { colours, sizes }) =>
      sum + colours.filter(({ offered }) => offered).length * sizes.filter(({ offered }) => offered).length,
    0,
  );
  const advice: Fault[] = [];
  if (offers > ENOUGH.offers)
    advice.push({
      pointer: "#/offers",
      detail: `${offers} products: ${SLOWER}. Could the day do with ${ENOUGH.offers}?`,
    });
  menu.blanks.forEach(({ name, colours }, index) => {
    const count = colours.filter(({ offered }) => offered).length;
    if (count > ENOUGH.colours)
      advice.push({
        pointer: `#/blanks/${index}/colours`,
        detail: `${name} in ${spelt(`${count} colours`)}: ${SPREAD}.`,
      });
  });
  if (designs > ENOUGH.designs)
    advice.push({
      pointer: "#/designs",
      detail: `${designs} designs: each needs transfers of its own, and what is dated is worth nothing after the fair.`,
    });
  if (pieces > ENOUGH.pieces)
    advice.push({
      pointer: "#/blanks",
      detail: `${pieces} kinds of garment to count, pack and sort: ${SPREAD}.`,
    });
  (menu.bundles ?? []).forEach(({ name, price, takes }, index) => {
    const apart = takes.reduce((sum, { offers, quantity }) => {
      const prices = menu.offers.filter(({ id }) => offers.includes(id)).map((offer) => offer.price);
      return sum + quantity * Math.max(0, ...prices);
    }, 0);
    if (price >= apart)
      advice.push({
        pointer: `#/bundles/${index}/price`,
        detail: `${name} costs no less than its garments one by one, so no order ever gets it.`,
      });
  });
  return advice;
}
