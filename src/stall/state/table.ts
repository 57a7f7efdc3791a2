/** One row to write, or to delete if the value is undefined. */
export type Write = readonly [recordKey: string, value: unknown];

export type TableOptions<V> = {
  /** Called with every change, so that derived values can follow. */
  readonly changed?: (before: V | undefined, after: V | undefined) => void;
  /** Reads a row that is not held in memory. Where given, rows leave memory once they are written. */
  readonly read?: (recordKey: string) => V | undefined;
};

/**
 * Rows of one kind under one record prefix, remembering which were touched since they were last
 * written. Values are never changed in place: a row is replaced whole.
 */
export class Table<V> {
  readonly prefix: string;
  readonly #rows = new Map<string, V>();
  readonly #touched = new Set<string>();
  readonly #options: TableOptions<V>;

  constructor(prefix: string, options: TableOptions<V> = {}) {
    this.prefix = prefix;
    this.#options = options;
  }

  get size(): number {
    return this.#rows.size;
  }

  get(key: string): V | undefined {
    const row = this.#rows.get(key);
    if (row !== undefined || this.#touched.has(key)) return row;
    return this.#options.read?.(this.prefix + key);
  }

  set(key: string, value: V): void {
    const before = this.#rows.get(key);
    this.#rows.set(key, value);
    this.#touched.add(key);
    this.#options.changed?.(before, value);
  }

  delete(key: string): void {
    const before = this.get(key);
    if (before === undefined) return;
    this.#rows.delete(key);
    this.#touched.add(key);
    this.#options.changed?.(before, undefined);
  }

  /** Loads a row from storage. */
  load(key: string, value: V): void {
    this.#rows.set(key, value);
    this.#options.changed?.(undefined, value);
  }

  keys(): IterableIterator<string> {
    return this.#rows.keys();
  }

  values(): IterableIterator<V> {
    return this.#rows.values();
  }

  /** The rows touched since the last call, as they must be written. */
  drain(): Write[] {
    const writes = [...this.#touched].map((key): Write => [this.prefix + key, this.#rows.get(key)]);
    if (this.#options.read !== undefined) for (const key of this.#touched) this.#rows.delete(key);
    this.#touched.clear();
    return writes;
  }
}
