/**
 * Which stall a text is for. A sender is known by a keyed hash of the number only; the number itself is never
 * kept here.
 */
import type { StallId } from "../model/basics/ids.ts";
import type { Instant } from "../time/instants.ts";
import type { Rows } from "./rows.ts";
import { Stops } from "./stops.ts";

type Listed = {
  readonly number: number;
  readonly stall: StallId;
  readonly name: string;
  /** The wait for one garment, if it is one of the shortest; null: nobody knows. */
  readonly minutes?: number | null;
};

/** Where a text goes. */
export type Destination =
  | { readonly to: "stall"; readonly stall: StallId; readonly text: string }
  /** The sender could mean any of several. */
  | {
      readonly to: "which";
      readonly stalls: readonly Listed[];
      /** The stall that asks, on behalf of all; the first of the list in rows of earlier versions. */
      readonly by?: StallId;
    }
  | { readonly to: "nobody" }
  /** A repeat from long ago. */
  | { readonly to: "dropped" };

/** The stall that answers; a sender who has not said which is answered by the first one, on behalf of all. */
export const answeredBy = (destination: Destination): StallId | undefined =>
  destination.to === "stall"
    ? destination.stall
    : destination.to === "which"
      ? (destination.by ?? destination.stalls[0]?.stall)
      : undefined;

export type Inbound = {
  /** Keyed hash of the gateway's message id. */
  readonly message: string;
  /** Keyed hash of the number it is from. */
  readonly sender: string;
  readonly text: string;
  /** The stall that owns the number the text was sent to; null if the number is shared. */
  readonly own: StallId | null;
};

export type SenderRow = {
  /** Where later texts go. */
  readonly stall: StallId | null;
  /** Every stall that answered the number: all of them hear when it opts out. */
  readonly stalls: readonly StallId[];
  /** Whether the list of stalls was sent last, so that a bare number picks one. */
  readonly choosing: boolean;
  readonly stopped: boolean;
  /** Whether stalls are still being informed of the last change; absent if there never was one. */
  readonly telling?: boolean;
  /** When it last wrote, to the hour; absent in rows of earlier versions. */
  readonly wroteAt?: Instant;
};

type Seen = { readonly at: number; readonly destination: Destination };
/** Those of some stalls that a sender who named none is offered. */
type Shortest = (listed: readonly Listed[]) => readonly Listed[];
/** No text holds more. */
const MOST_LISTED = 9;
type Stalls = readonly { readonly stall: StallId; readonly name: string }[];

const STRANGER: SenderRow = { stall: null, stalls: [], choosing: false, stopped: false };
/** A gateway tries again for hours; later than this, a repeat is somebody's replay. */
const REPEATED_FOR = 24 * 60 * 60 * 1000;
/** `wroteAt` is not written again sooner: a talk of an hour costs one row. */
const WROTE_STEP = 60 * 60 * 1000;

const senderKey = (sender: string): string => `sender:${sender}`;

export class TextRouting {
  readonly #rows: Rows;
  readonly stops: Stops;

  constructor(rows: Rows) {
    this.#rows = rows;
    this.stops = new Stops(rows);
  }

  sender(sender: string): SenderRow {
    const row = this.#rows.get<SenderRow>(senderKey(sender)) ?? STRANGER;
    const stopped = row.stopped || this.stops.has(sender);
    return { ...row, stopped };
  }

  /** Those of the senders that want no texts. */
  stoppedAmong(senders: readonly string[]): readonly string[] {
    return senders.filter((sender) => this.sender(sender).stopped);
  }

