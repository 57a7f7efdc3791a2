/** What the events of the press floor do to a stall's state. */

import { withValue } from "../../../maths/log-histogram.ts";
import type { Instant } from "../../../time/instants.ts";
import { accountDay } from "../../state/account-day.ts";
import { lostPieces, piecesOf } from "../../state/counts.ts";
import { jobOf, lineOf, stageOf, withInstead, withJob, withoutJob } from "../../state/orders.ts";
import { paceAfter, type TimedGarment, withQuotesCorrected, workClass } from "../../state/pace.ts";
import { retotalled } from "../../state/payments.ts";
import type { EventOf } from "../../state/shapes/event.ts";
import type { Job } from "../../state/shapes/job.ts";
import type { Line } from "../../state/shapes/line.ts";
import type { Order } from "../../state/shapes/order.ts";
import type { StallState } from "../../state/state.ts";
import { changeTotals, noteHandling, noteReady, noteSale } from "./daybook.ts";
import {
  addCount,
  addSpoiled,
  bare,
  changeJob,
  mayBePressed,
  openOrder,
  rank,
  setOrder,
  setPress,
  tally,
} from "./rows.ts";

export function pulled(state: StallState, event: EventOf<"pulled">, at: Instant): void {
  changeJob(state, event, (job) => ({
    ...bare(job, at),
    ...rank(job),
    ...mayBePressed(job),
    stage: "pressing",
    press: event.press,
    countsFrom: event.countsFrom,
  }));
  if (event.set !== null) setPress(state, event.press, { heat: event.set });
}

/** Learns the pace from a pressed garment. People who serve several presses divide its time among them. */
function learnPace(state: StallState, job: Job, line: Line, at: Instant): void {
  if (state.menu === null || job.stage !== "pressing") return;
  const readyAt = Math.max(job.since, state.press(job.press).heat?.readyAt ?? job.since);
  const share = Math.min(1, (state.status.hands ?? Number.POSITIVE_INFINITY) / state.orderIndex.onPress.size);
  const heated = Math.min(readyAt, at) - job.since;
  const handled = at - job.countsFrom - heated;
  const lesson: TimedGarment = {
    work: workClass(line),
    press: job.press,
    at,
    handlingSeconds: at < readyAt ? null : (handled * share) / 1000,
    heatingSeconds: heated / 1000,
  };
  if (lesson.handlingSeconds !== null) noteHandling(state, line.platen, lesson.handlingSeconds, at);
  state.setPace(paceAfter(state.menu, state.pace, lesson));
}

/** A short garment was replaced by another of the same price, with its place in line. */
export function takenInstead(
  state: StallState,
  { number, n, line }: EventOf<"taken-instead">,
  at: Instant,
): void {
  const before = openOrder(state, number);
  const other = withInstead(before, n, line);
  const job = jobOf(other, n);
  const after = withJob(other, { ...bare(job, at), ...rank(job), stage: "waiting" });
  setOrder(state, after);
  noteSale(state, before, after, at);
}

export function pressed(state: StallState, event: EventOf<"pressed">, at: Instant): void {
  const before = openOrder(state, event.number);
  learnPace(state, jobOf(before, event.n), lineOf(before, jobOf(before, event.n)), at);
  changeJob(state, event, (job) => {
    if (job.stage !== "pressing") throw new Error(`garment ${event.number}-${event.n} is not on a press`);
    return { ...bare(job, at), stage: "pressed", press: job.press, turn: job.turn };
  });
  const order = openOrder(state, event.number);
  const line = lineOf(order, jobOf(order, event.n));
  for (const piece of piecesOf(line)) addCount(state, piece, "pressed", 1, at);
  changeTotals(state, at, (totals) => ({ pressed: totals.pressed + 1 }));
  tally(state, at, (bucket) => ({
    pressed: bucket.pressed + 1,
    pressSeconds: bucket.pressSeconds + event.seconds,
  }));
  if (stageOf(order) !== "ready") return;
  setOrder(state, { ...order, readyAt: at });
  countReady(state, order, at, 1, at);
}

