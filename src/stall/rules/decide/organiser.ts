/** The organiser's word: stop all orders, let them go on, or announce something to the crew. */
import type { Instant } from "../../../time/instants.ts";
import { stoppedSince } from "../../state/opening.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { StallState, StallStatus } from "../../state/state.ts";
import { accept, type Command, type Decision } from "../commands.ts";

type Of<T extends Command["type"]> = Extract<Command, { readonly type: T }>;

/**
 * Moves every promise by as long as pressing was stopped, once no other reason to stop is left. `after` is the status as
 * it will be.
 */
export function requoted(
  state: StallState,
  after: Pick<StallStatus, "fairStop" | "paused">,
  now: Instant,
): StallEvent[] {
  const since = stoppedSince(state.status);
  if (since === null || stoppedSince(after) !== null) return [];
  return [...state.orderIndex.underWay].flatMap(({ number }): StallEvent[] => {
    const { dueBy = null, waitsFrom = null } = state.order(number) ?? {};
    if (dueBy === null) return [];
    return [
      { type: "requoted", number, dueBy: dueBy + Math.max(0, now - Math.max(since, waitsFrom ?? since)) },
    ];
  });
}

/** The organiser stops all orders, or lets the stalls go on. Idempotent. */
export function setFairStop(state: StallState, { stop }: Of<"set-fair-stop">, now: Instant): Decision {
  const { fairStop = null, paused } = state.status;
  if (stop === null)
    return fairStop === null
      ? accept()
      : accept({ type: "fair-went-on" }, ...requoted(state, { paused, fairStop: null }, now));
  if (fairStop?.reason === stop.reason && fairStop.pressing === stop.pressing) return accept();
  const event = { type: "fair-stopped", reason: stop.reason, pressing: stop.pressing } as const;
  // Pressing goes on again, so waits begin to run again.
  const after = { paused, fairStop: { ...stop, since: now } };
  return accept(event, ...requoted(state, after, now));
}

/** The announcements as the organiser has them now: new ones are shown, and unread ones that were taken back are not. */
export function hearAnnouncements(state: StallState, { announcements }: Of<"hear-announcements">): Decision {
  const heard = new Set(announcements.map(({ id }) => id));
  const known = [...state.announcements.values()];
  const latest = known.reduce((at, one) => Math.max(at, one.at), Number.NEGATIVE_INFINITY);
  return accept(
    ...known
      .filter(({ id, readAt }) => readAt === null && !heard.has(id))
      .map(({ id }) => ({ type: "announcement-taken-back", id }) as const),
    ...announcements
      .filter(
        ({ id, at }) => state.announcements.get(id) === undefined && (known.length === 0 || at >= latest),
      )
      .map((announcement) => ({ type: "announced", announcement }) as const),
  );
}

/** Marks an announcement as read; one that was withdrawn needs no reading. */
export function readAnnouncement(state: StallState, { id }: Of<"read-announcement">): Decision {
  return state.announcements.get(id)?.readAt === null ? accept({ type: "announcement-read", id }) : accept();
}
