/** When a text is tried, tried again, and given up; and which texts may go next. */
import { SortedList } from "../../maths/sorted-list.ts";

export type Waiting = {
  readonly id: string;
  /** Texts of one lane go in order: the next waits while the one before is being tried again. */
  readonly lane: string;
  readonly dueAt: number;
  readonly attempts: number;
  readonly since: number;
};

const FIRST_RETRY = 1000;
const LONGEST_RETRY = 5 * 60 * 1000;
/** A text that is older is not worth sending. */
const GIVE_UP_AFTER = 2 * 60 * 60 * 1000;

/** When to try again after a failed attempt (exponential, with jitter from `chance` in [0, 1)); null: give up. */
export function nextAttempt(row: Waiting, now: number, chance: number, retryAfter = 0): number | null {
  if (now - row.since >= GIVE_UP_AFTER) return null;
  const longest = Math.min(FIRST_RETRY * 2 ** row.attempts, LONGEST_RETRY);
  return now + Math.max(Math.round(longest * (0.5 + chance / 2)), retryAfter);
}

/** A row stored "in the future" dates from before the clock was moved back; treat it as due. */
const isDue = ({ dueAt, since }: Waiting, now: number): boolean => dueAt <= now || since > now;

const byDue = (one: Waiting, other: Waiting): number =>
  one.dueAt - other.dueAt || (one.id < other.id ? -1 : one.id > other.id ? 1 : 0);

const byAge = (one: Waiting, other: Waiting): number => one.since - other.since || byDue(one, other);

/** The order in which waiting texts go out, kept up as rows come, change and leave. */
export class Outbox<R extends Waiting> {
  readonly #lanes = new Map<string, readonly R[]>();
  /** Texts that nothing before them in their lane holds back. */
  readonly #free = new SortedList<R, Waiting>(byDue);
  readonly #byAge = new SortedList<R, Waiting>(byAge);

  /** A row was added, replaced or taken away. */
  changed(before: R | undefined, after: R | undefined): void {
    const lane = (after ?? before)?.lane;
    if (lane === undefined) return;
    if (before !== undefined) this.#byAge.remove(before);
    if (after !== undefined) this.#byAge.add(after);
    for (const row of unheld(this.of(lane))) this.#free.remove(row);
    const others = this.of(lane).filter(({ id }) => id !== before?.id);
    const rows = after === undefined ? others : [...others, after].sort(byAge);
    if (rows.length === 0) this.#lanes.delete(lane);
    else this.#lanes.set(lane, rows);
    for (const row of unheld(rows)) this.#free.add(row);
  }

  /** The texts of one lane, oldest first. */
  of(lane: string): readonly R[] {
    return this.#lanes.get(lane) ?? [];
  }

  /** When the next text may go; null if none waits. */
  nextDue(now: number): number | null {
    const next = this.#free.at(0);
    return next === undefined ? null : isDue(next, now) ? Math.min(next.dueAt, now) : next.dueAt;
  }

  /** When the oldest text is given up, tried or not; null if none waits. */
  nextTooOld(): number | null {
    const oldest = this.#byAge.at(0);
    return oldest === undefined ? null : oldest.since + GIVE_UP_AFTER;
  }

  /** The texts that have waited too long, whether or not they were ever tried. */
  tooOld(now: number): readonly R[] {
    const rows: R[] = [];
    for (const row of this.#byAge) {
      if (now - row.since < GIVE_UP_AFTER) break;
      rows.push(row);
    }
    return rows;
  }

  /** The texts that may go now, at most `most`, in order within each lane. */
  due(now: number, most: number): readonly R[] {
    const rows: R[] = [];
    for (const row of this.#free) {
      if (!isDue(row, now) || rows.length >= most) break;
      rows.push(row);
    }
    return rows.sort(byAge);
  }
}

/** The rows of a lane up to and with the first that is being tried again. */
function unheld<R extends Waiting>(rows: readonly R[]): readonly R[] {
  const held = rows.findIndex(({ attempts }) => attempts > 0);
  return held < 0 ? rows : rows.slice(0, held + 1);
}
