import type { PlanBring } from "../../model/planning/plan-answer.ts";
import type { Prepared } from "../request/prepared.ts";
import { priceOfAll } from "../request/price.ts";
import type { Brought } from "./bring.ts";

/** By place among the stocks: pieces that the plan needs, brought as they are or in garments decorated beforehand. */
function neededOf({ stocks }: Prepared, pressed: boolean, { shop, best }: Brought): Float64Array {
  const needed = new Float64Array(stocks.length);
  shop.goods.forEach(({ made, owned }, at) => {
    const count = best.stock[at] ?? 0;
    if (made === undefined && pressed) needed[at] = (needed[at] ?? 0) + count;
    const more = Math.max(0, count - owned);
    for (const part of made?.parts ?? []) needed[part.at] = (needed[part.at] ?? 0) + more * part.pieces;
  });
  return needed;
}

/** By place among the stocks: pieces to buy, in whole packs. */
export function boughtOf(prepared: Prepared, pressed: boolean, brought: Brought): number[] {
  const needed = neededOf(prepared, pressed, brought);
  return prepared.stocks.map((stock, at) => toBuy(stock, needed[at] ?? 0));
}

/** Pieces to buy so that there are at least `needed`, in whole packs. Spares for spoils make `needed` a fraction. */
function toBuy({ owned, pack }: Prepared["stocks"][number], needed: number): number {
  // A hair off, so that a sum of exact pieces is not rounded up by floating point.
  return Math.ceil(Math.max(0, Math.ceil(needed - 1e-9) - owned) / pack) * pack;
}

/**
 * Every blank and transfer the plan needs, brought as it is or decorated beforehand (with spares for spoils), less what
 * is owned, in whole packs.
 */
export function shoppingList(
  prepared: Prepared,
  bring: Pick<PlanBring, "skus" | "transfers" | "ready">,
): PlanBring["shopping"] {
  const needed = new Map<string, number>();
  const add = (id: string, pieces: number) => needed.set(id, (needed.get(id) ?? 0) + pieces);
  for (const { sku, bring: pieces } of bring.skus) add(sku, pieces);
  for (const { design, bring: pieces } of bring.transfers) add(design, pieces);
  for (const { offer, colour, size, buy: pieces } of bring.ready) {
    const made = prepared.offers.find(({ id }) => id === offer);
    const blank = prepared.blanks[made?.blank ?? -1];
    const design = prepared.request.designs[made?.design ?? -1];
    const tries = pieces * (design === undefined ? 1 : 1 + prepared.spoilage);
    if (blank !== undefined) add(`${blank.id}.${colour}.${size}`, tries);
    if (design !== undefined) add(design.id, tries);
  }
  return prepared.stocks.flatMap((stock) => {
    const { id, kind, owned } = stock;
    const need = Math.ceil((needed.get(id) ?? 0) - 1e-9);
    const buy = toBuy(stock, need);
    return need === 0 ? [] : [{ item: id, kind, need, owned, buy, cost: Math.round(priceOfAll(stock, buy)) }];
  });
}
