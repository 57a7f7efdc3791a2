/** What a change of an order does to it: other garments, another sum, and what that leaves to be taken or given. */
import type { Instant } from "../../../time/instants.ts";
import type { Order, StallEvent } from "../../state/facts.ts";
import { nextNumbered, stageOf } from "../../state/orders.ts";
import { partsOf, paymentOf, retotalled, withOwed } from "../../state/payments.ts";
import type { StallState } from "../../state/state.ts";
import { noteSale } from "./daybook.ts";
import { countReady } from "./pressing.ts";
import { openOrder, setOrder } from "./rows.ts";

type EventOf<T extends StallEvent["type"]> = Extract<StallEvent, { readonly type: T }>;

export function changed(
  state: StallState,
  { number, lines, jobs, tax, total, dueBy }: EventOf<"changed">,
  at: Instant,
): void {
  const before = openOrder(state, number);
  const last = nextNumbered(before) - 1;
  const gone = last > (jobs.at(-1)?.n ?? 0) ? { numbered: last } : {};
  const rest: Order = { ...retotalled(before, { tax, total }), lines, jobs, dueBy, ...gone };
  const ready = stageOf(rest) === "ready";
  const after: Order = { ...rest, readyAt: ready ? at : null };
  setOrder(state, after);
  noteSale(state, before, after, at);
  if (ready) countReady(state, after, at, 1, at);
}

export function morePaid(
  state: StallState,
  { number, tender, amount }: EventOf<"more-paid">,
  at: Instant,
): void {
  const before = openOrder(state, number);
  if (before.paid === null) throw new Error(`the journal pays more for order ${number}, which is not paid`);
  const paid = paymentOf([...partsOf(before.paid), { tender, amount }], before.paid.at);
  const { due = 0, giveBack = 0 } = before;
  const after = withOwed({ ...before, paid }, { due: Math.max(0, due - amount), giveBack });
  setOrder(state, after);
  noteSale(state, before, after, at);
}
