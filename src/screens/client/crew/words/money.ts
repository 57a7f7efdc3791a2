/** Sums as people write them. */
import { type CurrencyCode, MINOR_DIGITS } from "../../../../model/basics/minor-digits.ts";

const forms = new Map<CurrencyCode, Intl.NumberFormat>();

/** "$25.74" for 2574 US cents. The digits are ours: a browser's own table drops the forint's two. */
export function moneyWords(minorUnits: number, currency: CurrencyCode): string {
  const digits = MINOR_DIGITS[currency];
  const exact = { minimumFractionDigits: digits, maximumFractionDigits: digits };
  const form =
    forms.get(currency) ?? new Intl.NumberFormat(undefined, { style: "currency", currency, ...exact });
  forms.set(currency, form);
  return form.format(minorUnits / 10 ** digits);
}

/** A difference in price, "+$3.00" or "−$5.00"; empty if there is none. */
export const differenceWords = (minorUnits: number, currency: CurrencyCode): string =>
  minorUnits === 0 ? "" : `${minorUnits < 0 ? "−" : "+"}${moneyWords(Math.abs(minorUnits), currency)}`;

/** The minor units of a typed amount, "30" or "25.80" or "25,80"; null if it is not an amount. */
export function minorUnitsTyped(text: string, currency: CurrencyCode): number | null {
  const digits = MINOR_DIGITS[currency];
  const match = /^(\d{1,7})(?:[.,](\d+))?$/.exec(text.trim());
  const [, whole, part = ""] = match ?? [];
  if (whole === undefined || part.length > digits) return null;
  return Number(whole + part.padEnd(digits, "0"));
}
