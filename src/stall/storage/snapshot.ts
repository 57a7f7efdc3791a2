/** A stall as one file, and back: the journal, from which the state follows, and its people apart. */

import type { Identity } from "../../fair/reports.ts";
import type { WholeStall } from "../../model/accounts/whole-stall.ts";
import type { Instant } from "../../time/instants.ts";
import { iso } from "../../time/instants.ts";
import { apply } from "../rules/apply/apply.ts";
import { fold } from "../rules/replay.ts";
import { onHand } from "../state/counts.ts";
import type { JournalEntry } from "../state/facts.ts";
import type { StallState } from "../state/state.ts";
import type { Write } from "../state/table.ts";
import { withoutNames } from "./bring-forward.ts";
import { presentEntry } from "./earlier-names.ts";
import { journalKey, RECORDS_VERSION, readJournal, type Store } from "./records.ts";

const PEOPLE = {
  persons: "person:",
  conversations: "talk:",
  texts: "texts:",
  orders: "at-order:",
} as const;
type Part = keyof typeof PEOPLE;
const PARTS = Object.keys(PEOPLE) as Part[]; // the keys of that very literal

/** Everything the records hold that is the stall's own; what belongs to its place or its deployment is not. */
export function wholeStall(store: Store, now: Instant): WholeStall {
  const rows = (part: Part): [string, Record<string, unknown>][] =>
    [...store.list({ prefix: PEOPLE[part] })].map(
      ([key, row]) => [key.slice(PEOPLE[part].length), row] as [string, Record<string, unknown>], // plain data
    );
  return {
    format: "stallpress-stall",
    version: 1,
    exportedAt: iso(now),
    journal: [...readJournal(store)].map(told) as unknown as WholeStall["journal"], // events are plain data with a type
    people: {
      persons: rows("persons"),
      conversations: rows("conversations"),
      texts: rows("texts"),
      orders: rows("orders"),
    },
  };
}

/** An entry as a file has it: what it was written with besides follows from the events. */
const told = ({ sequence, at, events }: JournalEntry): JournalEntry => ({
  sequence,
  at,
  events: withoutNames(events),
});

/** What cannot have come out of a stall's books; null where nothing is wrong. */
function faultIn(state: StallState): string | null {
  if (state.identity === null) return "the journal does not begin with the stall being opened";
  for (const key of state.counts.keys()) {
    const count = state.counts.get(key);
    const pieces = count === undefined ? 0 : onHand(count);
    if (!Number.isInteger(pieces) || pieces < 0) return `${key} would come to ${pieces} pieces`;
  }
  return null;
}

/** A row without the keyed hash of a number that was typed on the web: at another place the same number has another. */
function atThisPlace({ given: _, ...row }: Record<string, unknown>): Record<string, unknown> {
  return row;
}

/**
 * The rows of a stall as a file tells it, at its new place; or why it cannot be read. A journal of another stall
 * is told anew from its first entry, so what does not fit together is found here.
 */
export function rowsFrom(
  whole: WholeStall,
  identity: Identity,
  now: Instant,
): { readonly writes: readonly Write[]; readonly version: number } | { readonly fault: string } {
  const journal = (whole.journal as unknown as JournalEntry[]).map(presentEntry); // what is not one does not fold
  const gap = journal.findIndex(({ sequence }, index) => sequence !== index + 1);
  if (gap >= 0) return { fault: `entry ${gap + 1} of the journal is missing or out of place` };
  let state: StallState;
  try {
    state = fold(journal);
  } catch (error) {
    // An event that does not fit is a bug in a journal of ours; in a file it is a fault of the file.
    return { fault: `the journal does not fit together: ${error instanceof Error ? error.message : "?"}` };
  }
  const fault = faultIn(state);
  if (fault !== null) return { fault };
  const entries = journal.map(told);
  if (JSON.stringify(state.identity) !== JSON.stringify(identity)) {
    apply(state, { type: "opened", identity }, now);
    entries.push({ sequence: entries.length + 1, at: now, events: [{ type: "opened", identity }] });
  }
  return {
    version: entries.length,
    writes: [
      ["records-version", RECORDS_VERSION],
      ...entries.map((entry): Write => [journalKey(entry.sequence), entry]),
      ...state.take(),
      ...state.ahead.flatMap((table) => table.take()),
      ...PARTS.flatMap((part) =>
        (whole.people[part] ?? []).map(([key, row]): Write => [PEOPLE[part] + key, atThisPlace(row)]),
      ),
    ],
  };
}
