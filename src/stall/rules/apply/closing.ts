/** The ends of orders, and their undoing. */

import type { Instant } from "../../../time/instants.ts";
import { isNotQueued, orderKey } from "../../state/orders.ts";
import { type PaidPart, partsOf } from "../../state/payments.ts";
import type { EventOf } from "../../state/shapes/event.ts";
import type { Job } from "../../state/shapes/job.ts";
import type { Closed, Order } from "../../state/shapes/order.ts";
import type { StallState } from "../../state/state.ts";
import { noteSale } from "./daybook.ts";
import { moneyOut } from "./drawer.ts";
import { setOrder, tally } from "./rows.ts";

/** Restarts the time-out of a garment that waits outside the line for payment or for its customer. */
export const keptFrom = (job: Job, at: Instant): Job => (isNotQueued(job) ? { ...job, since: at } : job);

/** What an ending gave back: all that was paid, by the tenders it came by, unless it was carried over to another order. */
function paidBack({ closed: how, paid: payment }: Order): readonly PaidPart[] {
  const isBack = how?.as === "refunded" || how?.as === "exchanged";
  return isBack && how.carried === undefined && payment !== null ? partsOf(payment) : [];
}

function countClosed(state: StallState, { as, at }: Closed, times: 1 | -1): void {
  if (as !== "collected" && as !== "dropped") return;
  tally(state, at, (bucket) => ({ [as]: bucket[as] + times }));
}

/** Closes an order, open or already closed: a collected one may be refunded later. */
export function closed(
  state: StallState,
  { number, as, carried, unexchanged }: EventOf<"closed">,
  at: Instant,
): void {
  const order = state.anyOrder(number);
  if (order === undefined) throw new Error(`the journal closes order ${number}, which does not exist`);
  const marks = {
    ...(carried === undefined ? {} : { carried }),
    ...(unexchanged === undefined ? {} : { unexchanged }),
  };
  const how: Closed = { as, at, before: order.closed, ...marks };
  moneyOut(state, at, paidBack({ ...order, closed: how }));
  state.orders.delete(orderKey(number));
  state.past.set(orderKey(number), { ...order, closed: how });
  if (unexchanged === undefined) noteSale(state, order, { ...order, closed: how }, at);
  countClosed(state, how, 1);
}

/** Undoes the last closing: the order is as it was before. */
export function reopened(state: StallState, number: number, at: Instant): void {
  const order = state.past.get(orderKey(number));
  if (order === undefined || order.closed === null) {
    throw new Error(`the journal reopens order ${number}, which is not closed`);
  }
  countClosed(state, order.closed, -1);
  moneyOut(state, at, paidBack(order), -1);
  // What was dropped because nobody came or paid in time is kept as long again, or it would be dropped at once.
  const jobs = order.jobs.map((job): Job => keptFrom(job, at));
  const { closing: _, ...rest } = order;
  const before: Order = { ...rest, jobs, closed: order.closed.before };
  noteSale(state, order, before, at);
  if (before.closed !== null) return state.past.set(orderKey(number), before);
  state.past.delete(orderKey(number));
  setOrder(state, before);
}
