/** Nothing happens twice: a write that was carried out before gets its recorded answer. */

import type { WriteKey } from "../../model/basics/write-key.ts";
import type { Answer, WriteRefusal } from "../../model/orders/refusal.ts";
import type { Instant } from "../../time/instants.ts";
import type { Write } from "../state/table.ts";
import type { Store } from "./records.ts";

type Seen = { readonly fingerprint: string; readonly at: Instant; readonly answer: Answer<unknown> };

export const KEPT_FOR = 48 * 60 * 60 * 1000;

const seenKey = (key: WriteKey): string => `seen:${key.scope}`;

/** The answer recorded for this write, or null where it is new. */
export function recorded(store: Store, key: WriteKey, now: Instant): Answer<unknown> | null {
  const seen = store.get(seenKey(key)) as Seen | undefined; // rows under seen: are written below only
  if (seen === undefined || seen.at + KEPT_FOR < now) return null;
  const reused: WriteRefusal = { code: "key-reused" };
  return seen.fingerprint === key.fingerprint ? seen.answer : { done: false, refusal: reused };
}

/** The row that records an answer. */
export function recording(key: WriteKey, answer: Answer<unknown>, at: Instant): Write {
  const seen: Seen = { fingerprint: key.fingerprint, at, answer };
  return [seenKey(key), seen];
}

/** Recorded answers that are past keeping, at most `most` of them, from a key onward. */
export function outlived(
  store: Store,
  after: string | null,
  now: Instant,
  most: number,
): { readonly deletes: readonly Write[]; readonly last: string | null } {
  const page = [
    ...store.list({ prefix: "seen:", limit: most, ...(after === null ? {} : { startAfter: after }) }),
  ];
  const old = page.filter(([, value]) => (value as Seen).at + KEPT_FOR < now);
  return {
    deletes: old.map(([key]): Write => [key, undefined]),
    last: page.length < most ? null : (page.at(-1)?.[0] ?? null),
  };
}
