/** When the alarm must ring next, worked out from the state and the people's rows. */
import { type Instant, MINUTE } from "../../time/instants.ts";
import { lastOrdersDue } from "../line/closing-time.ts";
import { nextPromise } from "../line/lateness.ts";
import { nextLetGo } from "../line/reserve.ts";
import { opensAfter } from "../state/opening.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import { nextTextDue } from "./delivery.ts";
import { erasingDue } from "./erasing.ts";
import { reportDue } from "./report-to-fair.ts";

/** When the stall's alarm must ring next; null when there is nothing to do. */
export function nextDue(unit: UnitOfWork, now: Instant): Instant | null {
  return earliest([
    ...dueAnywhere(unit, now),
    ...(unit.people.moved.get("") === undefined ? dueAtStall(unit, now) : []),
  ]);
}

const earliest = (due: readonly Instant[]): Instant | null => (due.length === 0 ? null : Math.min(...due));

/** What is still due at the old address of a moved stall: texts, erasing, reports to the fair, older records. */
function dueAnywhere(unit: UnitOfWork, now: Instant): readonly Instant[] {
  const due = [
    nextTextDue(unit, now),
    erasingDue(unit),
    reportDue(unit, now),
    unit.forward.isDone ? null : now,
  ];
  return due.filter((at) => at !== null);
}

/** What is due for orders, presses and opening hours. */
function dueAtStall({ state }: UnitOfWork, now: Instant): readonly Instant[] {
  const due: Instant[] = [];
  const hold = state.orderIndex.holds.at(0);
  if (hold !== undefined) due.push(hold.at);
  const toPay = state.orderIndex.toPay.at(0);
  if (toPay !== undefined && state.menu !== null) due.push(toPay.at + state.menu.rules.payMinutes * MINUTE);
  const toClaim = state.orderIndex.toClaim.at(0);
  if (toClaim !== undefined && state.menu !== null)
    due.push(toClaim.at + state.menu.rules.claimMinutes * MINUTE);
  const promise = nextPromise(state);
  if (promise !== null) due.push(promise);
  const letGo = nextLetGo(state);
  if (letGo !== null) due.push(letGo);
  const lastOrders = state.menu === null ? null : lastOrdersDue(state, state.menu, now);
  if (lastOrders !== null) due.push(lastOrders.at);
  // When it opens its last orders are worked out, should nothing else happen that day.
  const opens = opensAfter(state, now);
  if (state.menu !== null && opens !== null) due.push(opens);
  return due;
}
