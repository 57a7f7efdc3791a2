/** A link to a page where an order can be paid: the stall's own, with slots for the order and the sum. */
import { type CurrencyCode, MINOR_DIGITS } from "../basics/minor-digits.ts";

export type PaymentSlots = {
  readonly order: number;
  readonly minorUnits: number;
  readonly currency: CurrencyCode;
};

// What an address may hold and every text's alphabet has.
const ADDRESS = /^https:\/\/[A-Za-z0-9._~:/?#@!$&'()*+,;=%{}-]+$/;
const SLOT = /\{([^{}]*)\}/g;

/** A sum in minor units as a plain decimal with the currency's own digits: 2574 US cents are "25.74". */
export function plainSum(minorUnits: number, currency: CurrencyCode): string {
  const digits = MINOR_DIGITS[currency];
  const padded = String(minorUnits).padStart(digits + 1, "0");
  return digits === 0 ? padded : `${padded.slice(0, -digits)}.${padded.slice(-digits)}`;
}

/** The link of one order. `{order}` is its pickup number, `{amount}` the sum, `{currency}` the ISO 4217 code. */
export function paymentLink(template: string, { order, minorUnits, currency }: PaymentSlots): string {
  return template.replaceAll(SLOT, (slot, name: string) => {
    if (name === "order") return String(order);
    if (name === "amount") return plainSum(minorUnits, currency);
    return name === "currency" ? currency : slot;
  });
}

/** The fault of a template; null if there is none. */
export function paymentLinkFault(template: string): string | null {
  if (!ADDRESS.test(template))
    return "must be an address that begins with https:// and has only the letters and signs of addresses";
  const names = [...template.matchAll(SLOT)].map(([, name]) => name ?? "");
  const strange = names.find((name) => !["order", "amount", "currency"].includes(name));
  if (strange !== undefined) return `has the slot {${strange}}; there are {order}, {amount} and {currency}`;
  if (!names.includes("order")) return "needs the slot {order}, or nobody can tell whose payment it was";
  const sample = paymentLink(template, { order: 101, minorUnits: 2400, currency: "USD" });
  const host = URL.parse(sample)?.host ?? "";
  const hostAsWritten = template.slice("https://".length).split(/[/?#]/)[0] ?? "";
  if (/[{}]/.test(sample) || host === "" || /[{}@]/.test(hostAsWritten))
    return "must be a whole address; slots stand behind the host's name, and no sign-in stands before it";
  return null;
}
