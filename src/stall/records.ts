/** State <-> key-value records. Loading reads open work only, never history. */
import type { JournalEntry } from "./facts.ts";
import { StallState } from "./state.ts";
import type { Write } from "./table.ts";

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
export const RECORDS_VERSION = 1;

const JOURNAL = "journal:";

/** Ten digits, so that journal keys sort as their numbers do. */
export const journalKey = (sequence: number): string => JOURNAL + String(sequence).padStart(10, "0");

/** The state as the records say it is. */
export function loadState(store: Store): StallState {
  const written = store.get("records-version");
  if (typeof written === "number" && written > RECORDS_VERSION) {
    throw new Error(
      `This stall's records are of version ${written}, newer than the ${RECORDS_VERSION} this program knows. Run the newer program again.`,
    );
  }
  const state = new StallState((key) => store.get(key));
  for (const table of state.tables) {
    const loading = table as { prefix: string; load: (key: string, value: unknown) => void }; // each prefix holds one type
    if (table.prefix.endsWith(":")) {
      for (const [key, value] of [...store.list({ prefix: table.prefix })]) {
        loading.load(key.slice(table.prefix.length), value);
      }
      continue;
    }
    const value = store.get(table.prefix);
    if (value !== undefined) loading.load("", value);
  }
  for (const [key] of store.list({ prefix: JOURNAL, reverse: true, limit: 1 })) {
    state.version = Number(key.slice(JOURNAL.length));
  }
  return state;
}

/** The journal from the start, an entry at a time. */
export function* readJournal(store: Store, after = 0): Generator<JournalEntry> {
  // In pages: an open list would be broken off by the next one.
  for (let last = after; ; ) {
    const page = [...store.list({ prefix: JOURNAL, startAfter: journalKey(last), limit: 500 })];
    for (const [, value] of page) yield value as JournalEntry; // written under this prefix only
    const final = page.at(-1)?.[1] as JournalEntry | undefined;
    if (final === undefined) return;
    last = final.sequence;
  }
}

/** The records that one accepted command touched, its journal entry first. */
export function recordsOf(state: StallState, entry: JournalEntry): Write[] {
  const writes = state.take();
  if (entry.sequence === 1) writes.unshift(["records-version", RECORDS_VERSION]);
  return [[journalKey(entry.sequence), entry], ...writes];
}

/** Writes rows as they stand; call it inside a transaction. */
export function write(store: Store, writes: readonly Write[]): void {
  for (const [key, value] of writes) {
    if (value === undefined) store.delete(key);
    else store.put(key, value);
  }
}
