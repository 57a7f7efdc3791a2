/** Which stretch of time a reader asks the pace of. */
import type { ThroughputQuery } from "../model/fair/throughput.ts";
import { BUCKET_MILLISECONDS } from "../time/bucket.ts";
import { daySpan, fairDay, type Hours } from "../time/fair-day.ts";

/** A stretch in whole quarters of an hour; null is from the start, or up to now. */
export type AskedSpan = { readonly from: number | null; readonly to: number | null };

const quarterBefore = (at: number): number => Math.floor(at / BUCKET_MILLISECONDS) * BUCKET_MILLISECONDS;
const quarterAfter = (at: number): number => Math.ceil(at / BUCKET_MILLISECONDS) * BUCKET_MILLISECONDS;

/** The stretch that a question means at an instant. */
export function askedSpan(
  { span, day, from, to }: Pick<ThroughputQuery, "span" | "day" | "from" | "to">,
  timeZone: string,
  hours: readonly Hours[],
  now: number,
): AskedSpan {
  if (from !== undefined || to !== undefined) {
    return {
      from: from === undefined ? null : quarterBefore(Date.parse(from)),
      to: to === undefined ? null : quarterAfter(Date.parse(to)),
    };
  }
  if (day !== undefined) return daySpan(day, timeZone, hours);
  switch (span) {
    case "all":
      return { from: null, to: null };
    case "now":
      return { from: quarterBefore(now) - 3 * BUCKET_MILLISECONDS, to: null };
    case "today":
      return daySpan(fairDay(now, timeZone, hours), timeZone, hours);
    default:
      return span satisfies never;
  }
}
