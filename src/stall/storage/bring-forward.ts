/** Brings rows of earlier shapes to the present one, once, when a stall is opened by a newer program. */
import type { JournalEntry, Order } from "../state/facts.ts";
import type { AtOrder } from "./people.ts";
import { journalKey, RECORDS_VERSION, readJournal, type Store } from "./records.ts";

/** From this shape on, names of the crew stand apart from the facts. */
const NAMES_APART = 3;

/** Brings a store forward; one that is empty, of this shape or of a newer one is left alone. */
export function bringForward(store: Store): void {
  const shape = Number(store.get("records-version") ?? 1);
  if (shape >= NAMES_APART || store.get(journalKey(1)) === undefined) return;
  for (const prefix of ["order:", "past:"])
    for (const [key, order] of rowsOf(store, prefix)) takeNameOut(store, key, order as Order); // the prefix's own type
  for (const entry of readJournal(store)) {
    const events = withoutNames(entry.events);
    if (events !== entry.events) store.put(journalKey(entry.sequence), { ...entry, events });
  }
  store.put("records-version", RECORDS_VERSION);
}

/** Moves the name of whoever took an order's payment to the people's rows. */
function takeNameOut(store: Store, key: string, order: Order): void {
  if (order.paid === null || !("by" in order.paid)) return;
  const { by, ...paid } = order.paid as typeof order.paid & { readonly by?: unknown }; // shape 2 had it here
  const at = `at-order:${order.number}`;
  const before = store.get(at) as AtOrder | undefined; // written under this prefix only
  if (typeof by === "string") store.put(at, { ...before, paidTo: by } satisfies AtOrder);
  store.put(key, { ...order, paid });
}

/** The same events without the name of whoever took a payment; the very same list if there is none in it. */
export function withoutNames(events: JournalEntry["events"]): JournalEntry["events"] {
  if (!events.some((event) => event.type === "paid" && "by" in event)) return events;
  return events.map((event) => {
    if (event.type !== "paid") return event;
    const { by: _, ...paid } = event as typeof event & { readonly by?: unknown }; // shape 2 had it here
    return paid;
  });
}

/** The rows under a prefix, in pages: a row may be written while they are read. */
function* rowsOf(store: Store, prefix: string): Generator<readonly [string, unknown]> {
  for (let last: string | undefined; ; ) {
    const page = [...store.list({ prefix, limit: 500, ...(last === undefined ? {} : { startAfter: last }) })];
    yield* page;
    last = page.at(-1)?.[0];
    if (last === undefined) return;
  }
}
