/** A stall as one file: the journal, from which the state follows, and its people apart. */

import type { JournalEntry, StallEvent } from "../state/shapes/event.ts";
import { PICTURE } from "../state/state.ts";
import { presentEntry } from "./earlier-names.ts";
import { claimName, ISSUED, tokenName } from "./issued.ts";
import { carriedPicture } from "./picture-bytes.ts";
import type { Store } from "./records.ts";

/** The parts of a stall that are rows of their own, by their prefix in the store. */
export const ROWS = {
  persons: "person:",
  conversations: "talk:",
  texts: "texts:",
  orders: "at-order:",
  issued: ISSUED,
  pictures: PICTURE,
} as const;
export const PEOPLE = ["persons", "conversations", "texts", "orders"] as const;
/** The journal comes after the people, so that no row of theirs names an order that the file does not have. */
const PARTS = [...PEOPLE, "pictures", "journal", "issued"] as const;
type Part = (typeof PARTS)[number];

/** The size of a page: rows are read by the hundred until their text is this long. */
const PAGE_ROWS = 100;
/** A picture is as long as a thousand other rows. */
const PAGE_PICTURES = 5;
const PAGE_LENGTH = 400_000;

export type Cursor = { readonly part: Part; readonly after: string | null };

/** A page of a stall as a file has it. */
export type SavedPage = {
  readonly part: Part;
  /** Rows as JSON. */
  readonly rows: readonly string[];
  /** What keys were given out for: `customer.ID` and `claim.NUMBER`. */
  readonly names: readonly string[];
  readonly next: Cursor | null;
};

/** The page of what the records hold of the stall's own; what belongs to its place or its deployment is not in it. */
export function savedPage(store: Store, { part, after }: Cursor): SavedPage {
  const prefix = part === "journal" ? "journal:" : ROWS[part];
  const limit = part === "pictures" ? PAGE_PICTURES : PAGE_ROWS;
  const rows: string[] = [];
  const names: string[] = [];
  let [length, last, ended] = [0, after, false];
  while (length < PAGE_LENGTH && !ended) {
    const from = last === null ? {} : { startAfter: prefix + last };
    const page = [...store.list({ prefix, limit, ...from })];
    for (const [key, row] of page) {
      last = key.slice(prefix.length);
      // Rows of the journal are written under its prefix only.
      const saved =
        part === "journal"
          ? withoutRows(presentEntry(row as JournalEntry))
          : part === "pictures"
            ? carriedPicture(store, last)
            : [last, row];
      if (saved === null) continue;
      const text = JSON.stringify(saved);
      rows.push(text);
      length += text.length;
      if (part === "journal") names.push(...(row as JournalEntry).events.flatMap(namesIn));
      if (part === "conversations") names.push(tokenName(last));
    }
    ended = page.length < limit;
  }
  const following = PARTS[PARTS.indexOf(part) + 1];
  const ahead: Cursor | null = following === undefined ? null : { part: following, after: null };
  return { part, rows, names, next: ended ? ahead : { part, after: last } };
}

const namesIn = (event: StallEvent): readonly string[] =>
  event.type === "placed" ? [claimName(event.order.number)] : [];

export const FIRST_PAGE: Cursor = { part: PARTS[0], after: null };

/** An entry as a file has it: the rest of the entry follows from its events. */
export const withoutRows = ({ sequence, at, events }: JournalEntry): JournalEntry => ({
  sequence,
  at,
  events,
});
