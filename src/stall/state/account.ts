/** Which days of a stall's account are closed. */
import type { Day } from "../../time/fair-day.ts";

/** Which days are done with. */
export type Account = {
  readonly closedThrough: Day | null;
  /** A closed day that the crew opened again: whatever happens counts to it until it is closed. */
  readonly reopened: Day | null;
};

export const NOTHING_CLOSED: Account = { closedThrough: null, reopened: null };

/** Whether a day's counts are frozen. */
export const isClosed = ({ closedThrough, reopened }: Account, day: Day): boolean =>
  closedThrough !== null && day <= closedThrough && reopened !== day;
