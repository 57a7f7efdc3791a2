/** Reads a day's rows: a few hundred at most, however long the stall has run. */
import type { Day } from "../../time/fair-day.ts";
import { type DayRows, EMPTY_TOTALS, netOf } from "../state/day-rows.ts";
import type { PieceKey } from "../state/shapes/piece.ts";
import type { StallState } from "../state/state.ts";

/** Every day that has an entry, oldest first. */
export const daysOf = (state: StallState): readonly Day[] => state.dayTotals.under().map(([day]) => day);

/** The rows of a day; empty if there are none. */
export function rowsOf(state: StallState, day: Day): DayRows {
  const start = `${day} `;
  return {
    totals: state.dayTotals.get(day) ?? EMPTY_TOTALS,
    pieces: new Map(
      state.dayPieces.under(start).map(([key, row]) => [key.slice(start.length) as PieceKey, row]), // as pieceRow() writes them
    ),
    choices: state.dayChoices.under(start).map(([, row]) => row),
    costs: state.dayCosts.get(day) ?? null,
  };
}

/** The change of each piece's count after a day. */
export function changedAfter(state: StallState, day: Day): ReadonlyMap<PieceKey, number> {
  const changes = new Map<PieceKey, number>();
  for (const later of daysOf(state).filter((one) => one > day))
    for (const [piece, row] of rowsOf(state, later).pieces)
      changes.set(piece, (changes.get(piece) ?? 0) + netOf(row));
  return changes;
}
