/** A stall's rows as plain data that can be compared. */
import type { StallState } from "../../src/stall/state/state.ts";

/** All rows of a state that are held in memory, and the account of its days whether written out or ahead. */
export function rowsOf(state: StallState): Record<string, unknown> {
  const held = state.tables.flatMap((table) =>
    [...table.keys()].map((key) => [table.prefix + key, table.get(key) as unknown] as const),
  );
  const days = state.writeBehind.flatMap((table) =>
    table.under().map(([key, row]) => [table.prefix + key, row as unknown] as const),
  );
  return Object.fromEntries([...held, ...days].sort(([one], [other]) => (one < other ? -1 : 1)));
}
