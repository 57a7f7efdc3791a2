/** The skus of a menu. */

import { type Sku, skuOf } from "../../model/basics/ids.ts";
import type { Menu } from "../../model/menu/catalogue.ts";

/** Every sku of a menu, in menu order. */
export function skusOf(menu: Menu): readonly Sku[] {
  return menu.blanks.flatMap((blank) =>
    blank.colours.flatMap((colour) => blank.sizes.map((size) => skuOf(blank.id, colour.id, size.id))),
  );
}
