/**
 * Numbers that said STOP, kept when senders are erased, so that they get no texts at the next edition either. Numbers
 * that said STOP at a stall's earlier place are known by that place's hash until they write here.
 */
import type { StallId } from "../model/basics/ids.ts";
import type { Rows } from "./rows.ts";

/** `as`: the hash that goes along when one of the stalls moves. Rows of earlier versions are `true`. */
type Stopped = { readonly as: string; readonly stalls: readonly StallId[] };

/** Numbers that said STOP, by their hashes under one place's key. */
export type StopList = { readonly key: string; readonly numbers: readonly string[] };

const OWN = "stopped:";
const KEYS = "stop-key:";
const ELSEWHERE = "stopped-as:";
const AT_ONCE = 500;

const elsewhereKey = (key: string, hash: string): string => `${ELSEWHERE}${key}:${hash}`;

export class Stops {
  readonly #rows: Rows;

  constructor(rows: Rows) {
    this.#rows = rows;
  }

  has(sender: string): boolean {
    return this.#rows.get<unknown>(OWN + sender) !== undefined;
  }

  /** Notes STOP; without `as` if nobody knows the number any more. A hash already stored stays. */
  add(sender: string, stopped: Stopped | true): void {
    const before = this.#rows.get<Stopped | true>(OWN + sender);
    if (before === undefined || before === true) this.#rows.put(OWN + sender, stopped);
  }

  delete(sender: string): void {
    this.#rows.delete(OWN + sender);
  }

  /** The keys of the places from which stalls came with numbers that said STOP there. */
  keysElsewhere(): readonly string[] {
    return [...this.#rows.list<true>({ prefix: KEYS })].map(([row]) => row.slice(KEYS.length));
  }

  /** Imports the STOP list that a stall brings. */
  takeIn(stall: StallId, { key, numbers }: StopList): void {
    if (numbers.length > 0) this.#rows.put(KEYS + key, true);
    for (const hash of numbers) this.#rows.put(elsewhereKey(key, hash), stall);
  }

  /** The stall that brought a stopped number, undefined if none did; deletes that row. */
  takeOut(key: string, hash: string): StallId | undefined {
    const row = elsewhereKey(key, hash);
    const stall = this.#rows.get<StallId>(row);
    if (stall !== undefined) this.#rows.delete(row);
    return stall;
  }

  /** A page of a stall's stopped numbers, and where the next page begins; `own` is this fair's own key. */
  page(
    stall: StallId,
    own: string,
    from: string | null,
  ): { readonly lists: readonly StopList[]; readonly next: string | null } {
    const prefix = from?.startsWith(ELSEWHERE) ? ELSEWHERE : OWN;
    const start = from === null || from === ELSEWHERE ? {} : { start: from };
    const rows = [...this.#rows.list<Stopped | true | StallId>({ prefix, ...start, limit: AT_ONCE + 1 })];
    const more = rows.length > AT_ONCE ? (rows[AT_ONCE]?.[0] ?? null) : null;
    const lists = rows.slice(0, AT_ONCE).flatMap(([row, value]): StopList[] => {
      if (typeof value === "string") {
        const [key = "", hash = ""] = row.slice(ELSEWHERE.length).split(":");
        return value === stall ? [{ key, numbers: [hash] }] : [];
      }
      return value !== true && value.stalls.includes(stall) ? [{ key: own, numbers: [value.as] }] : [];
    });
    return { lists: together(lists), next: more ?? (prefix === OWN ? ELSEWHERE : null) };
  }
}

/** One list a key. */
export function together(lists: readonly StopList[]): readonly StopList[] {
  const byKey = new Map<string, string[]>();
  for (const { key, numbers } of lists) byKey.set(key, [...(byKey.get(key) ?? []), ...numbers]);
  return [...byKey].map(([key, numbers]) => ({ key, numbers }));
}
