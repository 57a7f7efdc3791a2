/** Edits of a menu that are more than one field: what hangs on them follows. Pure: a menu in, a menu out. */

import { USUAL_SETTINGS } from "../../../../model/menu/usual-settings.ts";
import type { OpenNeeds } from "../../../../model/orders/open-needs.ts";
import { ordersNeeding, type Part } from "../../crew/in-use.ts";
import { type Json, rowsAt, valueAt, withValue } from "../../kit/json-pointer.ts";
import { offerName } from "./adding.ts";

/**
 * The menu with a field set, and what follows from it: a kind's usual settings, an offer's name until somebody types
 * one.
 */
export function withField(menu: Json, pointer: string, value: Json | undefined): Json {
  // An empty translation is removed.
  const place = value === undefined ? pointer.replace(/\/translations\/\w+$/, "/translations") : pointer;
  const next = withValue(menu, place, value);
  const kind = /^(#\/designs\/\d+)\/kind$/.exec(pointer)?.[1];
  if (kind !== undefined && typeof value === "string" && value in USUAL_SETTINGS)
    // The keys of that record were just looked for.
    return withValue(next, `${kind}/settings`, USUAL_SETTINGS[value as keyof typeof USUAL_SETTINGS]);
  const offer = /^(#\/offers\/\d+)\/(?:blank|design)$/.exec(pointer)?.[1];
  if (offer !== undefined) {
    const named = (of: Json): string =>
      offerName(of, String(valueAt(of, `${offer}/design`)), String(valueAt(of, `${offer}/blank`)));
    const follows = valueAt(menu, `${offer}/name`) === named(menu);
    const bare = withValue(withValue(next, `${offer}/colours`, undefined), `${offer}/sizes`, undefined);
    return follows ? withValue(bare, `${offer}/name`, named(bare)) : bare;
  }
  return next;
}

/** The kind of a list's row, to find the orders that need it; null if orders cannot need it. */
function partAt(menu: Json, list: string, index: number): Part | null {
  const id = String(valueAt(menu, `${list}/${index}/id`));
  const [, outer, at, inner] = list.split("/");
  if (inner === "colours" || inner === "sizes")
    return { list: inner, blank: String(valueAt(menu, `#/blanks/${at}/id`)), id };
  return outer === "blanks" || outer === "designs" || outer === "offers" ? { list: outer, id } : null;
}

/** Removes an entry. If open orders need it, it is taken off sale instead, and those orders are named. */
export function without(menu: Json, list: string, index: number, needs: OpenNeeds) {
  const part = partAt(menu, list, index);
  const kept = part === null ? [] : ordersNeeding(needs, part);
  if (kept.length > 0) return { menu: withValue(menu, `${list}/${index}/offered`, false), kept };
  const rows = rowsAt(menu, list).filter((_, other) => other !== index);
  const isOptional = rows.length === 0 && (list === "#/wishes" || list === "#/bundles");
  const next = withValue(menu, list, isOptional ? undefined : rows);
  if (part?.list === "offers") return { menu: unbundled(next, part.id), kept: [] };
  return { menu: part !== null && "blank" in part ? unlimited(next, part) : next, kept: [] };
}

/** No bundle takes an offer that is gone. */
const unbundled = (menu: Json, offer: string): Json =>
  rowsAt(menu, "#/bundles").reduce<Json>(
    (so, bundle, index) =>
      rowsAt(bundle, "#/takes").reduce<Json>((still, take, place) => {
        const left = rowsAt(take, "#/offers").filter((id) => id !== offer);
        return withValue(still, `#/bundles/${index}/takes/${place}/offers`, left);
      }, so),
    menu,
  );

/** No offer is limited to a colour or size that is gone. */
function unlimited(menu: Json, part: Part & { readonly blank: string }): Json {
  return rowsAt(menu, "#/offers").reduce<Json>((so, offer, index) => {
    const only = valueAt(offer, `#/${part.list}`);
    if (valueAt(offer, "#/blank") !== part.blank || !Array.isArray(only)) return so;
    const left = only.filter((id) => id !== part.id);
    return withValue(so, `#/offers/${index}/${part.list}`, left.length === 0 ? undefined : left);
  }, menu);
}
