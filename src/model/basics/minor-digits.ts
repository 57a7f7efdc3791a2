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

export type CurrencyCode = keyof typeof MINOR_DIGITS;