  /**
   * Routes a text and remembers the stall. A repeated text goes to the same stall, which has its answer recorded or
   * never got the text.
   */
  route(inbound: Inbound, stalls: Stalls, now: number, shortest: Shortest = (listed) => listed): Destination {
    const key = `seen-text:${inbound.message}`;
    const earlier = this.#rows.get<Seen>(key);
    if (earlier !== undefined)
      return now - earlier.at > REPEATED_FOR ? { to: "dropped" } : earlier.destination;
    const before = this.sender(inbound.sender);
    const destination = destinationOf(inbound, before, stalls, shortest);
    this.#rows.put(key, { at: now, destination } satisfies Seen);
    const after = afterText(before, destination, now);
    if (JSON.stringify(after) !== JSON.stringify(before)) this.#rows.put(senderKey(inbound.sender), after);
    return destination;
  }

  /**
   * A number opts out of all texts here, or in again; returns the stalls to inform. `as` is the hash that goes along
   * when a stall moves.
   */
  setStopped(sender: string, stopped: boolean, as?: string): readonly StallId[] {
    const before = this.sender(sender);
    if (before.stopped !== stopped) {
      this.#rows.put(senderKey(sender), { ...before, stopped, telling: true } satisfies SenderRow);
      if (stopped) this.stops.add(sender, as === undefined ? true : { as, stalls: before.stalls });
      else this.stops.delete(sender);
    }
    return before.stalls;
  }

  /** Notes that every stall has been informed. */
  toldStopped(sender: string, stopped: boolean): void {
    const before = this.sender(sender);
    if (before.stopped === stopped && before.telling === true)
      this.#rows.put(senderKey(sender), { ...before, telling: false } satisfies SenderRow);
  }

  /** Forgets senders and messages, but not who said STOP, at most `most` rows; whether any are left. */
  erase(most: number): boolean {
    const rows = ["sender:", "seen-text:"].flatMap((prefix) => [
      ...this.#rows.list<Partial<SenderRow>>({ prefix, limit: most }),
    ]);
    for (const [key, row] of rows.slice(0, most)) {
      // Rows of earlier versions say STOP nowhere else.
      if (row.stopped === true) this.stops.add(key.slice("sender:".length), true);
      this.#rows.delete(key);
    }
    return rows.length >= most;
  }
}

function afterText(before: SenderRow, destination: Destination, now: Instant): SenderRow {
  const answers = answeredBy(destination);
  if (answers === undefined) return before;
  const stalls = before.stalls.includes(answers) ? before.stalls : [...before.stalls, answers];
  const { wroteAt } = before;
  const isKnown = wroteAt !== undefined && Math.abs(now - wroteAt) < WROTE_STEP;
  const after = { ...before, stalls, wroteAt: isKnown ? wroteAt : now };
  return destination.to === "stall"
    ? { ...after, stall: answers, choosing: false }
    : { ...after, choosing: true };
}

function destinationOf(
  { text, own }: Inbound,
  sender: SenderRow,
  stalls: Stalls,
  shortest: Shortest,
): Destination {
  const [first = "", ...rest] = text.trim().split(/\s+/);
  // "Tern," and "Tern:" name the stall as well.
  const word = /^.*[\p{L}\p{N}]/u.exec(first.toLowerCase())?.[0] ?? "";
  const named = stalls.find(({ stall }) => stall === word);
  if (named !== undefined) return { to: "stall", stall: named.stall, text: rest.join(" ") || "menu" };
  if (own !== null) return { to: "stall", stall: own, text };
  const [only, ...others] = stalls;
  if (only === undefined) return { to: "nobody" };
  if (others.length === 0) return { to: "stall", stall: only.stall, text };
  const listed = stalls.map(({ stall, name }, index) => ({ number: index + 1, stall, name }));
  const asking = { to: "which", by: only.stall } as const;
  if (word === "stalls") return { ...asking, stalls: listed.slice(0, MOST_LISTED) };
  const bare = rest.length === 0 && /^[1-9][0-9]{0,2}$/.test(word);
  const numbered = bare && (sender.choosing || sender.stall === null) ? stalls[Number(word) - 1] : undefined;
  if (numbered !== undefined) return { to: "stall", stall: numbered.stall, text: "menu" };
  return sender.stall === null
    ? { ...asking, stalls: shortest(listed) }
    : { to: "stall", stall: sender.stall, text };
}
