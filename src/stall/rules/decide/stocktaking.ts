/** Counting, delivering and putting right the stock. */

import type { Fault } from "../../../model/basics/faults.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { StockEntry } from "../../../model/orders/stock.ts";
import { onHand, skuKey, transferKey } from "../../state/counts.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { StallState } from "../../state/state.ts";
import { onPresses } from "../../stock/on-presses.ts";
import { skusOf } from "../../stock/skus.ts";
import { accept, type Decision, type Of, refuse } from "../commands.ts";

function eventOf(entry: StockEntry, piece: PieceKey): StallEvent {
  const reason = entry.reason === undefined ? {} : { reason: entry.reason };
  if ("counted" in entry) return { type: "counted", piece, onHand: entry.counted, ...reason };
  if ("delivered" in entry) return { type: "delivered", piece, pieces: entry.delivered, ...reason };
  return { type: "corrected", piece, pieces: entry.corrected, ...reason };
}

/** Takes a piece off the menu or puts it back; earlier promises of it stay. */
export function setOffMenu(state: StallState, menu: Menu, { piece, off }: Of<"set-off-menu">): Decision {
  const pieces: readonly PieceKey[] = [
    ...skusOf(menu).map(skuKey),
    ...menu.designs.map(({ id }) => transferKey(id)),
  ];
  if (!pieces.includes(piece)) {
    const detail = `the menu has no ${piece.replace(":", " ")}; add it there or mend the name`;
    return refuse({ code: "stock", faults: [{ pointer: "#", detail }] });
  }
  if (state.status.offMenu.includes(piece) === off) return accept();
  return accept({ type: "off-menu-set", piece, off });
}

/** Applies a whole stock sheet, or none of it with every fault named. */
export function changeStock(state: StallState, menu: Menu, { entries }: Of<"change-stock">): Decision {
  const skus = new Set<string>(skusOf(menu));
  const designs = new Set<string>(menu.designs.map(({ id }) => id));
  const pressing = onPresses(state);
  const after = new Map<PieceKey, number>();
  const faults: Fault[] = [];
  const events = entries.map((entry, index): StallEvent => {
    const known = "sku" in entry ? skus.has(entry.sku) : designs.has(entry.design);
    const piece = "sku" in entry ? skuKey(entry.sku) : transferKey(entry.design);
    const at = `#/entries/${index}`;
    if (!known) {
      faults.push({
        pointer: at,
        detail: `the menu has no ${piece.replace(":", " ")}; add it there or mend the name`,
      });
    }
    const before = after.get(piece) ?? onHand(state.count(piece));
    const change =
      "counted" in entry ? entry.counted - before : "delivered" in entry ? entry.delivered : entry.corrected;
    const least = pressing.get(piece) ?? 0;
    if (before + change < least) {
      faults.push({
        pointer: at,
        detail:
          least > 0
            ? `${piece.replace(":", " ")}: ${least} lie on a press and are not pressed yet; count those too`
            : `${piece.replace(":", " ")}: only ${before} are there to take away from`,
      });
    }
    after.set(piece, before + change);
    return eventOf(entry, piece);
  });
  return faults.length > 0 ? refuse({ code: "stock", faults }) : accept(...events);
}
