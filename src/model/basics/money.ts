/** Currencies and amounts of money in minor units. */

import { z } from "zod";
import { type CurrencyCode, MINOR_DIGITS } from "./minor-digits.ts";

export { MINOR_DIGITS };
export type Currency = CurrencyCode;

export const Currency = z
  .enum(Object.keys(MINOR_DIGITS) as [CurrencyCode, ...CurrencyCode[]]) // the keys of a literal, as a tuple
  .meta({ id: "Currency", description: "ISO 4217 currency code" });

/** A price or sum in whole minor units (cents, pence); the currency is the menu's. */
export const minorUnits = () => z.int().min(0).max(100_000_000);

export const Money = z
  .strictObject({ amount: z.int(), currency: Currency })
  .meta({ id: "Money", description: "A sum in whole minor units of an ISO 4217 currency" });
export type Money = z.infer<typeof Money>;
