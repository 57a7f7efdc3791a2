/** What a change of an order does to it: other garments, another sum, and what that leaves to be taken or given. */
import type { Instant } from "../../../time/instants.ts";
import { jobOf, lineOf, nextNumbered, returnedOf, stageOf, withoutReturned } from "../../state/orders.ts";
import { partsOf, paymentOf, retotalled, withOwed, withTip } from "../../state/payments.ts";
import type { EventOf } from "../../state/shapes/event.ts";
import type { Order } from "../../state/shapes/order.ts";
import type { StallState } from "../../state/state.ts";
import { noteSale } from "./daybook.ts";
import { moneyIn } from "./drawer.ts";
import { countReady } from "./pressing.ts";
import { noteKept } from "./returning.ts";
import { openOrder, setOrder } from "./rows.ts";

export function changed(state: StallState, event: EventOf<"changed">, at: Instant): void {
  const { number, lines, jobs, tax, total, dueBy, bundles, discount } = event;
  const before = openOrder(state, number);
  const last = nextNumbered(before) - 1;
  const gone = last > (jobs.at(-1)?.n ?? 0) ? { numbered: last } : {};
  const atOnce = event.atOnce === undefined ? {} : { atOnce: event.atOnce };
  const { bundles: _, discount: __, ...plain } = retotalled(withReturns(before, event), { tax, total });
  const rest: Order = {
    ...plain,
    lines,
    jobs,
    dueBy,
    ...gone,
    ...(bundles === undefined ? {} : { bundles }),
    ...(discount === undefined ? {} : { discount }),
  };
  // A ready order can become cheaper, or have a garment exchanged from the rack; it is as ready as before.
  const isReady = stageOf(rest) === "ready";
  const ready = isReady && before.readyAt === null;
  // One of its garments was exchanged, so it is not ready any more.
  if (!isReady && before.readyAt !== null && before.atOnce === undefined)
    countReady(state, before, before.readyAt, -1, at);
  const after = ready ? { ...rest, ...atOnce, readyAt: at } : isReady ? rest : notReady(rest);
  setOrder(state, after);
  noteSale(state, before, after, at);
  if (ready && event.atOnce === undefined) countReady(state, after, at, 1, at);
  const kept = event.unexchanged === undefined ? undefined : returnedOf(before, event.unexchanged);
  if (kept !== undefined) noteKept(state, kept.line, at);
}

/** The order while it waits again. */
const notReady = ({ atOnce: _, ...order }: Order): Order => ({ ...order, readyAt: null, told: null });

/** The order with what is remembered of a garment of it that is exchanged, or without that once it is undone. */
function withReturns(order: Order, { exchanged, unexchanged }: EventOf<"changed">): Order {
  if (unexchanged !== undefined) return withoutReturned(order, unexchanged);
  if (exchanged === undefined) return order;
  const job = jobOf(order, exchanged.n);
  const { returned = [] } = order;
  return { ...order, returned: [...returned, { job, line: lineOf(order, job), key: exchanged.key }] };
}

export function morePaid(
  state: StallState,
  { number, tender, amount, tip = 0 }: EventOf<"more-paid">,
  at: Instant,
): void {
  const before = openOrder(state, number);
  if (before.paid === null) throw new Error(`the journal pays more for order ${number}, which is not paid`);
  const paid = paymentOf([...partsOf(before.paid), { tender, amount }], before.paid.at);
  const { due = 0, giveBack = 0 } = before;
  moneyIn(state, at, [{ tender, amount }], tip > 0 ? [{ tender, amount: tip }] : []);
  const owed = { due: Math.max(0, due - amount), giveBack };
  const after = withTip(withOwed({ ...before, paid }, owed), tender, tip);
  setOrder(state, after);
  noteSale(state, before, after, at);
}
