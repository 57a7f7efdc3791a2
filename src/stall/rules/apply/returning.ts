/** What garments that come back do to their order, to the day's account and to the rack. */
import { jobParts } from "../../../model/basics/ids.ts";
import type { Instant } from "../../../time/instants.ts";
import { accountDay } from "../../state/account-day.ts";
import {
  jobOf,
  lineOf,
  orderKey,
  returnedOf,
  shareOff,
  withJobBack,
  withoutJob,
  withoutReturned,
} from "../../state/orders.ts";
import { withParts as paidAgain, partsOf, withLess } from "../../state/payments.ts";
import type { EventOf } from "../../state/shapes/event.ts";
import type { Line, RackItem } from "../../state/shapes/line.ts";
import type { Order, Returned } from "../../state/shapes/order.ts";
import type { StallState } from "../../state/state.ts";
import { changeChoice, changeTotals, withParts } from "./daybook.ts";
import { moneyOut } from "./drawer.ts";

type Refund = NonNullable<Returned["refund"]>;

function orderAt(state: StallState, number: number): Order {
  const order = state.anyOrder(number);
  if (order === undefined) throw new Error(`a garment came back to order ${number}, which does not exist`);
  return order;
}

/** Writes an order that is open or finished. */
function putOrder(state: StallState, order: Order): void {
  if (order.closed === null) state.orders.set(orderKey(order.number), order);
  else state.past.set(orderKey(order.number), order);
}

/** Takes a refund out of the takings; with `times` -1 puts it back. */
function noteGivenBack(state: StallState, line: Line, refund: Refund, times: 1 | -1, at: Instant): void {
  const { amount, tax, parts, carried } = refund;
  if (carried === undefined && parts !== null) moneyOut(state, at, parts, times);
  changeChoice(state, line, at, (row) => ({
    returned: row.returned + times,
    givenBack: row.givenBack + times * (amount - tax),
  }));
  const by = parts?.map((part) => ({ by: part.tender, amount: part.amount }));
  const back = parts?.reduce((sum, part) => sum + part.amount, 0) ?? amount;
  changeTotals(state, at, (totals) => ({
    takings: withParts(totals.takings, by ?? [{ by: "not-noted", amount }], (taken, part) => ({
      returns: taken.returns + times,
      givenBack: taken.givenBack + times * part.amount,
    })),
    taxGivenBack: totals.taxGivenBack + times * tax,
    // If less was paid than the garment cost, only what was paid is refunded.
    differenceGivenBack: totals.differenceGivenBack + times * (back - amount),
  }));
}

/** A refund of one garment: it leaves its order, and its price leaves the sales. */
export function garmentRefunded(
  state: StallState,
  { number, n, amount, tax, carried, key }: EventOf<"garment-refunded">,
  at: Instant,
): void {
  const before = orderAt(state, number);
  const job = jobOf(before, n);
  const line = lineOf(before, job);
  const { paid } = before;
  const less = paid === null ? null : withLess(paid, Math.min(amount, paid.amount));
  const kept = less === null ? [] : partsOf(less);
  const parts = (paid === null ? [] : partsOf(paid)).flatMap(({ tender, amount: was }, index) => {
    const back = was - (kept[index]?.amount ?? 0);
    return back === 0 ? [] : [{ tender, amount: back }];
  });
  const refund: Refund = {
    amount,
    tax,
    parts: paid === null ? null : parts,
    ...(carried === undefined ? {} : { carried }),
  };
  const { returned = [] } = before;
  putOrder(state, {
    ...withoutJob(before, n),
    tax: before.tax - tax,
    total: before.total - amount,
    paid: less,
    ...(key === undefined ? {} : { returned: [...returned, { job, line, key, refund }] }),
  });
  noteGivenBack(state, line, refund, 1, at);
}

/** Undoes the refund of a garment: garment and money return to the order, and it no longer counts as unsold. */
export function undoGarmentRefunded(
  state: StallState,
  { number, n }: EventOf<"undo-garment-refunded">,
  at: Instant,
): void {
  const before = orderAt(state, number);
  const back = returnedOf(before, n);
  if (back?.refund === undefined) throw new Error(`garment ${n} of order ${number} was never refunded`);
  const { job, line, refund } = back;
  const order = withJobBack(withoutReturned(before, n), job, shareOff(line));
  putOrder(state, {
    ...order,
    tax: order.tax + refund.tax,
    total: order.total + refund.amount,
    paid: order.paid === null ? null : paidAgain(order.paid, refund.parts ?? []),
  });
  noteGivenBack(state, line, refund, -1, at);
  noteKept(state, line, at);
}

/** Undoes the count as unsold of a garment that was returned singly. */
export function noteKept(state: StallState, line: Line, at: Instant): void {
  if (line.own !== true) changeChoice(state, line, at, (row) => ({ unsold: row.unsold - 1 }));
}

/** Whether a garment of the rack counts as pressed and not sold: other fairs' and spoiled ones do not. */
const isCounted = ({ from }: Pick<RackItem, "from">): boolean => from === "order" || from === "garment";

/** A pressed garment hangs on the rack: one that came back alone was not counted as unsold by its order. */
export function racked(state: StallState, { key, item }: EventOf<"racked">, at: Instant): void {
  state.rack.set(key, { ...item, at, day: accountDay(state, at) });
  if (item.from === "garment") changeChoice(state, item, at, (row) => ({ unsold: row.unsold + 1 }));
}

export function unracked(state: StallState, { key, as }: EventOf<"unracked">, at: Instant): void {
  const item = state.rack.get(key);
  if (item === undefined) throw new Error(`the journal takes ${key} off the rack, where it is not`);
  if (as === "released") {
    const { keptFor: _, ...free } = item;
    return state.rack.set(key, free);
  }
  state.rack.delete(key);
  if (as === "sold" && isCounted(item)) changeChoice(state, item, at, (row) => ({ unsold: row.unsold - 1 }));
  // The order it was made for cannot have it again, unless the tap that threw it away is itself undone.
  const isGone = as === "sold" || (as === "thrown" && item.at < at);
  const { number, n } = jobParts(key);
  const order = isGone ? state.anyOrder(number) : undefined;
  if (order !== undefined) putOrder(state, { ...order, soldOn: [...(order.soldOn ?? []), n] });
}

/** A garment that was sold hangs on the rack as before: it is unsold again, and may be its order's again. */
export function undoUnracked(state: StallState, { key, item }: EventOf<"undo-unracked">, at: Instant): void {
  state.rack.set(key, item);
  if (isCounted(item)) changeChoice(state, item, at, (row) => ({ unsold: row.unsold + 1 }));
  const { number, n } = jobParts(key);
  const order = state.anyOrder(number);
  if (order === undefined) return;
  const { soldOn = [], ...rest } = order;
  const left = soldOn.filter((sold) => sold !== n);
  putOrder(state, left.length === 0 ? rest : { ...rest, soldOn: left });
}

/** Money that is owed on an order which is over; 0: no longer. */
export function owedSet(state: StallState, { number, amount }: EventOf<"owed-set">): void {
  if (amount > 0) state.owed.set(orderKey(number), amount);
  else state.owed.delete(orderKey(number));
}
