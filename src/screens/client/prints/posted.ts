/** What the poster says of prices, in both languages where it needs words: the same that an order is charged. Pure. */
import type { MenuView } from "../../../model/menu/menu-view.ts";
import { moneyWords } from "../crew/words/money.ts";

/** "$24.00", or from the lowest to the highest where sizes differ: "$24.00–$27.00". */
export function rangeWords({ price, left }: MenuView["offers"][number], { currency }: MenuView): string {
  const prices = left.length === 0 ? [price] : left.map((one) => one.price);
  const [lowest, highest] = [Math.min(...prices), Math.max(...prices)].map((one) =>
    moneyWords(one, currency),
  );
  return lowest === highest ? `${lowest}` : `${lowest}–${highest}`;
}

/** "Any 2 tees $40.00", one line each. */
export const bundleLines = ({ bundles = [], currency }: MenuView): readonly string[] =>
  bundles.map(({ name, price }) => `${name} ${moneyWords(price, currency)}`);

/** What tax does to these prices; null where there is none. */
export function taxLines({ tax }: MenuView): { readonly en: string; readonly es: string } | null {
  if (tax === undefined) return null;
  const share = `${tax.partsPerMillion / 10_000} %`;
  return tax.inPrice
    ? { en: `Tax of ${share} included`, es: `Impuesto de ${share} incluido` }
    : { en: `Plus ${share} tax`, es: `Más ${share} de impuesto` };
}
