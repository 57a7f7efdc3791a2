/** Closing time: when last orders are called, when intake closes automatically, and when the line is done. */

import type { Menu } from "../../model/menu/catalogue.ts";
import { type Instant, MINUTE } from "../../time/instants.ts";
import { openingAt } from "../state/opening.ts";
import type { StallState } from "../state/state.ts";
import { forecast, forecastOnPress } from "./forecast.ts";
import { PLATENS, quoteAtMost, quoteSeconds } from "./quote.ts";

type Quote = typeof quoteSeconds;

/** The quote for the next garment of the platen that makes it wait longest, in milliseconds. */
function waitForOne(state: StallState, menu: Menu, now: Instant, quote: Quote): number {
  const seconds = menu.offers.flatMap((offer) => {
    const blank = menu.blanks.find(({ id }) => id === offer.blank);
    const design = menu.designs.find(({ id }) => id === offer.design);
    if (!offer.offered || blank === undefined || design === undefined) return [];
    return [{ platen: blank.platen, kind: design.kind, quantity: 1 }];
  });
  const platens = PLATENS.flatMap((platen) => seconds.find((one) => one.platen === platen) ?? []);
  return 1000 * Math.max(0, ...platens.map((one) => quote(state, menu, [one], now)));
}

/** When intake closes automatically if the line stays as it is; null outside the hours or if the crew keeps it open. */
export function intakeEnds(
  state: StallState,
  menu: Menu,
  now: Instant,
  quote: Quote = quoteSeconds,
): Instant | null {
  const opening = openingAt(state, now);
  if (!opening.open || state.status.keptOpen === opening.closes) return null;
  return opening.closes - menu.rules.closingMarginMinutes * MINUTE - waitForOne(state, menu, now, quote);
}

/**
 * When to check whether last orders are due: they are once this instant has come. Null if they were called or there is
 * nothing to call. While plenty of time is left, the instant is an early estimate.
 */
export function lastOrdersDue(
  state: StallState,
  menu: Menu,
  now: Instant,
): { readonly at: Instant; readonly closes: Instant } | null {
  const opening = openingAt(state, now);
  if (!opening.open || state.status.lastOrders === opening.closes) return null;
  for (const quote of [quoteAtMost, quoteSeconds]) {
    const ends = intakeEnds(state, menu, now, quote);
    if (ends === null) return null;
    const at = ends - menu.rules.lastOrdersMinutes * MINUTE;
    if (at > now || quote === quoteSeconds) return { at, closes: opening.closes };
  }
  return null;
}

/** Whether last orders have been called, at an instant. */
export function lastOrdersCalled(state: StallState, now: Instant): boolean {
  const opening = openingAt(state, now);
  return (
    opening.open && state.status.lastOrders === opening.closes && state.status.keptOpen !== opening.closes
  );
}

/** When everything in line or on a press is expected to be pressed; null if there is nothing. */
export function backlogEnds(state: StallState, menu: Menu, now: Instant): Instant | null {
  const { work, onPress } = state.orderIndex;
  const ends = [
    ...PLATENS.flatMap((platen) => forecast(state, menu, platen, work, new Map(), now) ?? []),
    ...[...onPress.values()].map((on) => forecastOnPress(state, menu, on, now)),
  ];
  if (ends.length === 0) return null;
  return Math.round(now + 1000 * Math.max(...ends.map(({ mean }) => mean)));
}
