/** Values that a page keeps in this browser through a reload or a flat battery, one for each name, in IndexedDB. */
import { get, promisifyRequest, type UseStore, update } from "idb-keyval";

const DATABASE = "stallpress";
const STORE = "kept";

let opened: Promise<IDBDatabase> | null = null;

function database(): Promise<IDBDatabase> {
  if (opened !== null) return opened;
  const request = indexedDB.open(DATABASE);
  request.onupgradeneeded = () => request.result.createObjectStore(STORE);
  opened = promisifyRequest(request);
  // A database that the browser closed or would not open is opened again the next time.
  opened.then(
    (db) => {
      db.onclose = () => {
        opened = null;
      };
    },
    () => {
      opened = null;
    },
  );
  return opened;
}

/** Strict: a write counts only once it is on the disk, since a battery may go flat right after it. */
const onDisk: UseStore = async (mode, work) => {
  const db = await database();
  return work(db.transaction(STORE, mode, { durability: "strict" }).objectStore(STORE));
};

/** In memory only, if the browser stores nothing, as some do in a private window. */
const inMemory = new Map<string, unknown>();
let lasting = true;

/** Whether kept values outlive the page. True until the browser has refused. */
export const keepsLastingly = (): boolean => lasting;

export type Kept<T> = {
  readonly read: () => Promise<T>;
  /** Changes a value in one step, so that two tabs cannot undo each other's change. Returns the new value. */
  readonly change: (to: (before: T) => T) => Promise<T>;
};

/** A result of the disk, or null if the browser refused: from then on values are kept in memory only. */
async function fromDisk<T>(ask: () => Promise<T>): Promise<{ readonly value: T } | null> {
  if (!lasting) return null;
  try {
    return { value: await ask() };
  } catch {
    lasting = false;
    return null;
  }
}

/** The value of a name; `first` before anything was kept. The caller names the type it writes there itself. */
export function kept<T>(name: string, first: T): Kept<T> {
  const orFirst = (value: unknown): T => (value === undefined ? first : (value as T)); // only written below
  return {
    read: async () => {
      const found = await fromDisk(() => get<unknown>(name, onDisk));
      if (found !== null) inMemory.set(name, found.value);
      return orFirst(inMemory.get(name));
    },
    change: async (to) => {
      let now = first;
      const next = (before: unknown): T => {
        now = to(orFirst(before));
        return now;
      };
      const written = await fromDisk(() => update<unknown>(name, next, onDisk));
      if (written === null) next(inMemory.get(name));
      inMemory.set(name, now);
      return now;
    },
  };
}
