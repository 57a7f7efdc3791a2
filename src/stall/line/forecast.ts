/**
 * How long some garments will take, as a distribution: from the work ahead of them, the presses that fit, the state of
 * those presses, and the people at them.
 */

import { larger, type Moments, remaining, remainingAtRandom } from "../../maths/lognormal.ts";
import type { Menu, Platen, Press } from "../../model/menu/catalogue.ts";
import type { Instant } from "../../time/instants.ts";
import { openingAt } from "../state/opening.ts";
import { jobIn, jobOf } from "../state/orders.ts";
import { expected, heatingOf, platenOf, type WorkClass, withSpoils } from "../state/pace.ts";
import type { StallState } from "../state/state.ts";

export type Garments = ReadonlyMap<WorkClass, number>;

/** The time until some garments are pressed, in seconds, as long as no press fails. */
export type Forecast = Moments & {
  /** The delay that one press failure adds, and the expected number of failures. */
  readonly outageSeconds: number;
  readonly outages: number;
};

// A press fails once in a day's work of 8 hours and is back after 10 minutes: common practice, no source.
const OUTAGE_SECONDS = 600;
const OUTAGES_PER_SECOND = 1 / (8 * 3600);
// The least remaining outage of a press that has been down longer than usual.
const OUTAGE_LEFT_LEAST = 180;
// A garment that lies on the press for longer than this many means tells nothing more.
const LONGEST_OVER_MEAN = 3;

// A press counts as unattended if it finishes nothing for this many garments' time while work is in line.
const SILENT_GARMENTS = 2.5;
const SILENT_LONGEST_SECONDS = 1800;

/** A press in the forecast: when it works again, and the time left for the garment on it. */
type Server = { readonly backIn: number; readonly left: Moments | null };

const NOTHING: Moments = { mean: 0, variance: 0 };
const plus = (one: Moments, other: Moments): Moments => ({
  mean: one.mean + other.mean,
  variance: one.variance + other.variance,
});

/** The time left for the garment on a press. */
function leftOn(
  state: StallState,
  menu: Menu,
  on: { number: number; n: number; work: WorkClass },
  now: Instant,
) {
  const order = state.order(on.number);
  const job = order === undefined ? undefined : jobOf(order, on.n);
  const each = expected(menu, state.pace, on.work);
  if (job?.stage !== "pressing") return each;
  const readyAt = Math.max(job.since, state.press(job.press).heat?.readyAt ?? job.since);
  const heating = Math.max(0, (readyAt - now) / 1000);
  const elapsed = heating > 0 ? 0 : (now - readyAt) / 1000;
  const left = remaining(each, Math.min(elapsed, LONGEST_OVER_MEAN * each.mean));
  const again = withSpoils(each, state.pace);
  return {
    mean: left.mean + heating + again.mean - each.mean,
    variance: left.variance + again.variance - each.variance,
  };
}

/** People not at work at a press now; more than any stall has if the number was never set. */
const freeHands = (state: StallState): number =>
  Math.max(0, (state.status.hands ?? Number.POSITIVE_INFINITY) - state.orderIndex.onPress.size);

/**
 * When an idle press became idle in this opening (with work in line and a free pair of hands), and when it counts as
 * unattended. Null if the press works or is out of order.
 */
function idleness(state: StallState, menu: Menu, { id, platen }: Press, now: Instant) {
  const { onPress, waiting } = state.orderIndex;
  const first = waiting[platen].at(0);
  const opening = openingAt(state, now);
  if (first === undefined || !opening.open || state.press(id).downSince !== null) return null;
  if (onPress.has(id) || freeHands(state) === 0) return null;
  const job = jobIn(state.order(first.number), first.n);
  if (job === undefined) return null;
  const since = Math.max(state.pace.freed[id] ?? 0, job.since, opening.opens);
  const each = expected(menu, state.pace, first.work).mean + heatingOf(menu, state.pace, platen).mean;
  return { since, stillFrom: Math.ceil(since + SILENT_GARMENTS * each * 1000) };
}

/** When an idle press counts as unattended unless somebody pulls a garment to it; null if it works. */
export const silentFrom = (state: StallState, menu: Menu, press: Press, now: Instant): Instant | null =>
  idleness(state, menu, press, now)?.stillFrom ?? null;

/** Seconds until an unattended press works again: as long as it has been idle, half an hour at most. */
function silentSeconds(state: StallState, menu: Menu, press: Press, now: Instant): number {
  const idle = idleness(state, menu, press, now);
  if (idle === null || now < idle.stillFrom) return 0;
  return Math.min((now - idle.since) / 1000, SILENT_LONGEST_SECONDS);
}

/** The presses of a platen. If there is none, one is assumed, since a promise must be a number. */
function serversOf(state: StallState, menu: Menu, platen: Platen, now: Instant): readonly Server[] {
  const servers = menu.presses.flatMap((press): Server[] => {
    const { id } = press;
    if (press.platen !== platen) return [];
    const { downSince } = state.press(id);
    const on = state.orderIndex.onPress.get(id);
    const backIn =
      downSince === null
        ? silentSeconds(state, menu, press, now)
        : Math.max(OUTAGE_SECONDS - (now - downSince) / 1000, OUTAGE_LEFT_LEAST);
    return [{ backIn, left: on === undefined ? null : leftOn(state, menu, on, now) }];
  });
  return servers.length > 0 ? servers : [{ backIn: 0, left: null }];
}

