/** Every stall's pace, summed as the reports come in, so that reading costs the same on the last day as on the first. */
import { quantile } from "../maths/log-histogram.ts";
import type { StallPace, Throughput } from "../model/fair.ts";
import type { GatewayMapping } from "../model/gateway.ts";
import type { StallId } from "../model/ids.ts";
import {
  addBuckets,
  BUCKET_MILLISECONDS,
  type Bucket,
  bucketKey,
  bucketStart,
  EMPTY_BUCKET,
} from "./bucket.ts";
import { dayOf } from "./day.ts";

/** What the fair knows of one stall. */
export type StallAccount = {
  readonly stall: StallId;
  readonly name: string;
  readonly heardAt: number | null;
  readonly backlog: number;
  readonly soldOut: number;
  readonly backlogEnds: number | null;
  readonly buckets: ReadonlyMap<string, Bucket>;
};

/** What the fair knows of its texts beside the counts. */
export type TextFacts = {
  readonly badSignatures: number;
  readonly mostToday: number;
  readonly price: GatewayMapping["price"] | undefined;
};

const HOUR = 3_600_000;
const BUCKETS_AN_HOUR = HOUR / BUCKET_MILLISECONDS;
/** Buckets of the whole fair that a reader is sent: two days. */
const SHOWN_BUCKETS = 2 * 24 * BUCKETS_AN_HOUR;

/** Garments an hour over the present bucket and the three before it. */
function perHour(buckets: ReadonlyMap<string, Bucket>, now: number): number {
  const current = bucketStart(bucketKey(now));
  const first = current - (BUCKETS_AN_HOUR - 1) * BUCKET_MILLISECONDS;
  let pressed = 0;
  for (let start = first; start <= current; start += BUCKET_MILLISECONDS) {
    pressed += buckets.get(bucketKey(start))?.pressed ?? 0;
  }
  return Math.round((pressed * HOUR * 10) / (now - first || 1)) / 10;
}

const minutes = (seconds: number | null): number | null =>
  seconds === null ? null : Math.round(seconds / 6) / 10;

function pace(buckets: ReadonlyMap<string, Bucket>, backlog: number, now: number) {
  const sum = [...buckets.values()].reduce(addBuckets, EMPTY_BUCKET);
  const { waits, changed: _changed, ...tally } = sum;
  return {
    ...tally,
    backlog,
    waitMinutes: { median: minutes(quantile(waits, 0.5)), p90: minutes(quantile(waits, 0.9)) },
    perHour: perHour(buckets, now),
  };
}

/** The organiser's figures as of an instant. */
export function throughput(
  fair: { readonly name: string; readonly timeZone: string },
  accounts: readonly StallAccount[],
  texts: TextFacts,
  now: number,
): Throughput {
  const all = new Map<string, Bucket>();
  for (const { buckets } of accounts) {
    for (const [key, bucket] of buckets) all.set(key, addBuckets(all.get(key) ?? EMPTY_BUCKET, bucket));
  }
  const stalls = accounts.map(
    ({ stall, name, heardAt, backlog, soldOut, backlogEnds, buckets }): StallPace => ({
      stall,
      name,
      heardAt: heardAt === null ? null : new Date(heardAt).toISOString(),
      soldOut,
      backlogEnds: backlogEnds === null ? null : new Date(backlogEnds).toISOString(),
      ...pace(buckets, backlog, now),
    }),
  );
  const backlog = accounts.reduce((sum, account) => sum + account.backlog, 0);
  return {
    asOf: new Date(now).toISOString(),
    fair: fair.name,
    timeZone: fair.timeZone,
    stalls,
    total: pace(all, backlog, now),
    texts: textAccount(all, texts, fair.timeZone, now),
    buckets: bucketRows(all, backlog),
  };
}

/** Segments sent, today and in all, and what they cost at the gateway's price. */
function textAccount(
  all: ReadonlyMap<string, Bucket>,
  { badSignatures, mostToday, price }: TextFacts,
  timeZone: string,
  now: number,
): Throughput["texts"] {
  let segments = 0;
  let segmentsToday = 0;
  const today = dayOf(now, timeZone);
  // No day is longer than 25 hours.
  const dayBegan = now - 25 * HOUR;
  for (const [key, { segmentsOut }] of all) {
    segments += segmentsOut;
    if (bucketStart(key) > dayBegan && dayOf(bucketStart(key), timeZone) === today)
      segmentsToday += segmentsOut;
  }
  const amount = Math.round((segments * (price?.perThousandSegments ?? 0)) / 1000);
  return {
    segments,
    segmentsToday,
    mostToday,
    cost: price === undefined ? null : { amount, currency: price.currency },
    badSignatures,
  };
}

/** The buckets in order of time, each with the garments that were still to be pressed at its end. */
function bucketRows(all: ReadonlyMap<string, Bucket>, backlogNow: number): Throughput["buckets"] {
  const keys = [...all.keys()].sort();
  let backlog = backlogNow;
  const rows = keys.reverse().map((key) => {
    const bucket = all.get(key) ?? EMPTY_BUCKET;
    const row = {
      start: new Date(bucketStart(key)).toISOString(),
      placed: bucket.placed,
      pressed: bucket.pressed,
      collected: bucket.collected,
      backlog: Math.max(0, backlog),
    };
    // Going back in time: what was pressed here still waited before, what was ordered here did not.
    backlog += bucket.pressed - bucket.garments;
    return row;
  });
  return rows.slice(0, SHOWN_BUCKETS).reverse();
}
