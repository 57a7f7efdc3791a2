/** The days a stall's account is kept by: the fair's own, until the crew closes one. */
import { dayOf } from "../fair/day.ts";
import type { Identity, Instant } from "./facts.ts";
import type { StallState } from "./state.ts";

const HOUR = 60 * 60 * 1000;
/** How long after closing time what is done still belongs to that day: packing up after midnight. */
const PACKING_UP = 6 * HOUR;

/** A day of the account, "2027-06-12". */
export type Day = string;

/** Which days are done with. */
export type Account = {
  readonly closedThrough: Day | null;
  /** A closed day that the crew opened again: whatever happens counts to it until it is closed. */
  readonly reopened: Day | null;
};

export const NOTHING_CLOSED: Account = { closedThrough: null, reopened: null };

/** The day on which an opening began, while it lasts and while the stall packs up; else the calendar's. */
export function fairDay({ openings, timeZone }: Identity, at: Instant): Day {
  let begun: Instant | null = null;
  for (const { opens, closes } of openings) {
    if (opens <= at && at < closes + PACKING_UP && (begun === null || opens > begun)) begun = opens;
  }
  return dayOf(begun ?? at, timeZone);
}

/** The date after a date. */
export function dayAfter(day: Day): Day {
  const next = new Date(`${day}T12:00:00Z`);
  next.setUTCDate(next.getUTCDate() + 1);
  return next.toISOString().slice(0, 10);
}

/** The day that what happens at an instant is put down to. */
export function accountDay(state: StallState, at: Instant): Day {
  const { identity, account } = state;
  if (identity === null) throw new Error("a stall that was never opened has no days");
  if (account.reopened !== null) return account.reopened;
  const day = fairDay(identity, at);
  return account.closedThrough !== null && day <= account.closedThrough
    ? dayAfter(account.closedThrough)
    : day;
}

/** Whether a day's counts are frozen. */
export const isClosed = ({ closedThrough, reopened }: Account, day: Day): boolean =>
  closedThrough !== null && day <= closedThrough && reopened !== day;

const clocks = new Map<string, Intl.DateTimeFormat>();

/** The hour of the fair's clock at an instant, "14:00". */
export function hourOf(at: Instant, timeZone: string): string {
  let clock = clocks.get(timeZone);
  if (clock === undefined) {
    clock = new Intl.DateTimeFormat("en-GB", { timeZone, hour: "2-digit", hourCycle: "h23" });
    clocks.set(timeZone, clock);
  }
  return `${clock.format(at)}:00`;
}

/** The openings that begin on a day. */
export const openingsOf = ({ openings, timeZone }: Identity, day: Day): Identity["openings"] =>
  openings.filter(({ opens }) => dayOf(opens, timeZone) === day);

/** How long the fair is open on a day, in milliseconds. */
export const openFor = (identity: Identity, day: Day): number =>
  openingsOf(identity, day).reduce((sum, { opens, closes }) => sum + closes - opens, 0);
