/** The garments reserved for a press whose tablet may lose its signal: how many, and until when. */

import type { PressId } from "../../model/basics/ids.ts";
import type { Menu, Press } from "../../model/menu/catalogue.ts";
import { type Instant, MINUTE } from "../../time/instants.ts";
import type { QueuedGarment } from "../state/order-index.ts";
import { jobOf } from "../state/orders.ts";
import { expected, heatingOf } from "../state/pace.ts";
import type { StallEvent } from "../state/shapes/event.ts";
import type { StallState } from "../state/state.ts";

/** A tablet may take reserved garments for this long after its last contact with the stall. */
export const SILENT_FOR = 20 * MINUTE;
/** A tablet's contact is recorded at most this often. */
export const HEARD_EVERY = 2 * MINUTE;
/** The longest that an answer of the stall takes to reach a tablet. */
const ON_ITS_WAY = MINUTE;
/**
 * A silent press's reserve is released this long after its last recorded contact. Its tablet may have had contact up to
 * HEARD_EVERY and ON_ITS_WAY later, and has stopped taking garments by then.
 */
export const LET_GO_AFTER = SILENT_FOR + HEARD_EVERY + ON_ITS_WAY;
/** The most garments reserved for one press, since a screen is sent all of them. */
export const RESERVED_MOST = 40;

export const reservedFor = (state: StallState, press: PressId): readonly QueuedGarment[] => [
  ...(state.orderIndex.reserved.get(press) ?? []),
];

function since(state: StallState, { number, n }: QueuedGarment): Instant {
  const order = state.order(number);
  if (order === undefined) throw new Error(`order ${number} is in line but not open`);
  return jobOf(order, n).since;
}

/** A press's last contact: its tablet asked for the queue, or somebody tapped there. */
export function heardAt(state: StallState, press: PressId): Instant {
  const on = state.orderIndex.onPress.get(press);
  const has = on === undefined ? reservedFor(state, press) : [...reservedFor(state, press), on];
  return Math.max(
    state.press(press).heardAt ?? 0,
    state.pace.freed[press] ?? 0,
    ...has.map((placed) => since(state, placed)),
  );
}

/** When a silent press's reserve is released; null if it has none. */
export const reserveUntil = (state: StallState, press: PressId): Instant | null =>
  reservedFor(state, press).length === 0 ? null : heardAt(state, press) + LET_GO_AFTER;

/** The first instant at which any reserve is released. */
export function nextLetGo(state: StallState): Instant | null {
  const until = [...state.orderIndex.reserved.keys()].flatMap((press) => reserveUntil(state, press) ?? []);
  return until.length === 0 ? null : Math.min(...until);
}

/** Releases the reserves of presses that were silent for too long; each garment keeps its turn. */
export const silentReserves = (state: StallState, now: Instant): readonly StallEvent[] =>
  [...state.orderIndex.reserved.keys()].flatMap((press): StallEvent[] => {
    const until = reserveUntil(state, press);
    if (until === null || until > now) return [];
    const jobs = reservedFor(state, press).map(({ number, n }) => ({ number, n }));
    return [{ type: "reserve-let-go", press, silentSince: heardAt(state, press), jobs }];
  });

/** The expected seconds of a press for some garments, heat changes included. */
export function expectedSeconds(
  state: StallState,
  menu: Menu,
  press: Press,
  garments: readonly QueuedGarment[],
): number {
  const heating = heatingOf(menu, state.pace, press.platen).mean;
  return garments.reduce((sum, { work }) => sum + expected(menu, state.pace, work).mean + heating, 0);
}

/**
 * The most garments to reserve for a press: all that wait if no other press can take them; else its share, so that no
 * other press stands idle.
 */
export function shareOf(state: StallState, menu: Menu, press: Press): number {
  const working = menu.presses.filter(
    ({ id, platen }) => platen === press.platen && state.press(id).downSince === null,
  ).length;
  const waiting = state.orderIndex.waiting[press.platen].length + reservedFor(state, press.id).length;
  return Math.min(RESERVED_MOST, Math.floor(waiting / Math.max(1, working)));
}

/** Whether no other press has this platen. A press out of order counts as another, since it may be repaired soon. */
export const isOnly = (menu: Menu, press: Press): boolean =>
  menu.presses.every(({ id, platen }) => id === press.id || platen !== press.platen);
