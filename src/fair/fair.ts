/** One fair as a Durable Object: its stalls, what they report, and which stall a sender is talking to. */
import type { CreateFair, Throughput } from "../model/fair.ts";
import type { FairId, StallId } from "../model/ids.ts";
import type { Bucket } from "./bucket.ts";
import type { StallReport, Told } from "./reports.ts";
import type { FairRow, StallRow, WriteKey } from "./shell.ts";
import { TextingFair } from "./texts.ts";
import { type StallAccount, throughput } from "./throughput.ts";

export type FairFacts = Omit<CreateFair, "fair"> & { readonly fair: FairId };
export type StallKeys = {
  readonly generation: number;
  readonly earlierUntil: number;
  readonly facts: FairFacts;
};
const factsOf = ({ fair, name, timeZone, openings }: FairRow): FairFacts => ({
  fair,
  name,
  timeZone,
  openings,
});

const newStall = (stall: StallId, added: number): StallRow => ({
  stall,
  added,
  name: stall,
  generation: 1,
  earlierUntil: 0,
  rotatedBy: null,
  heardAt: null,
  version: 0,
  backlog: 0,
  soldOut: 0,
  backlogEnds: null,
});

export class Fair extends TextingFair {
  #buckets: Map<StallId, Map<string, Bucket>> | null = null;

  /** Every stall's buckets, read once and then kept up by the reports. */
  #allBuckets(): Map<StallId, Map<string, Bucket>> {
    if (this.#buckets !== null) return this.#buckets;
    const all = new Map<StallId, Map<string, Bucket>>();
    for (const [key, bucket] of this.kv.list<Bucket>({ prefix: "bucket:" })) {
      const [, stall, start] = key.split(":") as ["bucket", StallId, string]; // as report() writes them
      const own = all.get(stall) ?? new Map<string, Bucket>();
      own.set(start, bucket);
      all.set(stall, own);
    }
    this.#buckets = all;
    return all;
  }

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
    this.kv.put("fair", { ...request, generation: 1, earlierUntil: 0, madeBy: key } satisfies FairRow);
    return { generation: 1, made: true };
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

  /** Takes in what a stall reports; one older than the last is ignored, so a late repeat does no harm. */
  report(report: StallReport): Told {
    const before = this.stallRow(report.stall);
    const told = { gateway: this.gatewayVersion };
    if (before === undefined || report.version < before.version) return told;
    const buckets = this.#allBuckets();
    const own = buckets.get(report.stall) ?? new Map<string, Bucket>();
    const { version, at: heardAt, backlog, soldOut, backlogEnds } = report;
    this.saveStall({ ...before, version, heardAt, backlog, soldOut, backlogEnds }, [
      ...report.buckets.map(([key, bucket]) => [`bucket:${report.stall}:${key}`, bucket] as const),
      ...this.desk.unwritten(),
    ]);
    for (const [key, bucket] of report.buckets) own.set(key, bucket);
    buckets.set(report.stall, own);
    return told;
  }

  /** Every stall's pace, or null where the key is old or there is no such fair. */
  throughput(generation: number): Throughput | null {
    const fair = this.fairRow();
    if (fair === undefined || !this.keyWorks(generation)) return null;
    const buckets = this.#allBuckets();
    const accounts = this.stallRows().map(
      ({ stall, name, heardAt, backlog, soldOut, backlogEnds }): StallAccount => ({
        stall,
        name,
        heardAt,
        backlog,
        soldOut,
        backlogEnds,
        buckets: buckets.get(stall) ?? new Map<string, Bucket>(),
      }),
    );
    const { price, limits } = this.desk.gateway.mapping;
    const texts = { badSignatures: this.desk.badSignatures, mostToday: limits.segmentsPerDay, price };
    return throughput(fair, accounts, texts, Date.now());
  }
}
