/** A stall with the rules every stall begins with, and as many of each piece. */
import type { Random } from "../../../src/maths/random.ts";
import { skuOf } from "../../../src/model/basics/ids.ts";
import type { Menu } from "../../../src/model/menu/catalogue.ts";
import { Rules } from "../../../src/model/menu/rules.ts";
import type { WantedLine } from "../../../src/model/orders/order.ts";
import type { StockEntry } from "../../../src/model/orders/stock.ts";
import { exampleMenu } from "../../stall/test-stall.ts";

export const PIECES = 200;

export const defaultMenu = (): Menu => ({ ...exampleMenu(), rules: Rules.parse({}) });

/** So many of every blank and every transfer. */
export const piecesCounted = (menu: Menu): readonly StockEntry[] => [
  ...menu.blanks.flatMap(({ id, colours, sizes }) =>
    colours.flatMap((colour) =>
      sizes.map((size) => ({ sku: skuOf(id, colour.id, size.id), counted: PIECES })),
    ),
  ),
  ...menu.designs.map(({ id }) => ({ design: id, counted: PIECES })),
];

/** A line of something that is on the menu. */
export function anyGarment(menu: Menu, random: Random, quantity: number): WantedLine {
  const offer = random.pick(menu.offers);
  const blank = menu.blanks.find(({ id }) => id === offer.blank);
  if (blank === undefined) throw new Error(`no blank for ${offer.id}`);
  const colour = random.pick(offer.colours ?? blank.colours.map(({ id }) => id));
  return { offer: offer.id, colour, size: random.pick(blank.sizes).id, quantity };
}
