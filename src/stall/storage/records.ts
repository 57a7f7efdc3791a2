/** State <-> key-value records. Loading reads open work only, never history. */
import { newerRecords } from "../../model/basics/newer-records.ts";
import type { JournalEntry } from "../state/shapes/event.ts";
import { StallState } from "../state/state.ts";
import type { Write } from "../state/table.ts";
import { presentEntry, presentRow } from "./earlier-names.ts";

/** The part of a synchronous key-value store that records need; a Durable Object's `storage.kv` is one. */
export type Store = {
  readonly get: (key: string) => unknown;
  readonly put: (key: string, value: unknown) => void;
  readonly delete: (key: string) => boolean;
  readonly list: (options: {
    readonly prefix: string;
    readonly reverse?: boolean;
    readonly limit?: number;
    readonly startAfter?: string;
  }) => Iterable<readonly [string, unknown]>;
};

/** The shape of the records; a store written by a newer shape is not opened. */
export const RECORDS_VERSION = 5;

/** The most journal entries that may carry rows not written out: the most that waking has to read. */
export const WRITE_BEHIND_MOST = 128;

const JOURNAL = "journal:";
const PAST = "past:";

/** Ten digits, so that journal keys sort as their numbers do. */
export const journalKey = (sequence: number): string => JOURNAL + String(sequence).padStart(10, "0");

type Loading = { readonly prefix: string; readonly load: (key: string, value: unknown) => void };

/** Fills tables whose rows are all kept in memory. A prefix without a colon is a single row. */
export function loadRows(store: Store, tables: readonly { readonly prefix: string }[]): void {
  for (const table of tables as readonly Loading[]) {
    // Each prefix holds rows of its own table's type only.
    if (!table.prefix.endsWith(":")) {
      const value = store.get(table.prefix);
      if (value !== undefined) table.load("", value);
      continue;
    }
    for (const [key, value] of [...store.list({ prefix: table.prefix })])
      table.load(key.slice(table.prefix.length), presentRow(table.prefix, value));
  }
}

/** The state as the records say it is. */
export function loadState(store: Store): StallState {
  const written = store.get("records-version");
  if (typeof written === "number" && written > RECORDS_VERSION)
    throw newerRecords("this stall's", written, RECORDS_VERSION);
  const state = new StallState({
    get: (key) => (key.startsWith(PAST) ? presentRow(PAST, store.get(key)) : store.get(key)),
    list: (options) => store.list(options),
  });
  loadRows(store, state.tables);
  const entries = entriesNotWrittenOut(store);
  state.version = entries[0]?.sequence ?? 0;
  state.writtenOut = state.version - entries.filter(({ ahead }) => ahead !== undefined).length;
  for (const { ahead = [] } of entries.reverse())
    for (const [key, row] of ahead)
      for (const table of state.writeBehind as readonly Loading[])
        if (key.startsWith(table.prefix)) table.load(key.slice(table.prefix.length), row);
  return state;
}

/** The last entry of the journal first, then those before it, back to one at which everything was written out. */
function entriesNotWrittenOut(store: Store): JournalEntry[] {
  const entries: JournalEntry[] = [];
  const limit = WRITE_BEHIND_MOST + 1;
  for (const [, value] of [...store.list({ prefix: JOURNAL, reverse: true, limit })]) {
    const entry = value as JournalEntry; // written under this prefix only
    entries.push(entry);
    if (entry.ahead === undefined) break;
  }
  return entries;
}

/** The journal from the start, an entry at a time. */
export function* readJournal(store: Store, after = 0): Generator<JournalEntry> {
  // In pages: an open list would be broken off by the next one.
  for (let last = after; ; ) {
    const page = [...store.list({ prefix: JOURNAL, startAfter: journalKey(last), limit: 500 })];
    for (const [, value] of page) yield presentEntry(value as JournalEntry); // written under this prefix only
    const final = page.at(-1)?.[1] as JournalEntry | undefined;
    if (final === undefined) return;
    last = final.sequence;
  }
}

/** Writes rows unchanged. Call it inside a transaction. */
export function write(store: Store, writes: readonly Write[]): void {
  for (const [key, value] of writes) {
    if (value === undefined) store.delete(key);
    else store.put(key, value);
  }
}
