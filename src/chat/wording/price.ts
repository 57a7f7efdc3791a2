/** Sums as customers read them, in texts and on their page. */
import type { Currency } from "../../model/basics/money.ts";
import type { Bill } from "./shape.ts";

type Priced = { readonly currency: Currency };
type Sums = { readonly total: number; readonly tax: number; readonly taxInPrice?: boolean | undefined };

const formats = new Map<string, Intl.NumberFormat>();

/** A sum as people write it: "$24", "$24.50". One form for all languages: shortest, and known at the stall. */
export function price({ currency }: Priced, minor: number): string {
  let format = formats.get(currency);
  if (format === undefined) {
    format = new Intl.NumberFormat("en", {
      style: "currency",
      currency,
      currencyDisplay: "narrowSymbol",
      trailingZeroDisplay: "stripIfInteger",
    });
    formats.set(currency, format);
  }
  const digits = format.resolvedOptions().maximumFractionDigits ?? 2;
  return format.format(minor / 10 ** digits);
}

/** The price of an order, each sum written out. */
export const billOf = (priced: Priced, { total, tax, taxInPrice }: Sums): Bill => ({
  taxInPrice: taxInPrice === true,
  net: price(priced, total - tax),
  tax: tax === 0 ? null : price(priced, tax),
  total: price(priced, total),
});
