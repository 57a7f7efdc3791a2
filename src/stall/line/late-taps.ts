/** Taps that reach the stall late, from a tablet without signal: they count from when they were made. */
import type { Instant } from "../../time/instants.ts";
import type { StallEvent } from "../state/shapes/event.ts";

/** The most that a tap is dated back, in milliseconds: a tablet's clock may be wrong. */
export const LATE_MOST = 6 * 60 * 60 * 1000;

/**
 * When a tap was made: never in the future, never before the garment's last change. Undefined if the tap happened just
 * now.
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

/** When an event happened: its own time if it has one, else the time of its journal entry. */
export const happenedAt = (event: StallEvent, written: Instant): Instant =>
  ("tappedAt" in event ? event.tappedAt : undefined) ?? written;
