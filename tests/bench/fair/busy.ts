/** Stalls with days behind them: what they would have reported. */

import type { StallReport } from "../../../src/fair/reports.ts";
import { type LogHistogram, withValue } from "../../../src/maths/log-histogram.ts";
import type { Random } from "../../../src/maths/random.ts";
import type { StallId } from "../../../src/model/basics/ids.ts";
import { BUCKET_MILLISECONDS, type Bucket, bucketKey, EMPTY_BUCKET } from "../../../src/time/bucket.ts";

const HOUR = 3_600_000;
/** Ten hours a day. */
const QUARTERS_A_DAY = 40;

function histogram(random: Random, values: number, most: number): LogHistogram {
  let sum: LogHistogram = {};
  for (let n = 0; n < values; n++) sum = withValue(sum, 60 + random.below(most));
  return sum;
}

function busyBucket(random: Random): Bucket {
  const placed = 3 + random.below(9);
  const late = random.below(3);
  return {
    ...EMPTY_BUCKET,
    textsIn: placed * 3,
    textsOut: placed * 4,
    segmentsOut: placed * 4,
    asked: placed * 2,
    placed,
    garments: placed + random.below(6),
    pressed: placed + random.below(4),
    collected: placed,
    dropped: random.below(2),
    unmet: random.below(3),
    promised: placed,
    kept: Math.max(0, placed - late),
    pressSeconds: 700 + random.below(800),
    waits: histogram(random, placed, 2400),
    over: histogram(random, late, 600),
    backlogChange: random.below(5) - 2,
    takings: placed * 2400,
    changed: 1,
  };
}

/** A stall's report at an instant: the present quarter, and the days before it if wanted. */
export function busyReport(random: Random, stall: StallId, now: number, days: number): StallReport {
  const buckets: (readonly [string, Bucket])[] = [[bucketKey(now), busyBucket(random)]];
  for (let day = 0; day < days; day++) {
    const last = now - day * 24 * HOUR;
    for (let n = 1; n < QUARTERS_A_DAY; n++)
      buckets.push([bucketKey(last - n * BUCKET_MILLISECONDS), busyBucket(random)]);
  }
  return {
    stall,
    version: 1,
    at: now,
    crewAt: now,
    paused: random.chance(0.03),
    setUp: true,
    read: [],
    shares: random.chance(0.5) ? "USD" : null,
    backlog: random.below(40),
    soldOut: random.below(4) === 0 ? 1 : 0,
    backlogEnds: now + random.below(60) * 60_000,
    buckets: buckets.reverse(),
  };
}
