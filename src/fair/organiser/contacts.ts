/** Whom the organiser calls at each stall: rows of their own, which are erased with the fair's people. */
import type { StallId } from "../../model/basics/ids.ts";
import type { StallContact, StallContacts } from "../../model/fair/contacts.ts";
import type { Rows } from "../rows.ts";

const PREFIX = "contact:";

export class Contacts {
  readonly #rows: Rows;

  constructor(rows: Rows) {
    this.#rows = rows;
  }

  all(): StallContacts["contacts"] {
    return [...this.#rows.list<StallContact>({ prefix: PREFIX })].map(([key, contact]) => ({
      stall: key.slice(PREFIX.length) as StallId, // written below only
      ...contact,
    }));
  }

  /** Keeps a stall's contact; null forgets it. */
  set(stall: StallId, contact: StallContact | null): void {
    if (contact === null) this.#rows.delete(PREFIX + stall);
    else this.#rows.put(PREFIX + stall, contact);
  }

  /** Forgets all of them: a stall has one at most. */
  erase(): void {
    for (const [key] of [...this.#rows.list({ prefix: PREFIX })]) this.#rows.delete(key);
  }
}
