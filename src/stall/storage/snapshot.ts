/** A stall as one file, and back: the journal, from which the state follows, and its people apart. */

import type { Identity } from "../../fair/reports.ts";
import type { WholeStall } from "../../model/accounts/whole-stall.ts";
import { DesignId } from "../../model/basics/ids.ts";
import type { Instant } from "../../time/instants.ts";
import { apply } from "../rules/apply/apply.ts";
import { fold } from "../rules/replay.ts";
import { onHand } from "../state/counts.ts";
import type { JournalEntry, StallEvent } from "../state/facts.ts";
import { PICTURE, type StallState } from "../state/state.ts";
import type { Write } from "../state/table.ts";
import { withoutNames } from "./bring-forward.ts";
import { presentEntry } from "./earlier-names.ts";
import { claimName, ISSUED, tokenName } from "./issued.ts";
import { carriedPicture, type PictureOf } from "./picture-bytes.ts";
import { journalKey, RECORDS_VERSION, type Store } from "./records.ts";

/** The parts of a stall that are rows of their own, by the prefix they stand under here. */
const ROWS = {
  persons: "person:",
  conversations: "talk:",
  texts: "texts:",
  orders: "at-order:",
  issued: ISSUED,
  pictures: PICTURE,
} as const;
const PEOPLE = ["persons", "conversations", "texts", "orders"] as const;
/** The journal comes after the people, so that no row of theirs names an order that the file does not have. */
const PARTS = [...PEOPLE, "pictures", "journal", "issued"] as const;
type Part = (typeof PARTS)[number];

/** How much a page holds: rows are read by the hundred until their text is as long as this. */
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
          ? told(presentEntry(row as JournalEntry))
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

/** A file is written page by page, and a picture may be replaced meanwhile: what is missing from the file is taken away. */
const withoutPicture = (state: StallState, pictures: readonly PictureOf[]): StallEvent[] =>
  [...state.pictures.keys()]
    .filter((key) => !pictures.some(({ picture }) => picture.facts.hash === state.pictures.get(key)?.hash))
    .map((key) => ({ type: "picture-set", design: DesignId.parse(key), picture: null }));

/** An entry as a file has it: what it was written with besides follows from the events. */
const told = ({ sequence, at, events }: JournalEntry): JournalEntry => ({
  sequence,
  at,
  events: withoutNames(events),
});

/** What cannot have come out of a stall's books; null where nothing is wrong. */
function faultIn(state: StallState): string | null {
  if (state.identity === null) return "the journal does not begin with the stall being opened";
  for (const key of state.counts.keys()) {
    const count = state.counts.get(key);
    const pieces = count === undefined ? 0 : onHand(count);
    if (!Number.isInteger(pieces) || pieces < 0) return `${key} would come to ${pieces} pieces`;
  }
  return null;
}

/** A row without the keyed hash of a number that was typed on the web: at another place the same number has another. */
function atThisPlace({ given: _, ...row }: Record<string, unknown>): Record<string, unknown> {
  return row;
}

/**
 * The rows of a stall as a file tells it, at its new place, with these pictures beside it; or why it cannot be read. A journal of another stall
 * is told anew from its first entry, so what does not fit together is found here.
 */
export function rowsFrom(
  whole: WholeStall,
  identity: Identity,
  now: Instant,
  pictures: readonly PictureOf[] = [],
): { readonly writes: readonly Write[]; readonly version: number } | { readonly fault: string } {
  const journal = (whole.journal as unknown as JournalEntry[]).map(presentEntry); // what is not one does not fold
  const gap = journal.findIndex(({ sequence }, index) => sequence !== index + 1);
  if (gap >= 0) return { fault: `entry ${gap + 1} of the journal is missing or out of place` };
  let state: StallState;
  try {
    state = fold(journal);
  } catch (error) {
    // An event that does not fit is a bug in a journal of ours; in a file it is a fault of the file.
    return { fault: `the journal does not fit together: ${error instanceof Error ? error.message : "?"}` };
  }
  const fault = faultIn(state);
  if (fault !== null) return { fault };
  const entries = journal.map(told);
  const hashes = new Map<string, string[]>();
  for (const [name, given] of whole.issued ?? []) hashes.set(name, [...(hashes.get(name) ?? []), ...given]);
  const since: StallEvent[] = withoutPicture(state, pictures);
  if (JSON.stringify(state.identity) !== JSON.stringify(identity)) since.push({ type: "opened", identity });
  if (since.length > 0) {
    for (const event of since) apply(state, event, now);
    entries.push({ sequence: entries.length + 1, at: now, events: since });
  }
  return {
    version: entries.length,
    writes: [
      ["records-version", RECORDS_VERSION],
      ...entries.map((entry): Write => [journalKey(entry.sequence), entry]),
      ...state.take(),
      ...state.ahead.flatMap((table) => table.take()),
      ...PEOPLE.flatMap((part) =>
        (whole.people[part] ?? []).map(([key, row]): Write => [ROWS[part] + key, atThisPlace(row)]),
      ),
      ...[...hashes].map(([name, kept]): Write => [ISSUED + name, kept]),
    ],
  };
}
