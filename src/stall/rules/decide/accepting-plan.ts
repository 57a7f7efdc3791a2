/** A stall filled from an accepted plan. */
import { pointer } from "../../../model/basics/faults.ts";
import { JobId } from "../../../model/basics/ids.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { StockEntry } from "../../../model/orders/stock.ts";
import { onHand, skuKey, transferKey } from "../../state/counts.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import { FIRST_STATUS, type StallState } from "../../state/state.ts";
import { broughtItem } from "../../stock/rack.ts";
import { skusOf } from "../../stock/skus.ts";
import { accept, type Decision, type Of, refuse } from "../commands.ts";
import { setMenu } from "./setting-up.ts";
import { changeStock } from "./stocktaking.ts";

const KIND = ["offer", "colour", "size"] as const;

/**
 * Accepts a planned menu, its opening stock and its garments for the rack, all or none. Those of an earlier plan come
 * off the rack. Only before the first order: after it, counts are the crew's.
 */
export function acceptPlan(state: StallState, { menu, entries, rack, plan }: Of<"accept-plan">): Decision {
  if (state.status.nextNumber !== FIRST_STATUS.nextNumber) {
    const detail = "orders were taken already; change the menu with PUT …/menu and count with POST …/stock";
    return refuse({ code: "stock", faults: [{ pointer: pointer([]), detail }] });
  }
  const set = setMenu(state, { type: "set-menu", menu });
  if (set.refusal !== null) return set;
  const counted = changeStock(state, menu, { type: "change-stock", entries: asBrought(state, entries) });
  if (counted.refusal !== null) return counted;
  const unbrought = notOnMenu(state, menu);
  const kept: readonly StallEvent[] = plan === null ? [] : [{ type: "plan-kept", plan }];
  const earlier = [...state.rack.keys()].flatMap((key): readonly StallEvent[] =>
    state.rack.get(key)?.from === "plan" ? [{ type: "unracked", key: JobId.parse(key), as: "thrown" }] : [],
  );
  const hung = [...state.rack.values()].filter(({ from, why }) => from !== "plan" && why !== "misprint");
  const missing = rack.owned.filter((garment) => {
    const at = hung.findIndex((item) => KIND.every((part) => item[part] === garment[part]));
    if (at >= 0) hung.splice(at, 1);
    return at < 0;
  });
  const ahead = [...missing, ...rack.made].map(
    (made, at): StallEvent => ({ type: "racked", ...broughtItem(made, at, "plan") }),
  );
  return accept(...set.events, ...counted.events, ...unbrought, ...earlier, ...ahead, ...kept);
}

/** The change of a piece that was counted before to what the plan brings: nothing was found, and nothing is missing. */
const asBrought = (state: StallState, entries: readonly StockEntry[]): readonly StockEntry[] =>
  entries.flatMap((entry): StockEntry[] => {
    const before = state.counts.get("sku" in entry ? skuKey(entry.sku) : transferKey(entry.design));
    if (!("counted" in entry) || before === undefined) return [entry];
    const { counted, ...piece } = entry;
    const change = counted - onHand(before);
    if (change === 0) return [];
    return [change > 0 ? { ...piece, delivered: change } : { ...piece, corrected: change }];
  });

/** Takes the stock of what the new menu no longer has out of the counts: the plan does not bring it. */
const notOnMenu = (state: StallState, menu: Menu): readonly StallEvent[] => {
  const listed = new Set<string>([
    ...skusOf(menu).map(skuKey),
    ...menu.designs.map(({ id }) => transferKey(id)),
  ]);
  return [...state.counts.keys()].flatMap((key): StallEvent[] => {
    const piece = key as PieceKey; // the table's keys are pieces
    const pieces = onHand(state.count(piece));
    return listed.has(piece) || pieces === 0
      ? []
      : [{ type: "corrected", piece, pieces: -pieces, reason: "not in the plan" }];
  });
};
