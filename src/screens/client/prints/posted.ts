/** The prices on the poster, in both languages where words are needed: the same that an order is charged. Pure. */
import type { MenuView } from "../../../model/menu/menu-view.ts";
import { moneyWords } from "../crew/words/money.ts";

/** "$24.00", or from lowest to highest if sizes differ: "$24.00–$27.00". */
export function rangeWords({ price, left }: MenuView["offers"][number], { currency }: MenuView): string {
  const prices = left.length === 0 ? [price] : left.map((one) => one.price);
  const [lowest, highest] = [Math.min(...prices), Math.max(...prices)].map((one) =>
    moneyWords(one, currency),
  );
  return lowest === highest ? `${lowest}` : `${lowest}–${highest}`;
}

/** "Any 2 tees $40.00", one line each, and its names in other languages by those. */
export const bundleLines = ({ bundles = [], currency }: MenuView) =>
  bundles.map(({ name, translations = {}, price }) => ({
    words: `${name} ${moneyWords(price, currency)}`,
    others: Object.entries(translations),
  }));

/** The tax on these prices, in words; null if there is none. */
export function taxLines({ tax }: MenuView): { readonly en: string; readonly es: string } | null {
  if (tax === undefined) return null;
  const share = `${tax.partsPerMillion / 10_000} %`;
  return tax.inPrice
    ? { en: `Tax of ${share} included`, es: `Impuesto de ${share} incluido` }
    : { en: `Plus ${share} tax`, es: `Más ${share} de impuesto` };
}
