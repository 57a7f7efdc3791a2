/** The state folded from the journal, against which memory and records are checked. */

import type { JournalEntry } from "../state/shapes/event.ts";
import { StallState } from "../state/state.ts";
import { apply } from "./apply/apply.ts";

/** Folds a whole journal; finished orders stay in memory, since there is no store to leave them in. */
export function fold(journal: Iterable<JournalEntry>): StallState {
  const state = new StallState();
  for (const { at, events, sequence } of journal) {
    for (const event of events) apply(state, event, at);
    state.version = sequence;
  }
  return state;
}
