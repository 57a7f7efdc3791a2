/** The stock as the crew sees it: counts by piece, and what hangs on the rack. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { StockView } from "../../../model/orders/stock.ts";
import { onHand, skuKey, transferKey } from "../../state/counts.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { StallState } from "../../state/state.ts";
import { skusOf } from "../../stock/skus.ts";
import { rackGarments } from "./rack-view.ts";

/** Returns every piece of the menu with its counts, and the garments on the rack if there are any. */
export function stockView(state: StallState, menu: Menu): StockView {
  const counts = (piece: PieceKey) => ({
    onHand: onHand(state.count(piece)),
    promised: state.orderIndex.promises.of(piece),
    free: state.free(piece),
  });
  const rack = rackGarments(state, menu);
  return {
    skus: skusOf(menu).map((sku) => ({ sku, ...counts(skuKey(sku)) })),
    transfers: menu.designs.map(({ id }) => ({ design: id, ...counts(transferKey(id)) })),
    ...(rack.length === 0 ? {} : { rack }),
  };
}
