/** The dwell, counted down from the tap that closes the platen; one count for each time it comes down. Pure. */
import type { JobView } from "../../../../model/orders/queue.ts";
import { dwells } from "../../crew/words/settings.ts";

/** The counts of a garment: of its transfer, then of each further one. */
const countsOf = ({ settings, second = [] }: JobView): readonly number[] =>
  [settings, ...second.map((other) => other.settings)].flatMap(dwells);

export type Dwell = {
  readonly job: string;
  /** The number of finished dwells. */
  readonly done: number;
  /** When the running dwell ends, by this tablet's clock in milliseconds; null while none runs. */
  readonly endsAt: number | null;
};

/** The dwell after a tap: it starts the next count, or stops the one that runs. */
export function tappedDwell(garment: JobView, before: Dwell | null, now: number): Dwell {
  if (before?.endsAt != null) return { ...before, endsAt: null };
  const counts = countsOf(garment);
  const done = before === null || before.done >= counts.length ? 0 : before.done;
  return { job: garment.job, done, endsAt: now + (counts[done] ?? 0) * 1000 };
}

/** The dwell at an instant: one whose time is over is to be opened. */
export const dwellBy = (dwell: Dwell, now: number): Dwell =>
  dwell.endsAt !== null && now >= dwell.endsAt ? { ...dwell, done: dwell.done + 1, endsAt: null } : dwell;

export type DwellShown = {
  readonly large: string;
  readonly small: string;
  readonly counting: boolean;
  readonly openNow: boolean;
  /** The part of the time that is left, 0 to 1. */
  readonly left: number;
};

export function dwellShown(garment: JobView, dwell: Dwell | null, now: number): DwellShown {
  const counts = countsOf(garment);
  const { done = 0, endsAt = null } = dwell ?? {};
  const next = counts[done];
  if (endsAt !== null) {
    const left = Math.max(0, endsAt - now) / 1000;
    return {
      large: `${Math.ceil(left)} s`,
      small: "tap to stop",
      counting: true,
      openNow: false,
      left: left / (next ?? 1),
    };
  }
  const which = counts.length === 1 ? "" : `, ${done + 1} of ${counts.length}`;
  const [large, small] =
    next === undefined
      ? ["Open now", "tap to count again"]
      : done === 0
        ? [`Count ${next}\u00a0s${which}`, "tap as it closes"]
        : ["Open now", `tap to count ${next} s${which}`];
  return { large, small, counting: false, openNow: done > 0, left: 0 };
}
