/** Taps the stall hears of late, from a tablet that had no signal: they count from when they were made. */
import type { Instant } from "../../time/instants.ts";
import type { StallEvent } from "../state/facts.ts";

/** A tap is put back by so much at most: a tablet's clock may be wrong by anything. */
export const LATE_MOST = 6 * 60 * 60 * 1000;

/**
 * When a tap was made, as an event says it: never after now, never before what happened to its garment last.
 * Says nothing where that is now.
 */
export function tappedAt(
  at: Instant | undefined,
  last: Instant,
  now: Instant,
): { readonly tappedAt?: Instant } {
  if (at === undefined) return {};
  const when = Math.max(at, last, now - LATE_MOST);
  return when < now ? { tappedAt: when } : {};
}

/** When an event happened: as it says itself, else when its journal entry was written. */
export const happenedAt = (event: StallEvent, written: Instant): Instant =>
  ("tappedAt" in event ? event.tappedAt : undefined) ?? written;
