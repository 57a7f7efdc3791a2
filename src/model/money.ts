import { z } from "zod";

/** The ISO 4217 currencies a stall can price in, with the digits their minor unit has. */
export const MINOR_DIGITS = {
  AUD: 2,
  BRL: 2,
  CAD: 2,
  CHF: 2,
  CZK: 2,
  DKK: 2,
  EUR: 2,
  GBP: 2,
  HUF: 2,
  INR: 2,
  JPY: 0,
  KRW: 0,
  MXN: 2,
  NOK: 2,
  NZD: 2,
  PLN: 2,
  SEK: 2,
  USD: 2,
  ZAR: 2,
} as const;

export type Currency = keyof typeof MINOR_DIGITS;

export const Currency = z
  .enum(Object.keys(MINOR_DIGITS) as [Currency, ...Currency[]]) // the keys of a literal, as a tuple
  .meta({ id: "Currency", description: "ISO 4217 currency code" });

/** A price or sum in whole minor units (cents, pence); the currency is the menu's. */
export const minorUnits = () => z.int().min(0).max(100_000_000);

export const Money = z
  .strictObject({ amount: z.int(), currency: Currency })
  .meta({ id: "Money", description: "A sum in whole minor units of an ISO 4217 currency" });
export type Money = z.infer<typeof Money>;
