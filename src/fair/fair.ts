/** One fair as a Durable Object: its stalls, what they report, and which stall a sender is talking to. */
import type { ChangeFair, CreateFair } from "../model/fair.ts";
import type { FairId, StallId } from "../model/ids.ts";
import type { ThroughputQuery } from "../model/throughput.ts";
import { bucketKey } from "../time/bucket.ts";
import type { Hours } from "../time/fair-day.ts";
import { marksOf, type StallAccount } from "./account.ts";
import { askedSpan } from "./asked-span.ts";
import { BucketRows } from "./bucket-rows.ts";
import { FAIR_RECORDS_VERSION, FAIR_SHAPE } from "./records.ts";
import type { StallReport, Told } from "./reports.ts";
import type { FairRow, StallRow, WriteKey } from "./shell.ts";
import { TextingFair } from "./texts.ts";
import { throughput } from "./throughput.ts";

export type FairFacts = Omit<CreateFair, "fair"> & {
  readonly fair: FairId;
  /** How often these facts were changed: tells an older edition that arrives late. */
  readonly edition: number;
};
export type StallKeys = {
  readonly generation: number;
  readonly earlierUntil: number;
  readonly facts: FairFacts;
};
/** A stall as it has to be told of a change of its fair. */
export type StallToTell = StallKeys & { readonly stall: StallId; readonly name: string };
export type FairChanged = { readonly facts: FairFacts; readonly stalls: readonly StallToTell[] };
const factsOf = ({ fair, name, timeZone, openings, edition = 0 }: FairRow): FairFacts => ({
  fair,
  name,
  timeZone,
  openings,
  edition,
});

const newStall = (stall: StallId, added: number): StallRow => ({
  stall,
  added,
  name: stall,
  generation: 1,
  earlierUntil: 0,
  rotatedBy: null,
  changes: 0,
  heardAt: null,
  crewAt: null,
  paused: false,
  shares: null,
  version: 0,
  backlog: 0,
  soldOut: 0,
  backlogEnds: null,
});

const hoursOf = ({ openings }: FairRow): readonly Hours[] =>
  openings.map(({ opens, closes }) => ({ opens: Date.parse(opens), closes: Date.parse(closes) }));

/** The pace as JSON with its entity tag; the text is null where the reader has it. */
export type TaggedPace = { readonly tag: string; readonly text: string | null };

/** Renderings kept for other readers of the same. */
const MOST_RENDERED = 8;

export class Fair extends TextingFair {
  readonly #buckets = new BucketRows(this.ctx.storage.kv, Date.now());
  readonly #rendered = new Map<string, { readonly tag: string; readonly text: string }>();

  /** Writes and reads one row, so that a health check has really been to storage. */
  touch(): number {
    this.kv.put("touched", (this.kv.get<number>("touched") ?? 0) + 1);
    return this.kv.get<number>("touched") ?? 0;
  }

  /** Makes the fair. Repeated with the same key it is the same fair; a second one of its name is not made. */
  create(key: WriteKey, request: CreateFair): { readonly generation: number; readonly made: boolean } {
    const before = this.fairRow();
    if (before !== undefined) {
      const same = before.madeBy.scope === key.scope && before.madeBy.fingerprint === key.fingerprint;
      return { generation: before.generation, made: same };
    }
    const row: FairRow = { ...request, generation: 1, earlierUntil: 0, madeBy: key, rotatedBy: null };
    this.ctx.storage.transactionSync(() => {
      this.kv.put(FAIR_SHAPE, FAIR_RECORDS_VERSION);
      this.kv.put("fair", row);
    });
    return { generation: 1, made: true };
  }

  /** The fair's name, clock and hours; null where there is no such fair. */
  facts(): FairFacts | null {
    const row = this.fairRow();
    return row === undefined ? null : factsOf(row);
  }

  /**
   * Changes the fair's name, clock and hours, if they still are of the edition the change began from. Repeated
   * with the same key it changes nothing, and names the stalls to tell again.
   */
  async change(
    generation: number,
    key: WriteKey,
    request: ChangeFair,
    basedOn: number | null,
  ): Promise<FairChanged | "old-key" | "key-reused" | "changed-meanwhile" | null> {
    const before = this.fairRow();
    if (before === undefined) return null;
    if (!this.keyWorks(generation)) return "old-key";
    const { edition = 0, changedBy } = before;
    if (changedBy?.scope === key.scope)
      return changedBy.fingerprint === key.fingerprint ? this.#changed(before) : "key-reused";
    if (basedOn !== null && basedOn !== edition) return "changed-meanwhile";
    const { name, openings, timeZone = before.timeZone } = request;
    const row: FairRow = { ...before, name, openings, timeZone, edition: edition + 1, changedBy: key };
    this.kv.put("fair", row);
    await this.eraseByNewHours(row);
    return this.#changed(row);
  }

