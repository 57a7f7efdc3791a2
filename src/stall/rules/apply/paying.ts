/** Payments, claims, and money handed back. */

import type { Instant } from "../../../time/instants.ts";
import { isNotQueued, orderKey, stageOf } from "../../state/orders.ts";
import { partsOf, paymentOf, withTip } from "../../state/payments.ts";
import type { EventOf } from "../../state/shapes/event.ts";
import type { Job } from "../../state/shapes/job.ts";
import type { Order } from "../../state/shapes/order.ts";
import type { StallState } from "../../state/state.ts";
import { noteSale } from "./daybook.ts";
import { backBy, moneyIn, moneyOut } from "./drawer.ts";
import { bare, openOrder, setOrder } from "./rows.ts";

/** The order in line: where it was, or at the end if it was outside. */
function joined(order: Order, dueBy: Instant, turn: number, at: Instant): Order {
  if (order.waitsFrom !== null) return order;
  const jobs = order.jobs.map(
    (job): Job =>
      isNotQueued(job) ? { ...bare(job, at), stage: "waiting", turn: turn + job.n, overtaken: 0 } : job,
  );
  return { ...order, jobs, waitsFrom: at, dueBy };
}

export function paid(
  state: StallState,
  { number, tender, amount, parts, tip = 0, carried, dueBy, turn }: EventOf<"paid">,
  at: Instant,
): void {
  const order = openOrder(state, number);
  const payment = paymentOf(parts ?? [{ tender, amount }], at);
  const after = withTip({ ...order, paid: payment }, tender, tip);
  noteSale(state, order, after, at);
  if (carried === undefined) moneyIn(state, at, partsOf(payment), tip > 0 ? [{ tender, amount: tip }] : []);
  setOrder(state, joined(after, dueBy, turn, at));
}

export function claimed(state: StallState, { number, dueBy, turn }: EventOf<"claimed">, at: Instant): void {
  const order: Order = { ...openOrder(state, number), claimed: true };
  // What is to be paid first stays outside the line.
  setOrder(state, stageOf(order) === "to-pay" ? order : joined(order, dueBy, turn, at));
}

export function unpaid(
  state: StallState,
  { number, leavesLine, carried }: EventOf<"undo-paid">,
  at: Instant,
): void {
  const { due: _, tips = [], ...before } = openOrder(state, number);
  if (before.paid !== null && carried === undefined) moneyIn(state, at, partsOf(before.paid), tips, -1);
  const { giveBack: _back, ...kept } = before;
  const order: Order = { ...(carried === undefined ? before : kept), paid: null };
  noteSale(state, openOrder(state, number), order, at);
  if (!leavesLine) return setOrder(state, order);
  const jobs = order.jobs.map((job): Job => ({ ...bare(job, at), stage: "to-pay" }));
  setOrder(state, { ...order, jobs, waitsFrom: null, dueBy: null });
}

/** The takings were changed when the garments were removed, so they stay. */
export function givenBack(state: StallState, { number, amount }: EventOf<"given-back">, at: Instant): void {
  const order = state.anyOrder(number);
  if (order === undefined)
    throw new Error(`the journal gives money back for order ${number}, which does not exist`);
  moneyOut(state, at, [{ tender: backBy(order.paid), amount }]);
  const { giveBack = 0, gaveBack = 0, ...rest } = order;
  const [owed, handed] = [giveBack - amount, gaveBack + amount];
  const after: Order = {
    ...rest,
    ...(owed > 0 ? { giveBack: owed } : {}),
    ...(handed > 0 ? { gaveBack: handed } : {}),
  };
  if (order.closed === null) setOrder(state, after);
  else state.past.set(orderKey(number), after);
}
