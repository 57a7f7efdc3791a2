/** The steps a day still needs before it is closed. */
import type { Closeout } from "../../../model/accounts/closeout.ts";

const inUse = ({ skus, transfers }: Closeout) =>
  [...skus, ...transfers].filter(
    ({ left, expected, counted }) => left !== 0 || expected !== 0 || counted !== null,
  );

/** How much of the stock was counted on this day, and what was missing. */
export function countedWords(account: Closeout): string {
  const pieces = inUse(account);
  const counted = pieces.filter((piece) => piece.counted !== null);
  const missing = counted.reduce((sum, piece) => sum + Math.max(0, piece.missing ?? 0), 0);
  const found = missing === 0 ? "" : ` ${missing} pieces are missing.`;
  return `Counted: ${counted.length} of ${pieces.length} blanks and transfers.${found}`;
}

/** Warnings before the day's counts are frozen. */
export function closingFirst(account: Closeout): readonly string[] {
  const kept = (account.rack ?? []).filter(({ keptFor }) => keptFor !== null).length;
  const uncounted = inUse(account).filter(({ counted }) => counted === null).length;
  return [
    ...(uncounted === 0 ? [] : [`Not counted: ${uncounted} blanks and transfers.`]),
    ...(account.costs === null ? ["No costs are kept for this day."] : []),
    ...(account.unpriced.length === 0 ? [] : [`Without a cost: ${account.unpriced.join(", ")}.`]),
    ...(kept === 0 ? [] : [`Paid and not fetched: ${kept}. Once the day is closed they may be sold.`]),
    ...(account.openOrders === 0 ? [] : [`Orders not finished: ${account.openOrders}.`]),
  ];
}
