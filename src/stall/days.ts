/** Reading a day's rows: a few hundred at most, whatever the stall has lived through. */
import type { Day } from "./day.ts";
import { type DayChoice, type DayPiece, type DayRows, EMPTY_TOTALS, netOf } from "./day-rows.ts";
import type { PieceKey } from "./facts.ts";
import type { Store } from "./records.ts";
import type { StallState } from "./state.ts";

/** Every day that has an entry, oldest first. */
export function daysOf(store: Store): readonly Day[] {
  return [...store.list({ prefix: "day:" })].map(([key]) => key.slice("day:".length));
}

/** What was put down of a day; empty where nothing was. */
export function rowsOf(state: StallState, store: Store, day: Day): DayRows {
  const pieces = [...store.list({ prefix: `day-piece:${day} ` })].map(
    ([key, row]) => [key.slice(`day-piece:${day} `.length) as PieceKey, row as DayPiece] as const, // as pieceRow() writes them
  );
  const choices = [...store.list({ prefix: `day-choice:${day} ` })].map(([, row]) => row as DayChoice); // likewise
  return {
    totals: state.dayTotals.get(day) ?? EMPTY_TOTALS,
    pieces: new Map(pieces),
    choices,
    costs: state.dayCosts.get(day) ?? null,
  };
}

/** By how much each piece's count changed after a day. */
export function changedAfter(store: Store, day: Day): ReadonlyMap<PieceKey, number> {
  const changes = new Map<PieceKey, number>();
  const prefix = "day-piece:";
  // Keys of the day itself go on with a space, which sorts before the tilde.
  for (const [key, row] of [...store.list({ prefix, startAfter: `${prefix}${day}~` })]) {
    const piece = key.slice(`${prefix}${day} `.length) as PieceKey; // as pieceRow() writes them
    changes.set(piece, (changes.get(piece) ?? 0) + netOf(row as DayPiece));
  }
  return changes;
}
