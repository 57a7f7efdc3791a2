/** The crowd by hour moves with the fair's opening and closing. */
import { type Json, rowsAt, valueAt, withValue } from "../../kit/json-pointer.ts";
import { clockWords, minuteOf } from "./clock.ts";

const LISTS = ["#/traffic/profile", "#/traffic/hours"] as const;
const QUARTER = 15;

/**
 * The plan request with another opening or closing, and its crowd by hour stretched or shifted: the first row starts at
 * opening, the others keep their part of the day, to the quarter hour. Says in words what it did.
 */
export function withHours(
  request: Json,
  pointer: string,
  now: Json | undefined,
): { readonly request: Json; readonly says: string | null } {
  const changed = withValue(request, pointer, now);
  const [from, to] = [spanOf(request), spanOf(changed)];
  if (from === null || to === null) return { request: changed, says: null };
  for (const list of LISTS) {
    const rows = rowsAt(changed, list);
    if (rows.length === 0) continue;
    const moved = rows.map((row, at) => {
      const start = minuteOf(valueAt(row, "#/from")) ?? from.opens;
      const part = (start - from.opens) / (from.closes - from.opens);
      const exact = to.opens + part * (to.closes - to.opens);
      const quarter = Math.round(exact / QUARTER) * QUARTER;
      return at === 0 && start === from.opens ? to.opens : quarter;
    });
    const inOrder = moved.every((start, at) => start > (moved[at - 1] ?? -1) && start < to.closes);
    // A day too short for its rows by quarters is left for the person to sort out.
    if (!inOrder) continue;
    const after = rows.map((row, at) => withValue(row, "#/from", clockWords(moved[at] ?? 0)));
    return {
      request: withValue(changed, list, after),
      says: `The crowd by hour moved along: it now runs from ${clockWords(to.opens)} to ${clockWords(to.closes)}.`,
    };
  }
  return { request: changed, says: null };
}

function spanOf(request: Json): { readonly opens: number; readonly closes: number } | null {
  const opens = minuteOf(valueAt(request, "#/opens"));
  const closes = minuteOf(valueAt(request, "#/closes"));
  return opens === null || closes === null || closes <= opens ? null : { opens, closes };
}
