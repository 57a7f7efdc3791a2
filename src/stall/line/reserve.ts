/** What presses keep aside for tablets that may have no signal, and how long for one that is heard of no more. */

import type { PressId } from "../../model/basics/ids.ts";
import type { Instant } from "../../time/instants.ts";
import type { StallEvent } from "../state/facts.ts";
import type { Placed } from "../state/order-index.ts";
import { jobOf } from "../state/orders.ts";
import type { StallState } from "../state/state.ts";

/**
 * How long a press that is not heard of keeps garments from the others: a tablet without signal has worked
 * off all it may take well before that.
 */
export const ASIDE_FOR = 20 * 60_000;

const keptBy = (state: StallState, press: PressId): readonly Placed[] => [
  ...(state.orderIndex.aside.get(press) ?? []),
];

function since(state: StallState, { number, n }: Placed): Instant {
  const order = state.order(number);
  if (order === undefined) throw new Error(`order ${number} is in line but not open`);
  return jobOf(order, n).since;
}

/** When what a press keeps aside goes back by itself, nothing more being heard of it; null where it keeps nothing. */
export function asideUntil(state: StallState, press: PressId): Instant | null {
  const kept = keptBy(state, press);
  if (kept.length === 0) return null;
  const on = state.orderIndex.onPress.get(press);
  const has = on === undefined ? kept : [...kept, on];
  const heard = Math.max(state.pace.freed[press] ?? 0, ...has.map((placed) => since(state, placed)));
  return heard + ASIDE_FOR;
}

/** The first instant at which something kept aside goes back by itself. */
export function nextAsideBack(state: StallState): Instant | null {
  const until = [...state.orderIndex.aside.keys()].flatMap((press) => asideUntil(state, press) ?? []);
  return until.length === 0 ? null : Math.min(...until);
}

/** What goes back to the line by now; each garment keeps its turn. */
export const asideBack = (state: StallState, now: Instant): readonly StallEvent[] =>
  [...state.orderIndex.aside.keys()].flatMap((press) => {
    const until = asideUntil(state, press);
    if (until === null || until > now) return [];
    return keptBy(state, press).map(({ number, n }): StallEvent => ({ type: "returned", number, n }));
  });
