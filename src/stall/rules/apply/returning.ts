/** What garments that come back do to their order, to the day's account and to the rack. */
import { jobParts } from "../../../model/basics/ids.ts";
import type { Instant } from "../../../time/instants.ts";
import { accountDay } from "../../state/account-day.ts";
import type { Order, StallEvent } from "../../state/facts.ts";
import { jobOf, lineOf, orderKey, withoutJob } from "../../state/orders.ts";
import { partsOf, withLess } from "../../state/payments.ts";
import type { StallState } from "../../state/state.ts";
import { changeChoice, changeTotals, withParts } from "./daybook.ts";
import { moneyOut } from "./drawer.ts";

type EventOf<T extends StallEvent["type"]> = Extract<StallEvent, { readonly type: T }>;

/** Writes an order that is open or finished. */
function putOrder(state: StallState, order: Order): void {
  if (order.closed === null) state.orders.set(orderKey(order.number), order);
  else state.past.set(orderKey(order.number), order);
}

/** A garment leaves its order with what it brought; that is given back, and no sale any more. */
export function garmentRefunded(
  state: StallState,
  { number, n, amount, tax, carried }: EventOf<"garment-refunded">,
  at: Instant,
): void {
  const before = state.anyOrder(number);
  if (before === undefined)
    throw new Error(`the journal refunds a garment of order ${number}, which does not exist`);
  const line = lineOf(before, jobOf(before, n));
  const { paid } = before;
  const back = paid === null ? amount : Math.min(amount, paid.amount);
  const after: Order = {
    ...withoutJob(before, n),
    tax: before.tax - tax,
    total: before.total - amount,
    paid: paid === null ? null : withLess(paid, back),
  };
  putOrder(state, after);
  const kept = after.paid === null ? [] : partsOf(after.paid);
  const parts =
    paid === null
      ? [{ by: "not-noted" as const, amount }]
      : partsOf(paid).flatMap(({ tender, amount: was }, index) => {
          const less = was - (kept[index]?.amount ?? 0);
          return less === 0 ? [] : [{ by: tender, amount: less }];
        });
  if (carried === undefined && paid !== null)
    moneyOut(
      state,
      at,
      parts.flatMap((part) => (part.by === "not-noted" ? [] : [{ tender: part.by, amount: part.amount }])),
    );
  changeChoice(state, line, at, (row) => ({
    returned: row.returned + 1,
    givenBack: row.givenBack + amount - tax,
  }));
  changeTotals(state, at, (totals) => ({
    takings: withParts(totals.takings, parts, (taken, part) => ({
      returns: taken.returns + 1,
      givenBack: taken.givenBack + part.amount,
    })),
    taxGivenBack: totals.taxGivenBack + tax,
    // What was paid less than the garment cost was never there to be given back.
    differenceGivenBack: totals.differenceGivenBack + back - amount,
  }));
}

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
  if (as !== "sold") return;
  if (item.from === "order" || item.from === "garment")
    changeChoice(state, item, at, (row) => ({ unsold: row.unsold - 1 }));
  // The order it was made for cannot have it again.
  const { number, n } = jobParts(key);
  const order = state.anyOrder(number);
  if (order !== undefined) putOrder(state, { ...order, soldOn: [...(order.soldOn ?? []), n] });
}

/** Money that is owed on an order which is over; 0: no longer. */
export function owedSet(state: StallState, { number, amount }: EventOf<"owed-set">): void {
  if (amount > 0) state.owed.set(orderKey(number), amount);
  else state.owed.delete(orderKey(number));
}
