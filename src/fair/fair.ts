/** One fair as a Durable Object: its stalls, what they report, and which stall a sender is talking to. */
import { DurableObject } from "cloudflare:workers";
import type { CreateFair, Throughput } from "../model/fair.ts";
import type { FairId, StallId } from "../model/ids.ts";
import type { Bucket } from "./bucket.ts";
import type { StallReport } from "./reports.ts";
import { type StallAccount, throughput } from "./throughput.ts";

type FairRow = CreateFair & {
  readonly generation: number;
  readonly earlierUntil: number;
  /** The write that made it, so that its repeat is known. */
  readonly madeBy: WriteKey;
};
type StallRow = {
  readonly stall: StallId;
  readonly name: string;
  readonly generation: number;
  readonly earlierUntil: number;
  /** The write that gave it its present key. */
  readonly rotatedBy: string | null;
  readonly heardAt: number | null;
  readonly version: number;
  readonly backlog: number;
  readonly soldOut: number;
  readonly backlogEnds: number | null;
};

/** A write and its body, as the front door names it. */
type WriteKey = { readonly scope: string; readonly fingerprint: string };

export type FairFacts = Omit<CreateFair, "fair"> & { readonly fair: FairId };
export type StallKeys = {
  readonly generation: number;
  readonly earlierUntil: number;
  readonly facts: FairFacts;
};
export type Route =
  | { readonly to: "stall"; readonly stall: StallId; readonly text: string }
  | {
      readonly to: "which";
      readonly stalls: readonly { readonly number: number; readonly stall: StallId; readonly name: string }[];
    }
  | { readonly to: "nobody" };

const factsOf = ({ fair, name, timeZone, openings }: FairRow): FairFacts => ({
  fair,
  name,
  timeZone,
  openings,
});

