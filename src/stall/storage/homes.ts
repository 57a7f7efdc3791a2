/**
 * Where a stall's rows are: its home, a prefix before every key. A whole stall is loaded into a new home, out of sight,
 * and one row moves it in. Broken-off loads and old homes are cleared a page at a time.
 */
import type { Instant } from "../../time/instants.ts";
import { StallState } from "../state/state.ts";
import type { Store } from "./records.ts";

/** A stall that is being loaded, and how much of it has come. */
export type Loading = {
  readonly upload: string;
  readonly home: string;
  readonly parts: number;
  readonly at: Instant;
};

type Row = {
  readonly home: string;
  readonly loading: Loading | null;
  /** Homes to clear. */
  readonly left: readonly string[];
  /** How many loads there ever were. */
  readonly tries: number;
};

const ROW = "home";
const FIRST: Row = { home: "", loading: null, left: [], tries: 0 };
/** After every other key, so that the rows of the first home are those before it. */
const HOMES = "~";
/** Programs before this shape know no homes: they must not take a stall that moved for an empty one. */
const SHAPE = 5;
const PAGE = 500;
/** A load is broken off if no part comes for this long, in milliseconds. */
const PATIENCE = 60 * 60 * 1000;

/** The rows of a home under their own keys. */
function storeAt(store: Store, home: string): Store {
  if (home === "") return store;
  return {
    get: (key) => store.get(home + key),
    put: (key, value) => store.put(home + key, value),
    delete: (key) => store.delete(home + key),
    list: ({ prefix, startAfter, ...options }) => {
      const from = startAfter === undefined ? {} : { startAfter: home + startAfter };
      const rows = [...store.list({ ...options, prefix: home + prefix, ...from })];
      return rows.map(([key, value]) => [key.slice(home.length), value] as const);
    },
  };
}

/** What an empty stall does not keep: its short journal, recorded answers, and texts. */
const NOT_KEPT = (() => {
  const { tables, readByKey, writeBehind } = new StallState();
  const stalls = [...tables, ...readByKey, ...writeBehind].map(({ prefix }) => prefix);
  return [...stalls, "journal:", "seen:", "erased", "erase-at", "records-version", "bring-forward", ROW];
})();

const isKept = (key: string): boolean =>
  !NOT_KEPT.some((prefix) => (prefix.endsWith(":") ? key.startsWith(prefix) : key === prefix));

export class Homes {
  readonly #rows: Store;
  #known: Row | null = null;
  #store: Store | null = null;

  constructor(rows: Store) {
    this.#rows = rows;
  }

  /** The stall's own rows. */
  get store(): Store {
    this.#store ??= storeAt(this.#rows, this.#row.home);
    return this.#store;
  }

  get loading(): Loading | null {
    return this.#row.loading;
  }

  /** Where the parts of the load under way are written. */
  get loadingStore(): Store {
    const { loading } = this.#row;
    if (loading === null) throw new Error("nothing is being loaded");
    return storeAt(this.#rows, loading.home);
  }

  get #row(): Row {
    this.#known ??= (this.#rows.get(ROW) as Row | undefined) ?? FIRST; // written below only
    return this.#known;
  }

  #set(row: Row): void {
    this.#rows.put(ROW, row);
    this.#known = row;
  }

  /** Forgets what memory has of it: a transaction failed, or everything was wiped. */
  forget(): void {
    this.#known = null;
    this.#store = null;
  }

  /** Begins a load, and breaks off one that was under way. */
  begin(upload: string, now: Instant): void {
    this.breakOff();
    // An upload's name may come again: its homes differ by how many there were.
    const tries = this.#row.tries + 1;
    const home = `${HOMES}${tries}.${upload}/`;
    this.#set({ ...this.#row, tries, loading: { upload, home, parts: 0, at: now } });
  }

  /** Notes that one more part has come. */
  noteParts(parts: number, now: Instant): void {
    const { loading } = this.#row;
    if (loading !== null) this.#set({ ...this.#row, loading: { ...loading, parts, at: now } });
  }

  breakOff(): void {
    const { loading, left } = this.#row;
    if (loading !== null) this.#set({ ...this.#row, loading: null, left: [...left, loading.home] });
  }

  /** Makes the loaded rows the stall; rows that belong to the place are copied from the empty stall. */
  moveIn(): void {
    const { loading, home: before } = this.#row;
    if (loading === null) throw new Error("nothing is being loaded");
    const [from, to] = [this.store, this.loadingStore];
    for (let last = ""; ; ) {
      const page = [...from.list({ prefix: "", limit: PAGE, ...(last === "" ? {} : { startAfter: last }) })];
      const own = page.filter(([key]) => before !== "" || key < HOMES);
      for (const [key, value] of own) {
        if (isKept(key) && to.get(key) === undefined) to.put(key, value);
        from.delete(key);
        last = key;
      }
      if (own.length < PAGE) break;
    }
    this.#rows.put("records-version", SHAPE);
    this.#set({ ...this.#row, home: loading.home, loading: null });
    this.#store = null;
  }

  /** When something must be cleared; null if nothing is left over. */
  due(now: Instant): Instant | null {
    const { loading, left } = this.#row;
    if (left.length > 0) return now;
    return loading === null ? null : loading.at + PATIENCE;
  }

  /** Clears a page of the homes left over. */
  clear(now: Instant): void {
    const { loading } = this.#row;
    // A row "in the future" dates from before the clock was moved back: its load is as good as over.
    if (loading !== null && (loading.at + PATIENCE <= now || loading.at > now + PATIENCE)) this.breakOff();
    const [home] = this.#row.left;
    if (home === undefined || !this.#clearPage(home)) return;
    this.#set({ ...this.#row, left: this.#row.left.slice(1) });
  }

  /** Deletes a page of a home's rows. True if none is left. */
  #clearPage(home: string): boolean {
    const page = [...this.#rows.list({ prefix: home, limit: PAGE })];
    for (const [key] of page) this.#rows.delete(key);
    return page.length < PAGE;
  }
}
