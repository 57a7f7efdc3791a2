/** The effects of the organiser's stop and announcements. */
import type { Instant } from "../../../time/instants.ts";
import { stoppedSince } from "../../state/opening.ts";
import type { Announced, EventOf } from "../../state/shapes/event.ts";
import type { StallState } from "../../state/state.ts";

/** Announcements that are kept; the oldest go first. */
const KEPT = 20;

export function fairStopped(
  state: StallState,
  { reason, pressing }: EventOf<"fair-stopped">,
  at: Instant,
): void {
  const { status } = state;
  const { fairStop } = status;
  // The stop is repeated while pressing is stopped: waits have been frozen since the first time.
  const since = fairStop?.pressing === pressing ? fairStop.since : at;
  state.setStatus({ ...status, fairStop: { reason, pressing, since } });
}

/** Ends the crew's pause or the organiser's stop. If the other goes on, promises stay frozen from the earlier start. */
export function endStop(state: StallState, ended: "paused" | "fairStop"): void {
  const { status } = state;
  const since = stoppedSince(status);
  // Absent, not null, while nothing is stopped: stalls of earlier programs never had it.
  const { paused, fairStop = null, ...rest } = status;
  const kept =
    ended === "fairStop" || fairStop === null
      ? {}
      : { fairStop: fairStop.pressing ? { ...fairStop, since: since ?? fairStop.since } : fairStop };
  state.setStatus({
    ...rest,
    ...kept,
    paused: ended === "paused" || paused === null ? null : { ...paused, since: since ?? paused.since },
  });
}

export function announced(state: StallState, announcement: Announced): void {
  const { announcements } = state;
  announcements.set(announcement.id, { ...announcement, readAt: null });
  const oldest = [...announcements.values()].sort((one, other) => one.at - other.at);
  for (const { id } of oldest.slice(0, -KEPT)) announcements.delete(id);
}

export function announcementRead(state: StallState, { id }: EventOf<"announcement-read">, at: Instant): void {
  const before = state.announcements.get(id);
  if (before === undefined) throw new Error(`announcement ${id} is read and was never made`);
  state.announcements.set(id, { ...before, readAt: at });
}
