/** The few ways in which every event changes a row. */

import type { PressId } from "../../../model/basics/ids.ts";
import type { SpoilReason } from "../../../model/orders/taps.ts";
import { type Bucket, bucketKey, EMPTY_BUCKET } from "../../../time/bucket.ts";
import type { Instant } from "../../../time/instants.ts";
import { isNotQueued, jobOf, orderKey, withJob } from "../../state/orders.ts";
import type { Job } from "../../state/shapes/job.ts";
import type { Order } from "../../state/shapes/order.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { PressState, StallState } from "../../state/state.ts";
import { changePiece, noteSpoiled } from "./daybook.ts";

export function addCount(
  state: StallState,
  piece: PieceKey,
  field: "delivered" | "corrected" | "pressed",
  pieces: number,
  at: Instant,
): void {
  const count = state.count(piece);
  state.counts.set(piece, { ...count, [field]: count[field] + pieces });
  changePiece(state, piece, at, (row) => ({ [field]: row[field] + pieces }));
}

export function addSpoiled(
  state: StallState,
  piece: PieceKey,
  reason: SpoilReason,
  times: 1 | -1,
  at: Instant,
): void {
  const count = state.count(piece);
  state.counts.set(piece, { ...count, spoiled: count.spoiled + times });
  noteSpoiled(state, piece, reason, times, at);
}

export function tally(state: StallState, at: Instant, change: (bucket: Bucket) => Partial<Bucket>): void {
  const key = bucketKey(at);
  const bucket = state.buckets.get(key) ?? EMPTY_BUCKET;
  state.buckets.set(key, { ...bucket, ...change(bucket), changed: state.version + 1 });
}

export function openOrder(state: StallState, number: number): Order {
  const order = state.order(number);
  if (order === undefined) throw new Error(`the journal names order ${number}, which is not open`);
  return order;
}

export function setOrder(state: StallState, order: Order): void {
  state.orders.set(orderKey(order.number), order);
}

export function changeJob(
  state: StallState,
  { number, n }: { readonly number: number; readonly n: number },
  change: (job: Job) => Job,
): void {
  const order = openOrder(state, number);
  setOrder(state, withJob(order, change(jobOf(order, n))));
}

/** The members that a job keeps in every stage. */
export const bare = (job: Job, at: Instant) => ({ n: job.n, line: job.line, since: at });

/** A job's place in line, to be kept when its stage changes. */
export function rank(job: Job): { readonly turn: number; readonly overtaken: number } {
  if (isNotQueued(job)) throw new Error(`a garment that is ${job.stage} has no turn`);
  return { turn: job.turn, overtaken: job.stage === "pressed" ? 0 : job.overtaken };
}

/** The members a job keeps when it moves while off the presses. */
export const inLine = (job: Job, at: Instant) => ({
  ...bare(job, at),
  ...rank(job),
  ...(job.spoiled === undefined ? {} : { spoiled: job.spoiled }),
  ...mayBePressed(job),
});

/** The mark that a silent press may have pressed the garment, kept until somebody says what became of it. */
export const mayBePressed = ({ letGo }: Job) => (letGo === undefined ? {} : { letGo });

export function setPress(state: StallState, press: PressId, change: Partial<PressState>): void {
  state.presses.set(press, { ...state.press(press), ...change });
}
