/** The 15-minute buckets as a chart wants them: every quarter of an hour in its place. */
import type { Quarter as Reported } from "../../../model/fair/throughput.ts";

export type Quarter = Pick<
  Reported,
  "start" | "placed" | "pressed" | "collected" | "dropped" | "unmet" | "backlog"
>;

const QUARTER = 15 * 60 * 1000;
/** Two days of quarters: no chart shows more. */
const MOST = 192;

/** The quarters up to an instant, empty ones included, with the backlog over each. */
export function everyQuarter(buckets: readonly Quarter[], until: number): readonly Quarter[] {
  const first = buckets[0];
  if (first === undefined) return [];
  const known = new Map(buckets.map((bucket) => [Date.parse(bucket.start), bucket]));
  const last = Math.floor(until / QUARTER) * QUARTER;
  const from = Math.max(Date.parse(first.start), last - (MOST - 1) * QUARTER);
  let backlog = buckets.findLast(({ start }) => Date.parse(start) < from)?.backlog ?? 0;
  const quarters: Quarter[] = [];
  for (let at = from; at <= last; at += QUARTER) {
    const bucket = known.get(at);
    backlog = bucket?.backlog ?? backlog;
    const start = new Date(at).toISOString();
    quarters.push(bucket ?? { start, placed: 0, pressed: 0, collected: 0, dropped: 0, unmet: 0, backlog });
  }
  return quarters;
}

/**
 * The span of time of a chart of quarters, in seconds since 1970 as their starts are: a quarter of room at each end, so
 * that the outer bars are whole. Without it the chart stretches a single quarter to a day.
 */
export function spanOf(starts: ArrayLike<number>): [first: number, last: number] {
  const room = QUARTER / 1000;
  return [(starts[0] ?? 0) - room, (starts[starts.length - 1] ?? 0) + room];
}
