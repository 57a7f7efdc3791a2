/**
 * The outbox to the stalls: one row for each stall with news, without the news itself. The news is read when it is
 * sent, so a later change replaces an earlier one, and a repeat changes nothing.
 */
import type { StallId } from "../model/basics/ids.ts";
import type { Instant } from "../time/instants.ts";
import type { Rows } from "./rows.ts";

export type TellRow = {
  readonly stall: StallId;
  readonly dueAt: Instant;
  readonly attempts: number;
  /** When it was noted. */
  readonly since: Instant;
  /** Counts the news for this stall, so that news that arrived during a delivery is not taken as delivered. */
  readonly news: number;
};

const PREFIX = "tell:";
const FIRST_RETRY = 2_000;
const LONGEST_RETRY = 5 * 60_000;

export class TellOutbox {
  readonly #rows: Rows;

  constructor(rows: Rows) {
    this.#rows = rows;
  }

  #all(): readonly TellRow[] {
    return [...this.#rows.list<TellRow>({ prefix: PREFIX })].map(([, row]) => row);
  }

  /** Notes that some stalls have news waiting. */
  add(stalls: readonly StallId[], now: Instant): void {
    for (const stall of stalls) {
      const news = (this.#rows.get<TellRow>(PREFIX + stall)?.news ?? 0) + 1;
      this.#rows.put(PREFIX + stall, { stall, dueAt: now, attempts: 0, since: now, news } satisfies TellRow);
    }
  }

  /** The rows that are due, the longest due first. One "in the future" dates from before the clock was moved back. */
  due(now: Instant, most: number): readonly TellRow[] {
    return this.#all()
      .filter(({ dueAt, since }) => dueAt <= now || since > now)
      .sort((one, other) => one.dueAt - other.dueAt)
      .slice(0, most);
  }

  /** The stalls that do not have the latest news. */
  waiting(): readonly StallId[] {
    return this.#all().map(({ stall }) => stall);
  }

  nextDue(): Instant | undefined {
    const due = this.#all().map(({ dueAt }) => dueAt);
    return due.length === 0 ? undefined : Math.min(...due);
  }

  /** Notes that the stall has the news of this row, or does not exist any more. */
  told({ stall, news }: TellRow): void {
    if (this.#rows.get<TellRow>(PREFIX + stall)?.news === news) this.#rows.delete(PREFIX + stall);
  }

  /** Delivery failed: try again later, with double the delay each time. */
  failed(row: TellRow, now: Instant): void {
    if (this.#rows.get<TellRow>(PREFIX + row.stall)?.news !== row.news) return;
    const dueAt = now + Math.min(LONGEST_RETRY, FIRST_RETRY * 2 ** row.attempts);
    this.#rows.put(PREFIX + row.stall, { ...row, attempts: row.attempts + 1, dueAt } satisfies TellRow);
  }
}
