/** A Durable Object's storage in memory: rows by key, all-or-nothing transactions, one alarm, and its faults. */

/** The write that was to be refused was refused, or the object it belonged to is gone. */
export class StorageFailed extends Error {}

type ListOptions = {
  readonly prefix: string;
  readonly reverse?: boolean;
  readonly limit?: number;
  readonly start?: string;
  readonly startAfter?: string;
};

/** The group of keys that a listing reads: every prefix in use ends with a colon. */
const groupOf = (key: string): string => key.slice(0, key.indexOf(":") + 1);

/** The place of a key in a sorted list, or its insertion point. */
function placeOf(keys: readonly string[], key: string): number {
  let [low, high] = [0, keys.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((keys[middle] ?? "") < key) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The rows of one object, which outlive it. */
export class Rows {
  readonly #values = new Map<string, unknown>();
  readonly #groups = new Map<string, string[]>();
  /** Keys written since they were last taken. */
  #written = new Set<string>();
  /** Writes to refuse from now on. */
  refusals = 0;

  get(key: string): unknown {
    return structuredClone(this.#values.get(key));
  }

  /** The row itself, for reading only. */
  peek(key: string): unknown {
    return this.#values.get(key);
  }

  put(key: string, value: unknown): void {
    this.set(key, structuredClone(value));
  }

  set(key: string, value: unknown): void {
    const keys = this.#groups.get(groupOf(key)) ?? [];
    if (!this.#values.has(key)) keys.splice(placeOf(keys, key), 0, key);
    this.#groups.set(groupOf(key), keys);
    this.#values.set(key, value);
    this.#written.add(key);
  }

  delete(key: string): boolean {
    if (!this.#values.delete(key)) return false;
    const keys = this.#groups.get(groupOf(key)) ?? [];
    keys.splice(placeOf(keys, key), 1);
    this.#written.add(key);
    return true;
  }

  has(key: string): boolean {
    return this.#values.has(key);
  }

  list({ prefix, reverse = false, limit, start, startAfter }: ListOptions): [string, unknown][] {
    const all = prefix.includes(":") ? (this.#groups.get(groupOf(prefix)) ?? []) : this.#all();
    let first = Math.max(placeOf(all, prefix), start === undefined ? 0 : placeOf(all, start));
    if (startAfter !== undefined) {
      const place = placeOf(all, startAfter);
      first = Math.max(first, all[place] === startAfter ? place + 1 : place);
    }
    const found = all.slice(first, limit === undefined || reverse ? undefined : first + limit);
    const keys = (reverse ? found.reverse() : found).filter((key) => key.startsWith(prefix)).slice(0, limit);
    return keys.map((key) => [key, this.get(key)]);
  }

  /** Every key there is, sorted. */
  #all(): string[] {
    return [...this.#values.keys()].sort();
  }

  keysOf(group: string): readonly string[] {
    return this.#groups.get(group) ?? [];
  }

  takeWritten(): ReadonlySet<string> {
    const written = this.#written;
    this.#written = new Set();
    return written;
  }
}

/** One life of an object: work it started before it was killed has no effect any more. */
export class Life {
  over = false;
  /** It ends with the next write that succeeds: after the commit, before the reply. */
  endsAfterCommit = false;
  readonly #ends: (() => void)[] = [];

  end(): void {
    if (this.over) return;
    this.over = true;
    for (const ended of this.#ends) ended();
  }

  /** Rejects when the life ends. */
  get ended(): Promise<never> {
    return new Promise((_, reject) => {
      const ended = (): void => reject(new StorageFailed("the object is gone"));
      if (this.over) ended();
      else this.#ends.push(ended);
    });
  }
}

type SimulatedAlarm = {
  readonly at: number | null;
  readonly set: (at: number) => void;
  readonly clear?: () => void;
};

/** The storage that one life of an object gets. */
export function storageFor(rows: Rows, life: Life, alarm: SimulatedAlarm) {
  let undo: Map<string, unknown> | null = null;
  const alive = (): void => {
    if (life.over) throw new StorageFailed("the object is gone");
  };
  const committed = (): void => {
    if (rows.refusals > 0) {
      rows.refusals -= 1;
      throw new StorageFailed("the write was refused");
    }
    // What is done in the same breath as the write, as setting the alarm is, is written with it.
    if (life.endsAfterCommit) queueMicrotask(() => life.end());
  };
  const changing = (key: string, change: () => boolean): boolean => {
    alive();
    if (undo === null) committed();
    else if (!undo.has(key)) undo.set(key, rows.peek(key));
    return change();
  };
  const kv = {
    get: (key: string) => {
      alive();
      return rows.get(key);
    },
    put: (key: string, value: unknown) =>
      void changing(key, () => {
        rows.put(key, value);
        return true;
      }),
    delete: (key: string) => changing(key, () => rows.delete(key)),
    list: (options: ListOptions) => {
      alive();
      return rows.list(options);
    },
  };
  return {
    kv,
    transactionSync: <T>(work: () => T): T => {
      alive();
      undo = new Map();
      try {
        const value = work();
        committed();
        return value;
      } catch (error) {
        for (const [key, value] of undo) {
          if (value === undefined) rows.delete(key);
          else rows.set(key, value);
        }
        throw error;
      } finally {
        undo = null;
      }
    },
    // An alarm set by a dead object is ignored: that life has no turn left.
    setAlarm: (at: number): Promise<void> => {
      if (life.over) return new Promise(() => {});
      alarm.set(at);
      return Promise.resolve();
    },
    deleteAlarm: (): Promise<void> => {
      alive();
      alarm.clear?.();
      return Promise.resolve();
    },
    getAlarm: async (): Promise<number | null> => {
      alive();
      return alarm.at;
    },
  };
}
