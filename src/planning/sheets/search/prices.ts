/** The price of copies of one layout: the price table, minimum copies, and copies bought only for a better price. */
import type { SheetSize } from "../../../model/planning/sheets.ts";

type Order = {
  /** Copies to order: at least those needed, more if more are cheaper. */
  readonly copies: number;
  readonly pricePerSheet: number;
  readonly price: number;
};

export type SheetPrices = {
  /** The cheapest order with at least `needed` copies of one layout; `most` copies can be had at most. */
  readonly atLeast: (needed: number) => Order;
  /** Every copy costs the same, and a single one can be ordered. */
  readonly flat: boolean;
  /** The least any copy can cost, however many are ordered. */
  readonly least: number;
  /** Exactly this many copies, if they can be ordered; null below the minimum. */
  readonly exactly: (copies: number) => Order | null;
};

export function pricesOf(size: SheetSize): SheetPrices {
  const table = size.prices;
  const known = new Map<number, Order>();

  const exactly = (copies: number): Order | null => {
    if (copies < size.minimumCopies) return null;
    let line = table[0];
    for (const next of table) if (next.copies <= copies) line = next;
    if (!line || line.copies > copies) return null;
    return { copies, pricePerSheet: line.price, price: copies * line.price };
  };

  return {
    exactly,
    flat: table.length === 1 && exactly(1) !== null,
    least: Math.min(...table.map((line) => line.price)),
    atLeast: (needed) => {
      const found = known.get(needed);
      if (found) return found;
      const starts = [needed, size.minimumCopies, ...table.map((line) => line.copies)];
      const orders = starts.flatMap((copies) => (copies >= needed ? (exactly(copies) ?? []) : []));
      const [first, ...others] = orders;
      if (!first) throw new Error("pricesOf: a checked price table has a price for every number of copies");
      const best = others.reduce(
        (a, b) => (b.price < a.price || (b.price === a.price && b.copies > a.copies) ? b : a),
        first,
      );
      known.set(needed, best);
      return best;
    },
  };
}
