/** How long an order will take: the work ahead of it, over the presses that can do it. */
import type { Menu, Platen } from "../model/catalogue.ts";
import type { Instant, Line, Order } from "./facts.ts";
import { lineOf } from "./orders.ts";
import { type Expected, expected, type WorkClass, workClass } from "./pace.ts";
import type { StallState } from "./state.ts";

// The 90th percentile of a normal distribution.
const Z90 = 1.2815515655;
// How far the whole forecast is thought to be off, beside the scatter of single garments: breaks, a
// jam, a run of heavy prints. Set by the simulation that `npm run bench -- waits` runs.
const FORECAST_VARIATION = 0.15;
// A garment that has been on the press longer than expected still needs a moment.
const LEAST_LEFT = 0.2;

type Garments = ReadonlyMap<WorkClass, number>;

function platenOf(work: WorkClass): Platen {
  return work.startsWith("cap/") ? "cap" : "flat";
}

/** Seconds still to go for what lies on the presses of a platen, and how many of those presses work. */
function pressesNow(state: StallState, menu: Menu, platen: Platen, now: Instant) {
  let left = 0;
  let working = 0;
  for (const press of menu.presses) {
    if (press.platen !== platen || state.press(press.id).down) continue;
    working += 1;
    const on = state.standing.onPress.get(press.id);
    if (on === undefined) continue;
    const { mean } = expected(menu, state.pace, on.work);
    const job = state.order(on.number)?.jobs[on.n - 1];
    const elapsed = job === undefined ? 0 : (now - job.since) / 1000;
    left += Math.max(mean - elapsed, LEAST_LEFT * mean);
  }
  // With every press of the kind down, one is assumed to come back: a promise must still be a number.
  return { left, working: Math.max(working, 1) };
}

function sum(menu: Menu, state: StallState, garments: Garments, platen: Platen): Expected {
  let mean = 0;
  let variance = 0;
  for (const [work, count] of garments) {
    if (platenOf(work) !== platen) continue;
    const each = expected(menu, state.pace, work);
    mean += count * each.mean;
    variance += count * each.variance;
  }
  return { mean, variance };
}

/**
 * The 90th percentile, in seconds, of the time until the last of some garments is pressed, with the
 * given work ahead of them. The work of one platen is shared evenly by its presses, but the last garment
 * is on one press alone.
 */
export function ninetiethSeconds(
  state: StallState,
  menu: Menu,
  own: Garments,
  ahead: Garments,
  now: Instant,
): number {
  let longest = 0;
  for (const platen of ["flat", "cap"] as const) {
    const mine = sum(menu, state, own, platen);
    if (mine.mean === 0) continue;
    const others = sum(menu, state, ahead, platen);
    const { left, working } = pressesNow(state, menu, platen, now);
    const garments = [...own].reduce((count, [work, n]) => count + (platenOf(work) === platen ? n : 0), 0);
    const last = mine.mean / garments;
    const mean = (left + others.mean + mine.mean - last) / working + last;
    const variance = (others.variance + mine.variance) / working ** 2 + (FORECAST_VARIATION * mean) ** 2;
    longest = Math.max(longest, mean + Z90 * Math.sqrt(variance));
  }
  return longest;
}

/** Minutes as people say them: whole up to 15, then by fives, over an hour by tens; never less. */
export function friendlyMinutes(seconds: number): number {
  const minutes = Math.max(1, Math.ceil(seconds / 60));
  const step = minutes <= 15 ? 1 : minutes <= 60 ? 5 : 10;
  return Math.ceil(minutes / step) * step;
}

/** The garments of some lines by class of work. */
export function garmentsByWork(lines: readonly Pick<Line, "platen" | "kind" | "quantity">[]): Garments {
  const garments = new Map<WorkClass, number>();
  for (const line of lines) {
    const work = workClass(line.platen, line.kind);
    garments.set(work, (garments.get(work) ?? 0) + line.quantity);
  }
  return garments;
}

/** The wait, in friendly minutes, that an order placed now at the end of the line is promised. */
export function quoteMinutes(
  state: StallState,
  menu: Menu,
  lines: readonly Pick<Line, "platen" | "kind" | "quantity">[],
  now: Instant,
): number {
  return friendlyMinutes(ninetiethSeconds(state, menu, garmentsByWork(lines), state.standing.work, now));
}

/** The minutes an open order still has to wait as things stand now; 0 when all of it is pressed. */
export function minutesLeft(state: StallState, menu: Menu, order: Order, now: Instant): number {
  const toPress = order.jobs.filter((job) => job.stage !== "pressed");
  if (toPress.length === 0 || order.closed !== null) return 0;
  const own = garmentsByWork(toPress.map((job) => ({ ...lineOf(order, job), quantity: 1 })));
  if (toPress.some((job) => job.stage === "to-pay")) {
    return friendlyMinutes(ninetiethSeconds(state, menu, own, state.standing.work, now));
  }
  return friendlyMinutes(ninetiethSeconds(state, menu, own, aheadOf(state, order), now));
}

/** The waiting work ahead of an order: its share of each platen's line, in that line's mix. */
function aheadOf(state: StallState, order: Order): Garments {
  const ahead = new Map<WorkClass, number>();
  for (const platen of ["flat", "cap"] as const) {
    const line = state.standing.waiting[platen];
    const turns = order.jobs.flatMap((job) =>
      job.stage === "waiting" && lineOf(order, job).platen === platen ? [job.turn] : [],
    );
    if (turns.length === 0) continue;
    const before = line.countBefore({ turn: Math.max(...turns), number: order.number }) - (turns.length - 1);
    for (const [work, count] of state.standing.work) {
      if (platenOf(work) === platen) ahead.set(work, (count / line.length) * before);
    }
  }
  return ahead;
}

/** Orders that stand before this one in line, itself included; 0 when nothing of it waits any more. */
export function placeOf(state: StallState, order: Order): number {
  let turn = Number.POSITIVE_INFINITY;
  let waits = false;
  for (const job of order.jobs) {
    if (job.stage === "to-pay") return state.standing.underWay.length + 1;
    turn = Math.min(turn, job.turn);
    waits ||= job.stage !== "pressed";
  }
  if (!waits || order.closed !== null) return 0;
  return state.standing.underWay.countBefore({ turn, number: order.number }) + 1;
}
