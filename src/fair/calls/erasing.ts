/** When a fair forgets who wrote to whom, and that it does. */
import type { Instant } from "../../time/instants.ts";
import type { FairRow, FairTransactions } from "../transact.ts";

const DAY = 24 * 60 * 60 * 1000;
/** How long after the last closing the fair still knows who wrote to whom. */
const ERASED_AFTER = 30 * DAY;
/** Nobody is erased sooner than this after the hours changed or a clock jumped, so that a typo can be corrected. */
const SECOND_THOUGHTS = 2 * DAY;
const ERASED_AT_ONCE = 500;

/** When the fair closes for the last time. */
export const lastClosing = ({ openings }: Pick<FairRow, "openings">): Instant =>
  Math.max(...openings.map(({ closes }) => Date.parse(closes)));

const erasedAfter = (fair: FairRow): Instant => lastClosing(fair) + ERASED_AFTER;

/** Notes when the people of a fair go, if it has any and that is not noted yet. Call it inside a change. */
export function eraseLater({ kv }: FairTransactions, fair: FairRow, now: Instant): void {
  // Waited for "in the future", the clock was moved back since: its time is worked out again.
  const movedBack = (kv.get<Instant>("erase-waited") ?? 0) > now;
  if (movedBack) kv.delete("erase-waited");
  if (movedBack || kv.get<Instant>("erase-at") === undefined)
    kv.put("erase-at", Math.max(erasedAfter(fair), now + SECOND_THOUGHTS));
}

/** The same after hours changed. */
export function eraseByNewHours({ kv }: FairTransactions, fair: FairRow, now: Instant): void {
  if (kv.get<Instant>("erase-at") === undefined) return;
  kv.put("erase-at", Math.max(erasedAfter(fair), now + SECOND_THOUGHTS));
}

/** Erases a page of people if it is time; the next ringing takes the next page. */
export function erase(transactions: FairTransactions, fair: FairRow): void {
  transactions.transact((now) => {
    const { kv, routing, contacts } = transactions;
    const at = kv.get<Instant>("erase-at");
    if (at === undefined || at > now) return;
    // Past its time by more than an alarm is ever late: the clock jumped, or nothing ran for long. Waits once more.
    if (now - at > DAY && kv.get<Instant>("erase-waited") === undefined) {
      kv.put("erase-waited", now);
      kv.put("erase-at", Math.max(erasedAfter(fair), now + SECOND_THOUGHTS));
      return;
    }
    contacts.erase();
    if (routing.erase(ERASED_AT_ONCE)) return;
    kv.delete("erase-at");
    kv.delete("erase-waited");
  });
}
