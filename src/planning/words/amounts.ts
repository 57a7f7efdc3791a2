import { minorDigits } from "../request/given.ts";

/** A sum in minor units as people read it: "$24.50". */
export function inMoney(minor: number, currency: string): string {
  const format = new Intl.NumberFormat("en", { style: "currency", currency });
  return format.format(minor / 10 ** minorDigits(currency));
}

/** A share as people read it: "27 %". */
export function inPercent(share: number): string {
  return `${Math.round(share * 100)} %`;
}
