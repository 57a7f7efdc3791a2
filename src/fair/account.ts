/** The fair's account of one stall, with sums over its buckets, each read once. */
import type { StallId } from "../model/basics/ids.ts";
import type { Currency } from "../model/basics/money.ts";
import { BUCKET_MILLISECONDS, type Bucket, bucketKey, bucketStart } from "../time/bucket.ts";
import { dayOf, midnight } from "../time/fair-day.ts";
import type { AskedSpan } from "./asked-span.ts";
import { BucketSum } from "./sum.ts";

export type KeyedBucket = readonly [key: string, bucket: Bucket];

/** A stall's latest report, and its sums. */
export type StallAccount = {
  readonly stall: StallId;
  readonly name: string;
  readonly heardAt: number | null;
  readonly crewAt: number | null;
  readonly paused: boolean;
  readonly setUp: boolean;
  readonly backlog: number;
  readonly soldOut: number;
  readonly backlogEnds: number | null;
  /** The currency of the takings it shares; null if it shares none. */
  readonly shares: Currency | null;
  /** Its buckets in order of time, at least those since the marks' `needed`. */
  readonly buckets: Iterable<KeyedBucket>;
};

/** The instants that matter when buckets are added up. */
export type Marks = {
  readonly span: AskedSpan;
  readonly now: number;
  /** When the present quarter of an hour and the three before it began. */
  readonly hourBegan: number;
  /** Midnight by the fair's clock. */
  readonly dayBegan: number;
  /** Since when buckets are looked at; null for all of them. */
  readonly needed: number | null;
};

const HOUR = 3_600_000;

export function marksOf(span: AskedSpan, timeZone: string, now: number): Marks {
  const hourBegan = bucketStart(bucketKey(now)) - HOUR + BUCKET_MILLISECONDS;
  const dayBegan = midnight(dayOf(now, timeZone), timeZone);
  const needed = span.from === null ? null : Math.min(span.from, hourBegan, dayBegan);
  return { span, now, hourBegan, dayBegan, needed };
}

/** One stall's buckets in one pass: the sums of the span, of the last hour and of today. */
export class PaceAccount {
  readonly sum = new BucketSum();
  readonly quarters: KeyedBucket[] = [];
  /** By how much the backlog has changed since the span ended. */
  changeSince = 0;
  pressedInHour = 0;
  segmentsToday = 0;
  /** When the latest bucket with an order began. */
  orderedAt: number | null = null;

  constructor(buckets: Iterable<KeyedBucket>, { span: { from, to }, now, hourBegan, dayBegan }: Marks) {
    for (const keyed of buckets) {
      const [key, bucket] = keyed;
      const start = bucketStart(key);
      if (start >= hourBegan && start <= now) this.pressedInHour += bucket.pressed;
      if (bucket.placed > 0) this.orderedAt = start;
      if (start >= dayBegan) this.segmentsToday += bucket.segmentsOut;
      if (to !== null && start >= to) this.changeSince += bucket.backlogChange;
      else if (from === null || start >= from) {
        this.sum.add(bucket);
        this.quarters.push(keyed);
      }
    }
  }
}

/** The accounts of every stall added up. */
export class TotalAccount {
  readonly sum = new BucketSum();
  changeSince = 0;
  pressedInHour = 0;
  segmentsToday = 0;
  readonly #quarters = new Map<string, BucketSum>();

  add(account: PaceAccount): void {
    this.changeSince += account.changeSince;
    this.pressedInHour += account.pressedInHour;
    this.segmentsToday += account.segmentsToday;
    this.sum.add(account.sum.value);
    for (const [key, bucket] of account.quarters) {
      const sum = this.#quarters.get(key) ?? new BucketSum();
      sum.add(bucket);
      this.#quarters.set(key, sum);
    }
  }

  /** In order of time. */
  get quarters(): readonly KeyedBucket[] {
    return [...this.#quarters]
      .map(([key, sum]) => [key, sum.value] as const)
      .sort(([one], [other]) => (one < other ? -1 : 1));
  }
}
