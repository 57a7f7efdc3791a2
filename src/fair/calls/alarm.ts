/** What a fair does by its alarm: stalls to be told of changes, and people to erase. */

import type { Instant } from "../../time/instants.ts";
import { faultFacts, log } from "../../tracing/log.ts";
import type { HearsFair, Identity } from "../reports.ts";
import type { FairRow, FairTransactions, StallRow } from "../transact.ts";
import { sendingOf } from "./texts.ts";

/** Stalls told in one ringing: within the platform's 50 calls of one request on the free plan. */
const TOLD_AT_ONCE = 40;
const DAY = 24 * 60 * 60 * 1000;
/** How long after the last closing the fair still knows who wrote to whom. */
const ERASED_AFTER = 30 * DAY;
/** Nobody is erased sooner than this after hours changed or a clock was found to have jumped: a typo can be put right. */
const SECOND_THOUGHTS = 2 * DAY;
const ERASED_AT_ONCE = 500;

/** Reaches the object of one of the fair's stalls. */
export type StallOf = (fair: FairRow, stall: StallRow) => HearsFair;

const identityOf = (
  { fair, name: fairName, timeZone, openings, edition = 0 }: FairRow,
  { stall, name }: StallRow,
): Identity => ({
  fair,
  stall,
  name,
  fairName,
  timeZone,
  openings: openings.map(({ opens, closes }) => ({ opens: Date.parse(opens), closes: Date.parse(closes) })),
  ...(edition === 0 ? {} : { edition }),
});

/** Tells stalls what has changed, at most 40; the alarm goes on with the others. */
export async function tellStalls(transactions: FairTransactions, stallOf: StallOf): Promise<void> {
  const fair = transactions.fair();
  if (fair === undefined) return;
  await Promise.all(
    transactions.outbox.due(transactions.now(), TOLD_AT_ONCE).map(async (row) => {
      const stall = transactions.stall(row.stall);
      if (stall === undefined) return;
      const { generation, earlierUntil } = stall;
      try {
        const sending = sendingOf(transactions, row.stall);
        await stallOf(fair, stall).open(identityOf(fair, stall), generation, earlierUntil, sending);
        transactions.transact(() => transactions.outbox.told(row));
      } catch (error) {
        log("warn", "a stall could not be told", { stall: row.stall, ...faultFacts(error) });
        transactions.transact((now) => transactions.outbox.failed(row, now));
      }
    }),
  );
}

const erasedAfter = ({ openings }: FairRow): Instant =>
  Math.max(...openings.map(({ closes }) => Date.parse(closes))) + ERASED_AFTER;

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
function erase(transactions: FairTransactions, fair: FairRow): void {
  transactions.transact((now) => {
    const { kv, switchboard } = transactions;
    const at = kv.get<Instant>("erase-at");
    if (at === undefined || at > now) return;
    // Past its time by more than an alarm is ever late: the clock jumped, or nothing ran for long. Waits once more.
    if (now - at > DAY && kv.get<Instant>("erase-waited") === undefined) {
      kv.put("erase-waited", now);
      kv.put("erase-at", Math.max(erasedAfter(fair), now + SECOND_THOUGHTS));
      return;
    }
    if (switchboard.erase(ERASED_AT_ONCE)) return;
    kv.delete("erase-at");
    kv.delete("erase-waited");
  });
}

/** Does what fell due. Never throws: a thrown alarm is retried a few times and then lost for good. */
export async function ring(transactions: FairTransactions, stallOf: StallOf): Promise<void> {
  transactions.rang();
  try {
    const fair = transactions.fair();
    if (fair !== undefined) erase(transactions, fair);
    await tellStalls(transactions, stallOf);
  } catch (error) {
    log("error", "the fair's alarm failed and will ring again", faultFacts(error));
  }
  transactions.schedule(transactions.now());
}
