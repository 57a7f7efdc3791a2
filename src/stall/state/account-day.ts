/** The days a stall's account is kept by: the fair's own, until the crew closes one. */

import type { Identity } from "../../fair/reports.ts";
import { type Day, dateAfter, dayOf, fairDay } from "../../time/fair-day.ts";
import type { Instant } from "../../time/instants.ts";
import type { StallState } from "./state.ts";

/** The account day of an instant. */
export function accountDay(state: StallState, at: Instant): Day {
  const { identity, account } = state;
  if (identity === null) throw new Error("a stall that was never opened has no days");
  if (account.reopened !== null) return account.reopened;
  const day = fairDay(at, identity.timeZone, identity.openings);
  return account.closedThrough !== null && day <= account.closedThrough
    ? dateAfter(account.closedThrough)
    : day;
}

/** The openings that begin on a day. */
export const openingsOf = ({ openings, timeZone }: Identity, day: Day): Identity["openings"] =>
  openings.filter(({ opens }) => dayOf(opens, timeZone) === day);

/** How long the fair is open on a day, in milliseconds. */
export const openFor = (identity: Identity, day: Day): number =>
  openingsOf(identity, day).reduce((sum, { opens, closes }) => sum + closes - opens, 0);
