/** A stall's counts in one quarter of an hour, and how to add them. */
import type { LogHistogram } from "../maths/log-histogram.ts";
import type { Tally } from "../model/fair/throughput.ts";

export const BUCKET_MILLISECONDS = 15 * 60 * 1000;

/** Counts of one 15-minute bucket, with the waits (in seconds) of the orders that became ready in it. */
export type Bucket = Tally & {
  readonly waits: LogHistogram;
  /** Seconds by which orders became ready after their promise. */
  readonly over: LogHistogram;
  /** Garments that came into line less those that left it, pressed or dropped. */
  readonly backlogChange: number;
  /** For orders that are over, less refunds, in minor units; only from stalls that share them. */
  readonly takings: number;
  /** The sequence of the stall's journal entry that changed it last. */
  readonly changed: number;
};

const EMPTY_TALLY: Tally = {
  textsIn: 0,
  textsOut: 0,
  segmentsOut: 0,
  asked: 0,
  placed: 0,
  garments: 0,
  pressed: 0,
  spoiled: 0,
  collected: 0,
  dropped: 0,
  unmet: 0,
  unmetSoldOut: 0,
  unmetClosed: 0,
  unmetWait: 0,
  promised: 0,
  kept: 0,
  pressSeconds: 0,
};

export const EMPTY_BUCKET: Bucket = {
  ...EMPTY_TALLY,
  waits: {},
  over: {},
  backlogChange: 0,
  takings: 0,
  changed: 0,
};

export const TALLY_FIELDS = Object.keys(EMPTY_TALLY) as (keyof Tally)[]; // the keys of a literal of that very type

/**
 * The bucket of an instant, as a key that sorts by time. Every time zone in use is a whole number of quarters off UTC,
 * so a quarter of UTC is a quarter of the fair's own clock.
 */
export function bucketKey(at: number): string {
  return String(Math.floor(at / BUCKET_MILLISECONDS)).padStart(9, "0");
}

/** The instant a bucket begins. */
export function bucketStart(key: string): number {
  return Number(key) * BUCKET_MILLISECONDS;
}
