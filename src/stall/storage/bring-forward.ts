/**
 * Brings rows of earlier shapes to the present one in parts, so that a large store needs no huge transaction: until a row's
 * turn comes it is translated whenever it is read, and a cursor row says how far the parts have come.
 */
import type { JournalEntry } from "../state/shapes/event.ts";
import type { Order } from "../state/shapes/order.ts";
import type { Write } from "../state/table.ts";
import { payerIn, presentEntry, withoutPayer } from "./earlier-names.ts";
import type { AtOrder } from "./people.ts";
import { journalKey, RECORDS_VERSION, type Store } from "./records.ts";

/** From this shape on, the crew's names are stored apart from the facts. */
const NAMES_APART = 3;
const CURSOR = "bring-forward";
/** Rows read for one part. */
const PART = 500;
/** The rows of shapes before 3, in the order in which they are brought forward. */
const PREFIXES = ["order:", "past:", "journal:"] as const;
type Prefix = (typeof PREFIXES)[number];
type Cursor = { readonly prefix: Prefix; readonly after: string | null };

const START: Cursor = { prefix: PREFIXES[0], after: null };
const AT_ORDER = "at-order:";

export class BringForward {
  readonly #store: Store;
  /** Null if every row has the present shape. */
  #cursor: Cursor | null;

  constructor(store: Store) {
    this.#store = store;
    const stored = store.get(CURSOR) as Cursor | undefined; // written below only
    const isOlder = Number(store.get("records-version") ?? 1) < NAMES_APART;
    this.#cursor = stored ?? (isOlder && store.get(journalKey(1)) !== undefined ? START : null);
  }

  get isDone(): boolean {
    return this.#cursor === null;
  }

  /** The cursor's row, to be written together with the mark of the present shape. */
  begin(): readonly Write[] {
    return this.#cursor === null ? [] : [[CURSOR, this.#cursor]];
  }

  /** A row of people, with the name that an earlier shape kept in the order itself. */
  read(key: string): unknown {
    const row = this.#store.get(key);
    if (this.#cursor === null || !key.startsWith(AT_ORDER)) return row;
    const order = key.slice(AT_ORDER.length).padStart(6, "0");
    const payer = payerIn(this.#store.get(`order:${order}`) ?? this.#store.get(`past:${order}`));
    return payer === undefined || this.#isErased ? row : withPayer(row, payer);
  }

  /** The numbers of orders among some writes: their rows are about to lose the name that they may still hold. */
  rewritten(writes: readonly Write[]): readonly number[] {
    if (this.#cursor === null) return [];
    return writes.flatMap(([key]) => {
      const prefix = ["order:", "past:"].find((start) => key.startsWith(start));
      return prefix === undefined ? [] : [Number(key.slice(prefix.length))];
    });
  }

  /** Brings the next part forward; call it when nothing else is to be written. */
  part(): readonly Write[] {
    const writes: Write[] = [];
    for (let room = PART; room > 0 && this.#cursor !== null; ) {
      const { prefix, after }: Cursor = this.#cursor;
      const from = after === null ? {} : { startAfter: after };
      const page = [...this.#store.list({ prefix, limit: room, ...from })];
      for (const [key, row] of page) writes.push(...this.#forward(prefix, key, row));
      const last = page.at(-1)?.[0] ?? null;
      this.#cursor = page.length === room ? { prefix, after: last } : following(prefix);
      room -= page.length;
    }
    return [...writes, ["records-version", RECORDS_VERSION], [CURSOR, this.#cursor ?? undefined]];
  }

  #forward(prefix: Prefix, key: string, row: unknown): readonly Write[] {
    if (prefix === "journal:") {
      const entry = row as JournalEntry; // written under this prefix only
      const present = presentEntry(entry);
      return present === entry ? [] : [[key, present]];
    }
    const payer = payerIn(row);
    if (payer === undefined) return [];
    const at = AT_ORDER + Number(key.slice(prefix.length));
    const name: Write[] = this.#isErased ? [] : [[at, withPayer(this.#store.get(at), payer)]];
    return [...name, [key, withoutPayer(row as Order)]]; // the prefix's own type
  }

  /** Whether the stall's people are erased: then no name is kept. */
  get #isErased(): boolean {
    return this.#store.get("erased") !== undefined;
  }
}

const following = (prefix: Prefix): Cursor | null => {
  const next = PREFIXES[PREFIXES.indexOf(prefix) + 1];
  return next === undefined ? null : { prefix: next, after: null };
};

/** What is known of people at an order, with who took its payment; a name noted since then wins. */
const withPayer = (row: unknown, paidTo: string): AtOrder => ({ paidTo, ...(row as AtOrder | undefined) }); // written under this prefix only
