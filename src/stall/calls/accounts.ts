/** The account of a stall's days, read off their own rows. */

import type { Identity } from "../../fair/reports.ts";
import { eachOnce } from "../../lessons/learnt.ts";
import type { Closeout } from "../../model/accounts/closeout.ts";
import type { Lessons } from "../../model/accounts/lessons.ts";
import type { Answer } from "../../model/orders/refusal.ts";
import type { KeptPlan } from "../../model/planning/kept-plan.ts";
import type { Day } from "../../time/fair-day.ts";
import type { Instant } from "../../time/instants.ts";
import { closeout } from "../day/closeout.ts";
import { changedAfter, daysOf, rowsOf } from "../day/days.ts";
import { lessonsOf } from "../day/lessons.ts";
import { accountDay } from "../state/account-day.ts";
import { EMPTY_TOTALS } from "../state/day-rows.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import type { Transactions } from "../transact.ts";
import { drawerView } from "./counter/drawer-view.ts";
import { rackGarments } from "./counter/rack-view.ts";

export type DayStanding = { readonly day: Day; readonly closed: boolean };
export type PassersByCounted = { readonly people: number; readonly seconds: number };

/** The day to show if none was named: today if it has begun, else the last one. */
function latestDay({ state }: UnitOfWork, now: Instant): Day {
  const today = accountDay(state, now);
  if (state.dayTotals.get(today) !== undefined) return today;
  return daysOf(state).at(-1) ?? today;
}

function opened({ state }: UnitOfWork): Identity {
  if (state.identity === null) throw new Error("a stall with a menu was never opened");
  return state.identity;
}

/** A day's account; `day` is null for the latest. */
export function readCloseout(
  transactions: Transactions,
  generation: number,
  day: Day | null,
): Answer<Closeout> {
  return transactions.readAsCrew(generation, (unit, menu, now) => {
    const { state } = unit;
    const shown = day ?? latestDay(unit, now);
    const days = daysOf(state);
    const before = days.filter((one) => one < shown).findLast((one) => state.dayCosts.get(one) !== undefined);
    const given = {
      day: shown,
      rows: rowsOf(state, shown),
      later: changedAfter(state, shown),
      days,
      earlierCosts: before === undefined ? null : (state.dayCosts.get(before) ?? null),
    };
    return {
      ...closeout(state, opened(unit), menu, given, now),
      rack: rackGarments(state, menu),
      drawer: drawerView(unit, shown, now),
    };
  });
}

/** The evidence of every day, imported fairs first; the planner reads it as it is. */
export function readLessons(transactions: Transactions, generation: number): Answer<readonly Lessons[]> {
  return transactions.readAsCrew(generation, (unit) => {
    const { state } = unit;
    const identity = opened(unit);
    const imported = [...transactions.store.list({ prefix: "lesson:" })].map(([, row]) => row as Lessons); // its own prefix
    const own = daysOf(state).flatMap((day) => lessonsOf(identity, day, rowsOf(state, day)) ?? []);
    return eachOnce([...imported, ...own]);
  });
}

/** The plan that the stall was filled from; null if it was filled from none. */
export const keptPlan = (transactions: Transactions, generation: number): Answer<KeptPlan | null> =>
  transactions.readAsCrew(generation, ({ state }) => state.plan);

/** Everybody counted walking past today, and the seconds watched. */
export function passersByCounted({ state }: UnitOfWork, now: Instant): PassersByCounted {
  const { hours } = state.dayTotals.get(accountDay(state, now)) ?? EMPTY_TOTALS;
  const watched = Object.values(hours);
  return {
    people: watched.reduce((sum, { passersBy }) => sum + passersBy, 0),
    seconds: watched.reduce((sum, { watchedSeconds }) => sum + watchedSeconds, 0),
  };
}