/** Removes a garment from its order, which may be ready without it; its price leaves the sales. */
export function leftOut(
  state: StallState,
  { number, n, tax, total }: EventOf<"left-out">,
  at: Instant,
): void {
  const before = openOrder(state, number);
  const rest = retotalled(withoutJob(before, n), { tax, total });
  const ready = stageOf(rest) === "ready";
  const after: Order = { ...rest, readyAt: ready ? at : null };
  setOrder(state, after);
  noteSale(state, before, after, at);
  if (ready) countReady(state, after, at, 1, at);
}

/** Counts an order as ready at an instant (its wait, its promise), or takes that count back. */
export function countReady(
  state: StallState,
  order: Order,
  readyAt: Instant,
  times: 1 | -1,
  at: Instant,
): void {
  const { waitsFrom, dueBy } = order;
  const over = dueBy === null ? 0 : (readyAt - dueBy) / 1000;
  noteReady(state, order, readyAt, times, at);
  if (dueBy !== null && times === 1)
    state.setPace(withQuotesCorrected(state.pace, over <= 0, state.orderIndex.underWay.length));
  tally(state, readyAt, (bucket) => ({
    ...(waitsFrom === null ? {} : { waits: withValue(bucket.waits, (readyAt - waitsFrom) / 1000, times) }),
    ...(over <= 0 ? {} : { over: withValue(bucket.over, over, times) }),
    promised: bucket.promised + (dueBy === null ? 0 : times),
    kept: bucket.kept + (dueBy !== null && readyAt <= dueBy ? times : 0),
  }));
}

/** A pressed garment no longer counts as pressed; its order is no longer ready. */
export function takeBackPress(state: StallState, order: Order, n: number, at: Instant): void {
  const job = jobOf(order, n);
  for (const piece of piecesOf(lineOf(order, job))) addCount(state, piece, "pressed", -1, at);
  changeTotals(state, at, (totals) => ({ pressed: totals.pressed - 1 }));
  tally(state, job.since, (bucket) => ({ pressed: bucket.pressed - 1 }));
  if (order.readyAt === null) return;
  countReady(state, order, order.readyAt, -1, at);
  setOrder(state, { ...order, readyAt: null, told: null });
}

export function spoiled(state: StallState, event: EventOf<"spoiled">, at: Instant): void {
  const order = openOrder(state, event.number);
  const job = jobOf(order, event.n);
  if (job.stage === "pressed") takeBackPress(state, order, event.n, at);
  countSpoiled(state, order, event, 1, at, at);
  const { lost, reason } = event;
  changeJob(state, event, (spoilt) => ({
    ...bare(spoilt, at),
    stage: "waiting",
    turn: event.turn,
    overtaken: 0,
    spoiled: { lost, reason, at, day: accountDay(state, at) },
  }));
}

/** A spoil is undone: its pieces are back, and the garment keeps its place. */
export function unspoiled(state: StallState, event: EventOf<"undo-spoiled">, at: Instant): void {
  const order = openOrder(state, event.number);
  countSpoiled(state, order, event, -1, jobOf(order, event.n).spoiled?.at ?? at, at);
  // A short garment stays short until its pieces are free: the rest of them may have been promised since.
  changeJob(state, event, (job) => ({
    ...bare(job, at),
    ...rank(job),
    stage: job.stage === "short" ? "short" : "waiting",
  }));
}

/** Counts a lost try, or takes that count back; `spoiledAt` is when it was lost. */
function countSpoiled(
  state: StallState,
  order: Order,
  { n, lost, reason }: EventOf<"spoiled" | "undo-spoiled">,
  times: 1 | -1,
  spoiledAt: Instant,
  at: Instant,
): void {
  for (const piece of lostPieces(lineOf(order, jobOf(order, n)), lost))
    addSpoiled(state, piece, reason, times, at);
  changeTotals(state, at, (totals) => ({ spoiled: totals.spoiled + times }));
  state.setPace({ ...state.pace, spoiled: state.pace.spoiled + times });
  tally(state, spoiledAt, (bucket) => ({ spoiled: bucket.spoiled + times }));
}