  #changed(fair: FairRow): FairChanged {
    const facts = factsOf(fair);
    const stalls = this.stallRows().map(({ stall, name, generation, earlierUntil }) => ({
      ...{ stall, name, generation, earlierUntil },
      facts,
    }));
    return { facts, stalls };
  }

  /** Gives the fair a new organiser key; the old one works until the overlap is over. Repeated, it is the same key. */
  newKey(key: WriteKey, overlapMinutes: number): number | null {
    const before = this.fairRow();
    if (before === undefined) return null;
    if (before.rotatedBy === key.scope) return before.generation;
    const generation = before.generation + 1;
    const earlierUntil = Date.now() + overlapMinutes * 60_000;
    this.kv.put("fair", { ...before, generation, earlierUntil, rotatedBy: key.scope } satisfies FairRow);
    return generation;
  }

  /** Adds a stall or renames it; null where there is no such fair. The same again changes nothing. */
  addStall(generation: number, stall: StallId, name: string): StallKeys | "old-key" | null {
    const fair = this.fairRow();
    if (fair === undefined) return null;
    if (!this.keyWorks(generation)) return "old-key";
    const row: StallRow = { ...(this.stallRow(stall) ?? newStall(stall, this.stallRows().length)), name };
    this.saveStall(row);
    return { generation: row.generation, earlierUntil: row.earlierUntil, facts: factsOf(fair) };
  }

  /** Gives a stall a new key; the old one works until the overlap is over. Repeated, it gives the same key. */
  newStallKey(
    generation: number,
    key: WriteKey,
    stall: StallId,
    overlapMinutes: number,
  ): (StallKeys & { readonly name: string }) | "old-key" | null {
    const fair = this.fairRow();
    const before = this.stallRow(stall);
    if (fair === undefined || before === undefined) return null;
    if (!this.keyWorks(generation)) return "old-key";
    const repeated = before.rotatedBy === key.scope;
    const row: StallRow = repeated
      ? before
      : {
          ...before,
          generation: before.generation + 1,
          earlierUntil: Date.now() + overlapMinutes * 60_000,
          rotatedBy: key.scope,
        };
    if (!repeated) this.saveStall(row);
    return {
      generation: row.generation,
      earlierUntil: row.earlierUntil,
      facts: factsOf(fair),
      name: row.name,
    };
  }

  /**
   * Takes in what a stall reports. Its buckets come whole and replace what was known of them, so a report
   * that comes twice, or late, counts nothing twice; one older than the last is ignored.
   */
  report(report: StallReport): Told {
    const before = this.stallRow(report.stall);
    const told = { gateway: this.gatewayVersion };
    if (before === undefined || isOlder(report, before)) return told;
    const { stall, version, at: heardAt, crewAt, paused, shares, backlog, soldOut, backlogEnds } = report;
    const now = { version, heardAt, paused, shares, backlog, soldOut, backlogEnds };
    this.saveStall({ ...before, ...now, crewAt: crewAt ?? before.crewAt }, [
      ...this.#buckets.writes(stall, report.buckets),
      ...this.desk.unwritten(),
    ]);
    this.#buckets.written(stall, report.buckets);
    return told;
  }

  /** Every stall's pace, or null where the key is old or there is no such fair. */
  throughput(
    generation: number,
    query: ThroughputQuery,
    have: readonly string[],
  ): TaggedPace | "too-many-quarters" | "no-such-stall" | null {
    const fair = this.fairRow();
    if (fair === undefined || !this.keyWorks(generation)) return null;
    if (query.stall !== undefined && this.stallRow(query.stall) === undefined) return "no-such-stall";
    const now = Date.now();
    const tag = this.#paceTag(fair, now);
    if (have.includes(tag) || have.includes("*")) return { tag, text: null };
    const asked = JSON.stringify(query);
    const kept = this.#rendered.get(asked);
    if (kept?.tag === tag) return kept;
    const text = this.#renderPace(fair, query, now);
    if (text === null) return "too-many-quarters";
    this.#rendered.delete(asked);
    this.#rendered.set(asked, { tag, text });
    const [oldest] = this.#rendered.keys();
    if (this.#rendered.size > MOST_RENDERED && oldest !== undefined) this.#rendered.delete(oldest);
    return { tag, text };
  }

  /** The version of everything that the pace shows, and the quarter of an hour, by which "now" moves on. */
  #paceTag(fair: FairRow, now: number): string {
    const changes = this.stallRows().reduce((sum, row) => sum + row.changes, 0);
    const { edition = 0 } = fair;
    return `v${changes}.${edition}.${this.desk.gateway.version}.${this.desk.badSignatures}.${Number(bucketKey(now))}`;
  }

  #renderPace(fair: FairRow, query: ThroughputQuery, now: number): string | null {
    const { name, timeZone } = fair;
    const hours = hoursOf(fair);
    const marks = marksOf(askedSpan(query, timeZone, hours, now), timeZone, now);
    const { price, limits } = this.desk.gateway.mapping;
    const texts = { badSignatures: this.desk.badSignatures, mostToday: limits.segmentsPerDay, price };
    const own = query.stall ?? (query.per === "quarter" ? "every" : null);
    const pace = throughput({ name, timeZone, hours }, this.#accounts(marks.needed, now), texts, marks, own);
    return pace === "too-many-quarters" ? null : JSON.stringify(pace);
  }

  *#accounts(needed: number | null, now: number): Generator<StallAccount> {
    for (const row of this.stallRows())
      yield { ...row, buckets: this.#buckets.since(row.stall, needed, now) };
  }
}

const isOlder = (report: StallReport, { version, heardAt }: StallRow): boolean =>
  report.version < version || (report.version === version && report.at < (heardAt ?? 0));
