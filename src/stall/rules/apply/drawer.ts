/** The drawer of the day: money that changes hands is noted from when its float was set. */
import type { Tender } from "../../../model/orders/order.ts";
import type { Instant } from "../../../time/instants.ts";
import { accountDay } from "../../state/account-day.ts";
import { type DayDrawer, NO_DRAWER } from "../../state/day-rows.ts";
import type { PaidPart } from "../../state/payments.ts";
import type { EventOf } from "../../state/shapes/event.ts";
import type { StallState } from "../../state/state.ts";
import { changeTotals } from "./daybook.ts";

const drawerAt = (state: StallState, at: Instant): DayDrawer | undefined =>
  state.dayTotals.get(accountDay(state, at))?.drawer;

const put = (state: StallState, at: Instant, drawer: DayDrawer): void =>
  changeTotals(state, at, () => ({ drawer }));

/** Money goes into the drawer or the card's account, or out of it; nothing is noted before the float was set. */
function moved(
  state: StallState,
  at: Instant,
  field: "in" | "out" | "tips",
  parts: readonly PaidPart[],
  times: 1 | -1 = 1,
): void {
  const drawer = drawerAt(state, at);
  if (drawer === undefined) return;
  const moves = { ...drawer.moves };
  for (const { tender, amount } of parts) {
    const before = moves[tender] ?? { in: 0, out: 0, tips: 0 };
    moves[tender] = { ...before, [field]: before[field] + times * amount };
  }
  put(state, at, { ...drawer, moves });
}

/** Records a payment with its tip, or takes that back. */
export function moneyIn(
  state: StallState,
  at: Instant,
  parts: readonly PaidPart[],
  tips: readonly PaidPart[],
  times: 1 | -1 = 1,
): void {
  moved(state, at, "in", [...parts, ...tips], times);
  moved(state, at, "tips", tips, times);
}

/** Money that was given back to a customer; or that undone. */
export const moneyOut = (
  state: StallState,
  at: Instant,
  parts: readonly PaidPart[],
  times: 1 | -1 = 1,
): void => moved(state, at, "out", parts, times);

export function floatSet(state: StallState, { amount }: EventOf<"float-set">, at: Instant): void {
  put(state, at, { ...(drawerAt(state, at) ?? NO_DRAWER), float: amount });
}

export function paidOut(state: StallState, { amount, reason }: EventOf<"paid-out">, at: Instant): void {
  const drawer = drawerAt(state, at) ?? NO_DRAWER;
  put(state, at, { ...drawer, paidOut: [...drawer.paidOut, { at, amount, reason }] });
}

export function drawerCounted(
  state: StallState,
  { counted, expected, handOver }: EventOf<"drawer-counted">,
  at: Instant,
): void {
  const drawer = drawerAt(state, at) ?? NO_DRAWER;
  put(state, at, { ...drawer, counts: [...drawer.counts, { at, counted, expected, handOver }] });
}

/** The tender that money goes back by if nothing else is said: as the first of it came, else in cash. */
export const backBy = (paid: { readonly tender: Tender } | null): Tender => paid?.tender ?? "cash";
