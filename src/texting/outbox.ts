/** When a text is tried, tried again, and given up. */
export type Waiting = { readonly dueAt: number; readonly attempts: number; readonly since: number };

const FIRST_RETRY = 1000;
const LONGEST_RETRY = 5 * 60 * 1000;
const GIVE_UP_AFTER = 2 * 60 * 60 * 1000;

/** When to try again after a failed attempt (exponential, with jitter from `chance` in [0, 1)); null: give up. */
export function nextAttempt(row: Waiting, now: number, chance: number, retryAfter = 0): number | null {
  if (now - row.since >= GIVE_UP_AFTER) return null;
  const longest = Math.min(FIRST_RETRY * 2 ** row.attempts, LONGEST_RETRY);
  return now + Math.max(longest * (0.5 + chance / 2), retryAfter);
}

/** The texts that are due, oldest first, at most `most`. */
export function dueTexts<R extends Waiting>(rows: Iterable<R>, now: number, most: number): readonly R[] {
  return [...rows]
    .filter(({ dueAt }) => dueAt <= now)
    .sort((one, other) => one.since - other.since || one.dueAt - other.dueAt)
    .slice(0, most);
}
