/** Rules about telephone numbers. */
import type { PhoneNumber } from "../model/orders/order.ts";

/** A number as digits only, for comparing and for gateways that want it so. */
export const digitsOf = (number: string): string => number.replace(/[^0-9]/g, "");

/** Whether texts may go to this number. */
export const mayText = (phone: PhoneNumber, prefixes: readonly string[]): boolean =>
  prefixes.some((prefix) => phone.startsWith(prefix));

/** All that a screen shows of a number until somebody asks for the rest. */
export const lastFour = (phone: PhoneNumber): string => `…${phone.slice(-4)}`;