/** The share of its time that the people can give each press with work; 1 if there are enough people. */
function handsForEach(state: StallState, menu: Menu, platen: Platen): number {
  const { hands } = state.status;
  if (hands === null) return 1;
  const { waiting, onPress } = state.orderIndex;
  const working = menu.presses.filter(
    (press) =>
      state.press(press.id).downSince === null &&
      (press.platen === platen || onPress.has(press.id) || waiting[press.platen].length > 0),
  ).length;
  return Math.min(1, hands / Math.max(1, working));
}

/** The total time of some garments on one platen, and how reliable its means are. */
function workOf(state: StallState, menu: Menu, garments: Garments, platen: Platen) {
  const heating = heatingOf(menu, state.pace, platen);
  let sum = NOTHING;
  let count = 0;
  let unsure = 0;
  for (const [work, pieces] of garments) {
    if (platenOf(work) !== platen || pieces <= 0) continue;
    const { weight, ...handling } = expected(menu, state.pace, work);
    const each = withSpoils(plus(handling, heating), state.pace);
    sum = plus(sum, { mean: pieces * each.mean, variance: pieces * each.variance });
    unsure += (pieces ** 2 * each.variance) / weight;
    count += pieces;
  }
  return { sum, count, unsure };
}

/**
 * When a press is free for the last garment, given the work before it. Presses that are down return one by one; while
 * one press begins the last garment, the others finish theirs.
 */
function startOfLast(servers: readonly Server[], hands: number, work: Moments, each: Moments) {
  const residual = remainingAtRandom(each);
  const back = servers.map(({ backIn }) => backIn).sort((one, other) => one - other);
  let waited = 0;
  let start = { at: 0, presses: 1, others: 0 };
  for (const [index, backIn] of back.entries()) {
    const presses = (index + 1) * hands;
    waited += backIn;
    const others = Math.max(0, presses - 1);
    const at = (Math.max(0, work.mean - others * residual.mean) + hands * waited) / presses;
    if (index > 0 && start.at <= backIn) break;
    start = { at: Math.max(at, backIn), presses, others };
  }
  const { at, presses, others } = start;
  return { mean: at, variance: (work.variance + others * residual.variance) / presses ** 2, presses, others };
}

/** The forecast for garments of one platen behind the given work; null if there are no garments. */
export function forecast(
  state: StallState,
  menu: Menu,
  platen: Platen,
  own: Garments,
  ahead: Garments,
  now: Instant,
): Forecast | null {
  const mine = workOf(state, menu, own, platen);
  if (mine.count === 0) return null;
  const others = workOf(state, menu, ahead, platen);
  const servers = serversOf(state, menu, platen, now);
  const hands = handsForEach(state, menu, platen);
  const each = { mean: mine.sum.mean / mine.count, variance: mine.sum.variance / mine.count };
  const busy = servers.flatMap(({ left }) => left ?? []);
  const before = mine.count - 1;
  const work = [...busy, others.sum, { mean: before * each.mean, variance: before * each.variance }].reduce(
    plus,
    NOTHING,
  );

  // A press is free only if a person is.
  const idle = Math.min(
    freeHands(state),
    servers.filter(({ backIn, left }) => backIn === 0 && left === null).length,
  );
  const atOnce = others.count === 0 && mine.count <= idle;
  const start = startOfLast(servers, hands, atOnce ? NOTHING : work, each);
  let ready: Moments = atOnce ? each : plus(start, each);
  // Of the order's garments that are on presses at the end, the slowest decides.
  const together = Math.min(before, Math.ceil(start.presses) - 1);
  const other = atOnce ? each : plus(start, remainingAtRandom(each));
  for (let n = 0; n < together; n++) ready = withSlower(ready, other, start);
  const unsure = (others.unsure + mine.unsure) / start.presses ** 2;
  return {
    mean: ready.mean,
    variance: ready.variance + unsure,
    outageSeconds: (OUTAGE_SECONDS + remainingAtRandom(each).mean) / start.presses,
    outages: OUTAGES_PER_SECOND * start.presses * ready.mean,
  };
}

/** The later of two ends that have the same start. */
function withSlower(one: Moments, other: Moments, start: Moments): Moments {
  const shared = Math.min(start.variance, one.variance, other.variance);
  const later = larger(
    { mean: one.mean, variance: one.variance - shared },
    { mean: other.mean, variance: other.variance - shared },
  );
  return { mean: later.mean, variance: later.variance + shared };
}

/** The forecast for a garment that lies on a press now. */
export function forecastOnPress(
  state: StallState,
  menu: Menu,
  on: { number: number; n: number; work: WorkClass },
  now: Instant,
): Forecast {
  const left = leftOn(state, menu, on, now);
  const { mean } = expected(menu, state.pace, on.work);
  return { ...left, outageSeconds: OUTAGE_SECONDS + mean, outages: OUTAGES_PER_SECOND * left.mean };
}
