/** Write-behind: rows that change with nearly every command ride in the journal, and are written out now and then. */
import type { Write } from "./table.ts";

/** Where rows are read from once they have left memory: the part of a store that reads. */
export type StoredRows = {
  readonly get: (recordKey: string) => unknown;
  readonly list: (options: { readonly prefix: string }) => Iterable<readonly [string, unknown]>;
};

/**
 * Rows of one kind under one record prefix. What was touched goes into the journal entry that touched it
 * (`takeUnwritten`), which costs no row of its own, and stays in memory until it is written out (`take`). So a row
 * is read from memory first, then from the store; together they hold every row. Rows are never deleted.
 */
export class WriteBehindTable<V> {
  readonly prefix: string;
  readonly #rows = new Map<string, V>();
  readonly #touched = new Set<string>();
  readonly #stored: StoredRows | undefined;

  /** Without stored rows, every row stays in memory. */
  constructor(prefix: string, stored?: StoredRows) {
    this.prefix = prefix;
    this.#stored = stored;
  }

  get(key: string): V | undefined {
    // Rows under this prefix were written by this table only.
    return this.#rows.get(key) ?? (this.#stored?.get(this.prefix + key) as V | undefined);
  }

  set(key: string, value: V): void {
    this.#rows.set(key, value);
    this.#touched.add(key);
  }

  /** Loads a row from the journal that was not written out. */
  load(key: string, value: V): void {
    this.#rows.set(key, value);
  }

  /** Every row whose key begins so, in the order of the keys: those written out and those still in memory. */
  under(start = ""): readonly (readonly [key: string, row: V])[] {
    const rows = new Map<string, V>();
    for (const [key, row] of this.#stored?.list({ prefix: this.prefix + start }) ?? [])
      rows.set(key.slice(this.prefix.length), row as V); // as above
    for (const [key, row] of this.#rows) if (key.startsWith(start)) rows.set(key, row);
    return [...rows].sort(([one], [other]) => (one < other ? -1 : 1));
  }

  /** The rows touched since the last call, for the journal. */
  takeUnwritten(): Write[] {
    const writes = [...this.#touched].map((key): Write => [this.prefix + key, this.#rows.get(key)]);
    this.#touched.clear();
    return writes;
  }

  /** Every row that is not written out yet, to be written now. */
  drain(): Write[] {
    const writes = [...this.#rows].map(([key, row]): Write => [this.prefix + key, row]);
    this.#touched.clear();
    if (this.#stored !== undefined) this.#rows.clear();
    return writes;
  }
}
