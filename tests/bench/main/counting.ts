/** An object's context whose storage counts what it writes. */
import type { Store } from "../../../src/stall/storage/records.ts";

/** The part of an object's context that counts. */
type Context = {
  readonly storage: { readonly kv: Store; setAlarm: (at: number) => Promise<void> };
};

/** A stall's writes: the number of rows, and the rows. Setting an alarm is billed as a row, so it counts as one. */
export type Counts = { puts: number; rows: (readonly [string, unknown])[] };

/** The same context, with storage that counts writes. */
export function counting<C extends Context>(ctx: C, counts: Counts): C {
  const { storage } = ctx;
  const { kv } = storage;
  const setAlarm = storage.setAlarm.bind(storage);
  const counted: Store = {
    get: (key) => kv.get(key),
    list: (options) => kv.list(options),
    put: (key, value) => {
      counts.puts += 1;
      counts.rows.push([key, value]);
      kv.put(key, value);
    },
    delete: (key) => {
      counts.puts += 1;
      return kv.delete(key);
    },
  };
  Object.defineProperty(storage, "kv", { value: counted });
  storage.setAlarm = (...given) => {
    counts.puts += 1;
    return setAlarm(...given);
  };
  return ctx;
}
