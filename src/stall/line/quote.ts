/** The wait that a new order is promised, and the wait that an open order still has. */

import type { Menu, Platen } from "../../model/menu/catalogue.ts";
import type { Instant } from "../../time/instants.ts";
import { isNotQueued, lineOf } from "../state/orders.ts";
import { KEPT_SHARE, platenOf, type WorkClass, workClass } from "../state/pace.ts";
import type { Line } from "../state/shapes/line.ts";
import type { Order } from "../state/shapes/order.ts";
import type { StallState } from "../state/state.ts";
import { type Forecast, forecast, forecastOnPress, type Garments } from "./forecast.ts";
import { quantileSeconds, secondsAtMost } from "./promise.ts";

export const PLATENS = ["flat", "cap"] as const satisfies readonly Platen[];

type Piece = Pick<Line, "platen" | "kind" | "quantity" | "effort">;

/** Rounds to minutes as people say them: whole up to 15, then fives, over an hour tens. */
export function friendlyMinutes(seconds: number): number {
  const minutes = seconds / 60;
  const step = minutes <= 15 ? 1 : minutes <= 60 ? 5 : 10;
  return Math.max(1, Math.round(minutes / step) * step);
}

/** The garments of some lines by class of work. */
function garmentsByWork(lines: readonly Piece[]): Garments {
  const garments = new Map<WorkClass, number>();
  for (const line of lines) {
    const work = workClass(line);
    garments.set(work, (garments.get(work) ?? 0) + line.quantity);
  }
  return garments;
}

function atTheEnd(state: StallState, menu: Menu, lines: readonly Piece[], now: Instant): readonly Forecast[] {
  const own = garmentsByWork(lines);
  return PLATENS.flatMap((platen) => forecast(state, menu, platen, own, state.orderIndex.work, now) ?? []);
}

const stretched = (state: StallState, seconds: number): number => (state.pace.stretch ?? 1) * seconds;

/** The wait, in seconds, that nine in ten orders placed now at the end of the line are within. */
export function quoteSeconds(state: StallState, menu: Menu, lines: readonly Piece[], now: Instant): number {
  return stretched(state, quantileSeconds(atTheEnd(state, menu, lines, now), KEPT_SHARE));
}

/** An upper bound of such a quote in seconds, for callers that only need to know that there is time enough. */
export function quoteAtMost(state: StallState, menu: Menu, lines: readonly Piece[], now: Instant): number {
  const forecasts = atTheEnd(state, menu, lines, now);
  // With several platens, each gets its share of the risk.
  const each = KEPT_SHARE ** (1 / Math.max(1, forecasts.length));
  return stretched(state, Math.max(0, ...forecasts.map((one) => secondsAtMost(one, each))));
}

/** The wait, in friendly minutes, that an order placed now at the end of the line is promised. */
export function quoteMinutes(state: StallState, menu: Menu, lines: readonly Piece[], now: Instant): number {
  return friendlyMinutes(quoteSeconds(state, menu, lines, now));
}

/** The forecasts of an open order's remaining work; empty if all of it is pressed. */
function stillToCome(state: StallState, menu: Menu, order: Order, now: Instant): readonly Forecast[] {
  const toPress = order.jobs.filter((job) => job.stage !== "pressed");
  if (order.closed !== null) return [];
  const lying = toPress.flatMap((job) => {
    if (job.stage !== "pressing") return [];
    const line = lineOf(order, job);
    return forecastOnPress(state, menu, { number: order.number, n: job.n, work: workClass(line) }, now);
  });
  const inLine = toPress
    .filter(({ stage }) => stage !== "pressing")
    .map((job) => ({ ...lineOf(order, job), quantity: 1 }));
  if (toPress.some(isNotQueued)) return atTheEnd(state, menu, inLine, now);
  const own = garmentsByWork(inLine);
  const ahead = aheadOf(state, order);
  return [...lying, ...PLATENS.flatMap((platen) => forecast(state, menu, platen, own, ahead, now) ?? [])];
}

/** The minutes an open order still has to wait; 0 if all of it is pressed. */
export function minutesLeft(state: StallState, menu: Menu, order: Order, now: Instant): number {
  const forecasts = stillToCome(state, menu, order, now);
  return forecasts.length === 0
    ? 0
    : friendlyMinutes(stretched(state, quantileSeconds(forecasts, KEPT_SHARE)));
}

/** The expected seconds until an open order is done; 0 if all of it is pressed. */
export function secondsLeft(state: StallState, menu: Menu, order: Order, now: Instant): number {
  return Math.max(0, ...stillToCome(state, menu, order, now).map(({ mean }) => mean));
}

/** The waiting work ahead of an order: its share of each platen's line, with that line's mix. */
function aheadOf(state: StallState, order: Order): Garments {
  const { orderIndex } = state;
  const ahead = new Map<WorkClass, number>();
  for (const platen of PLATENS) {
    const turns = order.jobs.flatMap((job) =>
      (job.stage === "waiting" || job.stage === "reserved") && lineOf(order, job).platen === platen
        ? [job.turn]
        : [],
    );
    if (turns.length === 0) continue;
    const last = { turn: Math.max(...turns), number: order.number };
    const lists = [orderIndex.waiting[platen]];
    for (const list of orderIndex.reserved.values()) {
      const first = list.at(0);
      if (first !== undefined && platenOf(first.work) === platen) lists.push(list);
    }
    const length = lists.reduce((sum, list) => sum + list.length, 0);
    const before = lists.reduce((sum, list) => sum + list.countBefore(last), 0) - (turns.length - 1);
    for (const [work, count] of orderIndex.work) {
      if (platenOf(work) === platen) ahead.set(work, (count / length) * before);
    }
  }
  return ahead;
}

/** An order's place in line, counted from 1; 0 if none of its garments waits. */
export function placeOf(state: StallState, order: Order): number {
  let turn = Number.POSITIVE_INFINITY;
  let waits = false;
  for (const job of order.jobs) {
    if (isNotQueued(job)) return state.orderIndex.underWay.length + 1;
    turn = Math.min(turn, job.turn);
    waits ||= job.stage !== "pressed";
  }
  if (!waits || order.closed !== null) return 0;
  return state.orderIndex.underWay.countBefore({ turn, number: order.number }) + 1;
}
