/** Which crew member took which payments: kept with the people, by day, and erased with them. */
import type { Instant } from "../../time/instants.ts";
import { accountDay } from "../state/account-day.ts";
import type { PaidPart } from "../state/payments.ts";
import type { StallEvent } from "../state/shapes/event.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";

/** The payments among some events, by order, tips included. */
function taken(events: readonly StallEvent[]): ReadonlyMap<number, readonly PaidPart[]> {
  const found = new Map<number, readonly PaidPart[]>();
  for (const event of events) {
    if (event.type !== "paid" && event.type !== "more-paid") continue;
    const { tender, amount, tip = 0 } = event;
    const parts = (event.type === "paid" ? event.parts : undefined) ?? [{ tender, amount }];
    const tips = tip > 0 ? [{ tender, amount: tip }] : [];
    found.set(event.number, [...(found.get(event.number) ?? []), ...parts, ...tips]);
  }
  return found;
}

/** Notes who took the payments among some events, and forgets who took one that was taken back. */
export function noteTakers(
  { state, people }: UnitOfWork,
  events: readonly StallEvent[],
  who: string | null,
  now: Instant,
): void {
  const day = accountDay(state, now);
  for (const event of events) {
    if (event.type !== "undo-paid") continue;
    const { paidTo, took = [] } = people.atOrder(event.number);
    if (paidTo !== undefined) people.noteTaken(day, event.number, paidTo, took, -1);
    people.notePaidTo(event.number, null);
  }
  for (const [number, parts] of taken(events)) {
    people.notePaidTo(number, who);
    if (who !== null) people.noteTaken(day, number, who, parts, 1);
  }
}
