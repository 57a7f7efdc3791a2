/** Sums as people write them. A currency's minor digits are ISO 4217's, as the browser's own table has them. */

const forms = new Map<string, Intl.NumberFormat>();

function form(currency: string): Intl.NumberFormat {
  const known = forms.get(currency) ?? new Intl.NumberFormat(undefined, { style: "currency", currency });
  forms.set(currency, known);
  return known;
}

const digitsOf = (currency: string): number => form(currency).resolvedOptions().maximumFractionDigits ?? 2;

/** "$25.74" for 2574 US cents. */
export const moneyWords = (minorUnits: number, currency: string): string =>
  form(currency).format(minorUnits / 10 ** digitsOf(currency));

/** The minor units of a sum as typed, "30" or "25.80" or "25,80"; null where it is no such sum. */
export function minorUnitsTyped(text: string, currency: string): number | null {
  const digits = digitsOf(currency);
  const match = /^(\d{1,7})(?:[.,](\d+))?$/.exec(text.trim());
  const [, whole, part = ""] = match ?? [];
  if (whole === undefined || part.length > digits) return null;
  return Number(whole + part.padEnd(digits, "0"));
}
