/** The buckets that the stalls reported: the latest days in memory, all of them in storage. */
import type { StallId } from "../model/basics/ids.ts";
import { type Bucket, bucketKey } from "../time/bucket.ts";
import type { KeyedBucket } from "./account.ts";
import type { Rows } from "./rows.ts";

const HOUR = 3_600_000;
/** So much is kept in memory: today, and yesterday whole. */
const KEPT = 48 * HOUR;
/** Rows older than needed by this much are dropped. */
const SLACK = 24 * HOUR;

const rowKey = (stall: StallId, key: string): string => `bucket:${stall}:${key}`;

export class BucketRows {
  readonly #rows: Rows;
  /** The first bucket that is in memory. */
  #kept: string;
  readonly #recent = new Map<StallId, Map<string, Bucket>>();

  constructor(rows: Rows, now: number) {
    this.#rows = rows;
    this.#kept = bucketKey(now - KEPT);
  }

  /** A stall's buckets since an instant (null: all of them), in order of time. */
  since(stall: StallId, needed: number | null, now: number): Iterable<KeyedBucket> {
    this.#cutBack(now);
    const first = needed === null ? "" : bucketKey(needed);
    return first >= this.#kept ? this.#recentOf(stall) : this.#stored(stall, first);
  }

  /** The rows to write for some buckets of a stall. */
  writes(stall: StallId, buckets: readonly KeyedBucket[]): readonly (readonly [string, Bucket])[] {
    return buckets.map(([key, bucket]) => [rowKey(stall, key), bucket] as const);
  }

  /** Notes buckets that have been written; one that was there already is replaced. */
  written(stall: StallId, buckets: readonly KeyedBucket[]): void {
    const recent = this.#recentOf(stall);
    let last = [...recent.keys()].at(-1) ?? "";
    let inOrder = true;
    for (const [key, bucket] of buckets) {
      if (key < this.#kept) continue;
      if (!recent.has(key) && key < last) inOrder = false;
      recent.set(key, bucket);
      if (key > last) last = key;
    }
    if (inOrder) return;
    const sorted = [...recent].sort(([one], [other]) => (one < other ? -1 : 1));
    this.#recent.set(stall, new Map(sorted));
  }

  #recentOf(stall: StallId): Map<string, Bucket> {
    const recent = this.#recent.get(stall) ?? new Map(this.#stored(stall, this.#kept));
    this.#recent.set(stall, recent);
    return recent;
  }

  #stored(stall: StallId, first: string): readonly KeyedBucket[] {
    const prefix = rowKey(stall, "");
    return [...this.#rows.list<Bucket>({ prefix, start: prefix + first })].map(
      ([key, bucket]) => [key.slice(prefix.length), bucket] as const,
    );
  }

  #cutBack(now: number): void {
    if (bucketKey(now - KEPT - SLACK) < this.#kept) return;
    this.#kept = bucketKey(now - KEPT);
    for (const buckets of this.#recent.values()) {
      for (const key of buckets.keys()) if (key < this.#kept) buckets.delete(key);
    }
  }
}
