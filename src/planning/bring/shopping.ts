import type { PlanBring } from "../../model/planning/plan-answer.ts";
import type { Prepared } from "../request/prepared.ts";

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
  for (const { offer, colour, size, bring: pieces } of bring.ready) {
    const made = prepared.offers.find(({ id }) => id === offer);
    const blank = prepared.blanks[made?.blank ?? -1];
    const design = prepared.request.designs[made?.design ?? -1];
    const tries = pieces * (design === undefined ? 1 : 1 + prepared.spoilage);
    if (blank !== undefined) add(`${blank.id}.${colour}.${size}`, tries);
    if (design !== undefined) add(design.id, tries);
  }
  return prepared.stocks.flatMap(({ id, kind, owned, pack, cost }) => {
    // A hair off, so that a sum of exact pieces is not rounded up by floating point.
    const need = Math.ceil((needed.get(id) ?? 0) - 1e-9);
    const buy = Math.ceil(Math.max(0, need - owned) / pack) * pack;
    return need === 0 ? [] : [{ item: id, kind, need, owned, buy, cost: Math.round(buy * cost) }];
  });
}
