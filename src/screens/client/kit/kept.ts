/** What a page keeps in this browser through a reload or a flat battery: one value a name, in IndexedDB. */
import { get, promisifyRequest, type UseStore, update } from "idb-keyval";

const DATABASE = "stallpress";
const STORE = "kept";

let opened: Promise<IDBDatabase> | null = null;

function database(): Promise<IDBDatabase> {
  if (opened !== null) return opened;
  const request = indexedDB.open(DATABASE);
  request.onupgradeneeded = () => request.result.createObjectStore(STORE);
  opened = promisifyRequest(request);
  // A database that the browser closed by itself, or would not open, is opened anew the next time.
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

/** Only for as long as the page is open: where the browser keeps nothing, as some do in a private window. */
const inMemory = new Map<string, unknown>();
let lasting = true;

/** Whether what is kept outlives the page. True until the browser refused. */
export const keepsLastingly = (): boolean => lasting;

export type Kept<T> = {
  readonly read: () => Promise<T>;
  /** Changes it in one step, so that two tabs cannot undo each other's change; gives what is kept now. */
  readonly change: (to: (before: T) => T) => Promise<T>;
};

/** What the disk gave, or null where the browser refused: from then on things are kept in memory only. */
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
