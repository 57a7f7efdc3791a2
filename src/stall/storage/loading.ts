/**
 * Loads a whole stall from its file, part by part. A part's journal continues the last part's, so contradictions are
 * found here, and only open work is ever in memory.
 */
import type { Identity } from "../../fair/reports.ts";
import type { StallPart } from "../../model/accounts/whole-stall.ts";
import { DesignId } from "../../model/basics/ids.ts";
import { ok, type Result, refused } from "../../model/basics/result.ts";
import type { FileFault } from "../../model/orders/refusal.ts";
import type { Instant } from "../../time/instants.ts";
import { apply } from "../rules/apply/apply.ts";
import { onHand } from "../state/counts.ts";
import type { JournalEntry, StallEvent } from "../state/shapes/event.ts";
import type { StallState } from "../state/state.ts";
import type { Write } from "../state/table.ts";
import { presentEntry } from "./earlier-names.ts";
import { ISSUED } from "./issued.ts";
import { bytesOf } from "./picture-bytes.ts";
import { journalKey, loadState, RECORDS_VERSION, type Store } from "./records.ts";
import { PEOPLE, ROWS, withoutRows } from "./snapshot.ts";

/** A state that no stall's journal can lead to; null if nothing is wrong. */
function faultIn(state: StallState): FileFault | null {
  if (state.identity === null) return { code: "not-opened" };
  for (const key of state.counts.keys()) {
    const count = state.counts.get(key);
    const pieces = count === undefined ? 0 : onHand(count);
    if (!Number.isInteger(pieces) || pieces < 0) return { code: "stock-below-nothing", piece: key, pieces };
  }
  return null;
}

const taken = (state: StallState): readonly Write[] => [
  ...state.drain(),
  ...state.writeBehind.flatMap((table) => table.drain()),
];

/** Applies a part's journal after the parts before it. */
function writesOf(store: Store, journal: readonly JournalEntry[]): Result<readonly Write[], FileFault> {
  if (journal.length === 0) return ok([]);
  const state = loadState(store);
  const entries: Write[] = [];
  for (const entry of journal.map(presentEntry)) {
    const { sequence, at, events } = entry;
    const next = state.version + 1;
    if (sequence !== next) return refused({ code: "entry-missing", sequence: next });
    try {
      for (const event of events) apply(state, event, at);
    } catch (error) {
      // An event that does not fit is a bug in a journal of ours; in a file it is a fault of the file.
      return refused({
        code: "event-does-not-fit",
        sequence,
        error: error instanceof Error ? error.message : String(error),
      });
    }
    state.version = sequence;
    entries.push([journalKey(sequence), withoutRows(entry)]);
  }
  const fault = faultIn(state);
  return fault === null ? ok([...entries, ...taken(state)]) : refused(fault);
}

/** A row without the keyed hash of a number that was typed on the web: at another place the same number has another. */
function atThisPlace({ given: _, ...row }: Record<string, unknown>): Record<string, unknown> {
  return row;
}

/** The hashes of a part together with those that came before. */
function issuedIn(store: Store, issued: NonNullable<StallPart["issued"]>): readonly Write[] {
  const hashes = new Map<string, readonly string[]>();
  for (const [name, given] of issued) {
    const key = ISSUED + name;
    const before = hashes.get(key) ?? (store.get(key) as readonly string[] | undefined) ?? []; // written here only
    hashes.set(key, [...new Set([...before, ...given])]);
  }
  return [...hashes];
}

/** The rows that one part of a file writes into the home being filled, or why the part cannot be read. */
export function partRows(store: Store, part: StallPart): Result<readonly Write[], FileFault> {
  const journal = writesOf(store, (part.journal ?? []) as unknown as JournalEntry[]); // what is not one does not fit
  if (!journal.ok) return journal;
  return ok([
    ["records-version", RECORDS_VERSION],
    ...journal.value,
    ...PEOPLE.flatMap((kind) =>
      (part[kind] ?? []).map(([key, row]): Write => [ROWS[kind] + key, atThisPlace(row)]),
    ),
    ...issuedIn(store, part.issued ?? []),
  ]);
}

/** Removes pictures that the file lacks: a file is written page by page, and a picture may be replaced while it is. */
const withoutPicture = (state: StallState, store: Store): StallEvent[] =>
  [...state.pictures.keys()]
    .filter((key) => {
      const facts = state.pictures.get(key);
      return facts === undefined || bytesOf(store, facts.hash) === undefined;
    })
    .map((key) => ({ type: "picture-set", design: DesignId.parse(key), picture: null }));

/** The last rows, once all parts have come: the stall goes on under its new place's name. */
export function lastRows(
  store: Store,
  identity: Identity,
  now: Instant,
): Result<{ readonly writes: readonly Write[]; readonly version: number }, FileFault> {
  const state = loadState(store);
  const fault = faultIn(state);
  if (fault !== null) return refused(fault);
  const events: StallEvent[] = withoutPicture(state, store);
  if (JSON.stringify(state.identity) !== JSON.stringify(identity)) events.push({ type: "opened", identity });
  if (events.length === 0) return ok({ version: state.version, writes: [] });
  for (const event of events) apply(state, event, now);
  const version = state.version + 1;
  const entry: JournalEntry = { sequence: version, at: now, events };
  return ok({ version, writes: [[journalKey(version), entry], ...taken(state)] });
}
