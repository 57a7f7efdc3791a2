/** The work of a fair's alarm: news for stalls, and people to erase. */

import { faultFacts, log } from "../../tracing/log.ts";
import type { HearsFair, Identity } from "../reports.ts";
import type { TellRow } from "../tell-outbox.ts";
import type { FairRow, FairTransactions, StallRow } from "../transact.ts";
import { erase } from "./erasing.ts";
import { sendingOf } from "./texts.ts";

/** Stalls called in one alarm: the platform's free plan allows 50 calls a request. */
const TOLD_AT_ONCE = 40;
/** Reaches the object of one of the fair's stalls. */
export type StallOf = (fair: FairRow, stall: StallRow) => HearsFair;

/** The others do not wait longer for a stall that hangs; it gets the news again, and repeats change nothing. */
const PATIENCE_MS = 4000;

async function inTime(answer: Promise<void>): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`no answer for ${PATIENCE_MS} ms`)), PATIENCE_MS);
  });
  try {
    await Promise.race([answer, late]);
  } finally {
    clearTimeout(timer);
  }
}

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

/** Sends waiting news to at most 40 stalls; the next alarm goes on with the others. */
export async function tellStalls(transactions: FairTransactions, stallOf: StallOf): Promise<void> {
  const fair = transactions.fair();
  if (fair === undefined) return;
  const due = transactions.outbox.due(transactions.now(), TOLD_AT_ONCE);
  if (due.length === 0) return;
  const told = await Promise.all(due.map((row) => tell(transactions, stallOf, fair, row)));
  // One change for all: each would read every row of the outbox to set the alarm.
  transactions.transact((now) => {
    for (const [n, row] of due.entries())
      if (told[n] === true) transactions.outbox.told(row);
      else transactions.outbox.failed(row, now);
  });
}

/** Sends one stall its news; false if it did not take it. A stall that does not exist needs none. */
async function tell(
  transactions: FairTransactions,
  stallOf: StallOf,
  fair: FairRow,
  { stall: id }: TellRow,
): Promise<boolean> {
  const stall = transactions.stall(id);
  if (stall === undefined) return true;
  try {
    const sending = sendingOf(transactions, id);
    const word = transactions.organiser.word(id);
    const { generation, earlierUntil } = stall;
    await inTime(stallOf(fair, stall).open(identityOf(fair, stall), generation, earlierUntil, sending, word));
    return true;
  } catch (error) {
    log("warn", "a stall could not be reached", { stall: id, ...faultFacts(error) });
    return false;
  }
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