const newStall = (stall: StallId): StallRow => ({
  stall,
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

export class Fair extends DurableObject {
  #buckets: Map<StallId, Map<string, Bucket>> | null = null;

  get #kv() {
    return this.ctx.storage.kv;
  }

  #fair(): FairRow | undefined {
    return this.#kv.get<FairRow>("fair");
  }

  #stall(stall: StallId): StallRow | undefined {
    return this.#kv.get<StallRow>(`stall:${stall}`);
  }

  #stalls(): readonly StallRow[] {
    return [...this.#kv.list<StallRow>({ prefix: "stall:" })].map(([, row]) => row);
  }

  /** Every stall's buckets, read once and then kept up by the reports. */
  #allBuckets(): Map<StallId, Map<string, Bucket>> {
    if (this.#buckets !== null) return this.#buckets;
    const all = new Map<StallId, Map<string, Bucket>>();
    for (const [key, bucket] of this.#kv.list<Bucket>({ prefix: "bucket:" })) {
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
    this.#kv.put("touched", (this.#kv.get<number>("touched") ?? 0) + 1);
    return this.#kv.get<number>("touched") ?? 0;
  }

  /** Makes the fair. Repeated with the same key it is the same fair; a second one of its name is not made. */
  create(key: WriteKey, request: CreateFair): { readonly generation: number; readonly made: boolean } {
    const before = this.#fair();
    if (before !== undefined) {
      const same = before.madeBy.scope === key.scope && before.madeBy.fingerprint === key.fingerprint;
      return { generation: before.generation, made: same };
    }
    this.#kv.put("fair", { ...request, generation: 1, earlierUntil: 0, madeBy: key } satisfies FairRow);
    return { generation: 1, made: true };
  }

  /** Whether an organiser key of this generation still works. */
  #keyWorks(generation: number): boolean {
    const fair = this.#fair();
    if (fair === undefined) return false;
    return (
      generation === fair.generation || (generation === fair.generation - 1 && Date.now() < fair.earlierUntil)
    );
  }

  /** Adds a stall or renames it; null where there is no such fair. The same again changes nothing. */
  addStall(generation: number, stall: StallId, name: string): StallKeys | "old-key" | null {
    const fair = this.#fair();
    if (fair === undefined) return null;
    if (!this.#keyWorks(generation)) return "old-key";
    const row: StallRow = { ...(this.#stall(stall) ?? newStall(stall)), name };
    this.#kv.put(`stall:${stall}`, row);
    return { generation: row.generation, earlierUntil: row.earlierUntil, facts: factsOf(fair) };
  }

  /** Gives a stall a new key; the old one works until the overlap is over. Repeated, it gives the same key. */
  newStallKey(
    generation: number,
    key: WriteKey,
    stall: StallId,
    overlapMinutes: number,
  ): (StallKeys & { readonly name: string }) | "old-key" | null {
    const fair = this.#fair();
    const before = this.#stall(stall);
    if (fair === undefined || before === undefined) return null;
    if (!this.#keyWorks(generation)) return "old-key";
    const repeated = before.rotatedBy === key.scope;
    const row: StallRow = repeated
      ? before
      : {
          ...before,
          generation: before.generation + 1,
          earlierUntil: Date.now() + overlapMinutes * 60_000,
          rotatedBy: key.scope,
        };
    if (!repeated) this.#kv.put(`stall:${stall}`, row);
    return {
      generation: row.generation,
      earlierUntil: row.earlierUntil,
      facts: factsOf(fair),
      name: row.name,
    };
  }

  /** Takes in what a stall reports; one older than the last is ignored, so a late repeat does no harm. */
  report(report: StallReport): void {
    const before = this.#stall(report.stall);
    if (before === undefined || report.version < before.version) return;
    const buckets = this.#allBuckets();
    const own = buckets.get(report.stall) ?? new Map<string, Bucket>();
    this.ctx.storage.transactionSync(() => {
      const { version, at: heardAt, backlog, soldOut, backlogEnds } = report;
      this.#kv.put(`stall:${report.stall}`, {
        ...before,
        version,
        heardAt,
        backlog,
        soldOut,
        backlogEnds,
      } satisfies StallRow);
      for (const [key, bucket] of report.buckets) this.#kv.put(`bucket:${report.stall}:${key}`, bucket);
    });
    for (const [key, bucket] of report.buckets) own.set(key, bucket);
    buckets.set(report.stall, own);
  }

  /** Every stall's pace, or null where the key is old or there is no such fair. */
  throughput(generation: number): Throughput | null {
    const fair = this.#fair();
    if (fair === undefined || !this.#keyWorks(generation)) return null;
    const buckets = this.#allBuckets();
    const accounts = this.#stalls().map(
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
    return throughput(fair, accounts, Date.now());
  }

  /**
   * Which stall a text is for: the one its first word or number names, else the one this sender is already
   * talking to. The sender is a keyed hash of the number; the number itself is never kept here. A message
   * seen before goes where it went the first time, and that stall knows it.
   */
  route(messageHash: string, sender: string, text: string): Route {
    const earlier = this.#kv.get<Route>(`seen-text:${messageHash}`);
    if (earlier !== undefined) return earlier;
    const route = this.#route(sender, text);
    this.ctx.storage.transactionSync(() => {
      this.#kv.put(`seen-text:${messageHash}`, route);
      if (route.to === "stall") this.#kv.put(`sender:${sender}`, route.stall);
    });
    return route;
  }

  #route(sender: string, text: string): Route {
    const stalls = this.#stalls();
    if (this.#fair() === undefined || stalls.length === 0) return { to: "nobody" };
    const [first = "", ...rest] = text.trim().split(/\s+/);
    const word = first.toLowerCase();
    const named = stalls.find(({ stall }) => stall === word);
    if (named !== undefined) return { to: "stall", stall: named.stall, text: rest.join(" ") || "menu" };
    const known = this.#kv.get<StallId>(`sender:${sender}`);
    if (known !== undefined && word !== "stalls") return { to: "stall", stall: known, text };
    const only = stalls.length === 1 ? stalls[0] : undefined;
    if (only !== undefined) return { to: "stall", stall: only.stall, text };
    const numbered = /^[1-9][0-9]?$/.test(word) ? stalls[Number(word) - 1] : undefined;
    if (numbered !== undefined && known === undefined)
      return { to: "stall", stall: numbered.stall, text: "menu" };
    return {
      to: "which",
      stalls: stalls.map(({ stall, name }, index) => ({ number: index + 1, stall, name })),
    };
  }
}
