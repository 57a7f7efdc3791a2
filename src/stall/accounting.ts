/** The account of a stall's days: read off their own rows, kept by the crew's commands. */
import { eachOnce } from "../lessons/learnt.ts";
import type { Closeout } from "../model/closeout.ts";
import type { Lessons } from "../model/lessons.ts";
import type { Answer } from "../model/refusal.ts";
import type { Books } from "./books.ts";
import { closeout } from "./closeout.ts";
import type { AccountCommand } from "./commands.ts";
import { accountDay, type Day, isClosed } from "./day.ts";
import { EMPTY_TOTALS } from "./day-rows.ts";
import { changedAfter, daysOf, rowsOf } from "./days.ts";
import type { Instant } from "./facts.ts";
import { lessonsOf } from "./lessons.ts";
import type { WriteKey } from "./once.ts";
import { TextingStall } from "./texts.ts";

export type DayStanding = { readonly day: Day; readonly closed: boolean };

/** The day an account is shown of where none was named: today where it has begun, else the last one. */
export function shownDay({ state }: Books, now: Instant): Day {
  const today = accountDay(state, now);
  if (state.dayTotals.get(today) !== undefined) return today;
  return daysOf(state).at(-1) ?? today;
}

export abstract class AccountingStall extends TextingStall {
  /** A day's account; null for the latest. */
  closeout(generation: number, day: Day | null): Answer<Closeout> {
    return this.readAsCrew(generation, (books, menu) => {
      const now = Date.now();
      const { state } = books;
      const { identity } = state;
      if (identity === null) throw new Error("a stall with a menu was never opened");
      const shown = day ?? shownDay(books, now);
      const days = daysOf(state);
      const before = days
        .filter((one) => one < shown)
        .findLast((one) => state.dayCosts.get(one) !== undefined);
      const given = {
        day: shown,
        rows: rowsOf(state, shown),
        later: changedAfter(state, shown),
        days,
        earlierCosts: before === undefined ? null : (state.dayCosts.get(before) ?? null),
      };
      return closeout(state, identity, menu, given, now);
    });
  }

  /** The evidence of every day, other fairs' that were taken in first; the planner reads it as it is. */
  lessons(generation: number): Answer<readonly Lessons[]> {
    return this.readAsCrew(generation, ({ state }) => {
      const { identity } = state;
      if (identity === null) throw new Error("a stall with a menu was never opened");
      const taken = [...this.store.list({ prefix: "lesson:" })].map(([, row]) => row as Lessons); // its own prefix
      const own = daysOf(state).flatMap((day) => lessonsOf(identity, day, rowsOf(state, day)) ?? []);
      return eachOnce([...taken, ...own]);
    });
  }

  takeLessons(
    generation: number,
    key: WriteKey,
    command: Extract<AccountCommand, { readonly type: "take-lessons" }>,
  ): Answer<{ readonly taken: number }> {
    return this.crew(generation, key, command, () => ({ taken: command.lessons.length }));
  }

  onAccount(
    generation: number,
    key: WriteKey,
    command: Extract<AccountCommand, { readonly day: Day }>,
  ): Answer<DayStanding> {
    return this.crew(generation, key, command, ({ state }) => ({
      day: command.day,
      closed: isClosed(state.account, command.day),
    }));
  }

  /** Takes in people counted walking past; gives what was counted in all, this day. */
  countPassersBy(
    generation: number,
    key: WriteKey,
    command: Extract<AccountCommand, { readonly type: "count-passers-by" }>,
  ): Answer<{ readonly people: number; readonly seconds: number }> {
    return this.crew(generation, key, command, ({ state }, _, now) => {
      const { hours } = state.dayTotals.get(accountDay(state, now)) ?? EMPTY_TOTALS;
      const watched = Object.values(hours);
      const people = watched.reduce((sum, { passersBy }) => sum + passersBy, 0);
      const seconds = watched.reduce((sum, { watchedSeconds }) => sum + watchedSeconds, 0);
      return { people, seconds };
    });
  }
}
