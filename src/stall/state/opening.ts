/** When the fair is open. */
import type { Instant } from "../../time/instants.ts";
import type { StallState, StallStatus } from "./state.ts";

/** The opening span that an instant falls in, or else when the next one begins. */
export function openingAt(
  state: StallState,
  now: Instant,
):
  | { readonly open: true; readonly opens: Instant; readonly closes: Instant }
  | { readonly open: false; readonly opens: Instant | null } {
  let next: Instant | null = null;
  for (const { opens, closes } of state.identity?.openings ?? []) {
    if (opens <= now && now < closes) return { open: true, opens, closes };
    if (opens > now && (next === null || opens < next)) next = opens;
  }
  return { open: false, opens: next };
}

/** When the next span begins after an instant; null if there is none. */
export function opensAfter(state: StallState, now: Instant): Instant | null {
  const later = (state.identity?.openings ?? []).filter(({ opens }) => opens > now).map(({ opens }) => opens);
  return later.length === 0 ? null : Math.min(...later);
}

/** Why no orders are taken; null while they are. The organiser's word comes before the crew's. */
export const whyStopped = ({ fairStop, paused }: Pick<StallStatus, "fairStop" | "paused">): string | null =>
  fairStop?.reason ?? paused?.reason ?? null;

/** Since when every promised wait is frozen; null while the presses go on. */
export function stoppedSince({ fairStop, paused }: Pick<StallStatus, "fairStop" | "paused">): Instant | null {
  const since = [paused?.since, fairStop?.pressing === true ? fairStop.since : undefined].filter(
    (at) => at !== undefined,
  );
  return since.length === 0 ? null : Math.min(...since);
}
