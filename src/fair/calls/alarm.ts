/** The work of a fair's alarm: news for stalls, and people to erase. */

import { faultFacts, log } from "../../tracing/log.ts";
import type { HearsFair, Identity } from "../reports.ts";
import type { FairRow, FairTransactions, StallRow } from "../transact.ts";
import { erase } from "./erasing.ts";
import { sendingOf } from "./texts.ts";

/** Stalls called in one alarm: the platform's free plan allows 50 calls a request. */
const TOLD_AT_ONCE = 40;
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

/** Sends waiting news to at most 40 stalls; the next alarm goes on with the others. */
export async function tellStalls(transactions: FairTransactions, stallOf: StallOf): Promise<void> {
  const fair = transactions.fair();
  if (fair === undefined) return;
  await Promise.all(
    transactions.outbox.due(transactions.now(), TOLD_AT_ONCE).map(async (row) => {
      const stall = transactions.stall(row.stall);
      if (stall === undefined) return transactions.transact(() => transactions.outbox.told(row));
      const { generation, earlierUntil } = stall;
      try {
        const sending = sendingOf(transactions, row.stall);
        const word = transactions.organiser.word(row.stall);
        await stallOf(fair, stall).open(identityOf(fair, stall), generation, earlierUntil, sending, word);
        transactions.transact(() => transactions.outbox.told(row));
      } catch (error) {
        log("warn", "a stall could not be reached", { stall: row.stall, ...faultFacts(error) });
        transactions.transact((now) => transactions.outbox.failed(row, now));
      }
    }),
  );
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
