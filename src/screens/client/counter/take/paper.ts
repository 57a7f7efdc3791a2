/** Orders taken on paper while there was no power: their own block of numbers, entered later with their own times. */
import type { PlaceOrder } from "../../../../model/orders/place-order.ts";

type Paper = NonNullable<PlaceOrder["paper"]>;

const FIRST = 900;
const LAST = 999;

/** The number after this one, as the next slip most likely has it; empty at the end of the block. */
export const nextPaperNumber = (number: number): string => (number < LAST ? String(number + 1) : "");

/** The paper number and instant of a slip written on the day of `now`, or the fault in what was typed. */
export function paperFrom(number: string, time: string, now: Date): Paper | string {
  const typed = Number(number.trim());
  if (!Number.isInteger(typed) || typed < FIRST || typed > LAST)
    return `The number on the slip must be from ${FIRST} to ${LAST}.`;
  const match = /^(\d{2}):(\d{2})/.exec(time);
  if (match === null) return "Give the time on the slip.";
  const taken = new Date(now);
  taken.setHours(Number(match[1]), Number(match[2]), 0, 0);
  if (taken > now) return "The time on the slip has not come yet. Check it.";
  return { number: typed, takenAt: taken.toISOString() };
}
