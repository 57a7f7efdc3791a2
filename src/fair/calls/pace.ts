/** The stalls' reports, and the pace that the organiser reads. */

import type { StallId } from "../../model/basics/ids.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { FairAnswer } from "../../model/fair/fair-refusal.ts";
import type { ThroughputQuery } from "../../model/fair/throughput.ts";
import { bucketKey } from "../../time/bucket.ts";
import type { Hours } from "../../time/fair-day.ts";
import type { Instant } from "../../time/instants.ts";
import { marksOf, type StallAccount } from "../account.ts";
import { askedSpan } from "../asked-span.ts";
import type { StallReport, Told } from "../reports.ts";
import { throughput } from "../throughput.ts";
import type { FairRow, FairTransactions, StallRow } from "../transact.ts";
import { gatewayVersion } from "./texts.ts";

/** The pace as JSON with its entity tag; the text is null if the reader has it. */
export type TaggedPace = { readonly tag: string; readonly text: string | null };

/** Renderings kept for readers of the same figures. */
const MOST_RENDERED = 8;

const isOlder = (report: StallReport, { version, heardAt }: StallRow): boolean =>
  report.version < version || (report.version === version && report.at < (heardAt ?? 0));

/**
 * Stores what a stall reports. Its buckets come whole and replace earlier ones, so a report that comes twice, or late,
 * counts nothing twice; one older than the last is ignored.
 */
export function report(transactions: FairTransactions, reported: StallReport): Told {
  const before = transactions.stall(reported.stall);
  const told = { gateway: gatewayVersion(transactions) };
  if (before === undefined || isOlder(reported, before)) return told;
  const {
    stall,
    version,
    at: heardAt,
    crewAt,
    paused,
    setUp,
    shares,
    backlog,
    soldOut,
    backlogEnds,
    seen = null,
  } = reported;
  const { buckets, gatewayRows, kv } = transactions;
  transactions.transact(() => {
    transactions.organiser.noteRead(reported);
    const now = { version, heardAt, paused, setUp, shares, seen, backlog, soldOut, backlogEnds };
    transactions.saveStall({ ...before, ...now, crewAt: crewAt ?? before.crewAt });
    for (const [key, row] of [...buckets.writes(stall, reported.buckets), ...gatewayRows.unwritten()])
      kv.put(key, row);
    buckets.written(stall, reported.buckets);
  });
  return told;
}

const hoursOf = ({ openings }: FairRow): readonly Hours[] =>
  openings.map(({ opens, closes }) => ({ opens: Date.parse(opens), closes: Date.parse(closes) }));

/** Answers readers of the pace; readers of the same figures share one rendering. */
export class PaceReader {
  readonly #transactions: FairTransactions;
  readonly #rendered = new Map<string, { readonly tag: string; readonly text: string }>();

  constructor(transactions: FairTransactions) {
    this.#transactions = transactions;
  }

  /** Every stall's pace. */
  read(generation: number, query: ThroughputQuery, have: readonly string[]): FairAnswer<TaggedPace> {
    const transactions = this.#transactions;
    const fair = transactions.fair();
    if (fair === undefined || !transactions.admits(generation)) return refused({ code: "old-key" });
    if (query.stall !== undefined && transactions.stall(query.stall) === undefined)
      return refused({ code: "no-such-stall", stall: query.stall });
    const now = transactions.now();
    const tag = this.#tag(fair, now);
    if (have.includes(tag) || have.includes("*")) return ok({ tag, text: null });
    const asked = JSON.stringify(query);
    const kept = this.#rendered.get(asked);
    if (kept?.tag === tag) return ok(kept);
    const text = this.#render(fair, query, now);
    if (text === null) return refused({ code: "too-many-quarters" });
    this.#rendered.delete(asked);
    this.#rendered.set(asked, { tag, text });
    const [oldest] = this.#rendered.keys();
    if (this.#rendered.size > MOST_RENDERED && oldest !== undefined) this.#rendered.delete(oldest);
    return ok({ tag, text });
  }

  /** The version of everything that the pace shows, and the quarter of an hour, by which "now" moves on. */
  #tag({ edition = 0 }: FairRow, now: Instant): string {
    const { gatewayRows } = this.#transactions;
    const changes = this.#transactions.stalls().reduce((sum, row) => sum + row.changes, 0);
    return `v${changes}.${edition}.${gatewayRows.gateway.version}.${gatewayRows.badSignatures}.${Number(bucketKey(now))}`;
  }

  #render(fair: FairRow, query: ThroughputQuery, now: Instant): string | null {
    const { gatewayRows } = this.#transactions;
    const { name, timeZone } = fair;
    const hours = hoursOf(fair);
    const marks = marksOf(askedSpan(query, timeZone, hours, now), timeZone, now);
    const { price, limits } = gatewayRows.gateway.mapping;
    const texts = { badSignatures: gatewayRows.badSignatures, mostToday: limits.segmentsPerDay, price };
    const own: StallId | "every" | null = query.stall ?? (query.per === "quarter" ? "every" : null);
    const pace = throughput({ name, timeZone, hours }, this.#accounts(marks.needed, now), texts, marks, own);
    return pace === "too-many-quarters" ? null : JSON.stringify(pace);
  }

  *#accounts(needed: Instant | null, now: Instant): Generator<StallAccount> {
    for (const row of this.#transactions.stalls())
      yield {
        ...row,
        setUp: row.setUp ?? row.heardAt !== null,
        buckets: this.#transactions.buckets.since(row.stall, needed, now),
      };
  }
}
