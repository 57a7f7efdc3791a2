/** Nothing happens twice: a write that was carried out before gets its recorded answer. */

import { ok, refused } from "../../model/basics/result.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import type { Answer } from "../../model/orders/refusal.ts";
import type { Instant } from "../../time/instants.ts";
import type { Write } from "../state/table.ts";
import type { Store } from "./records.ts";

/** A recorded answer as its row has always held it. */
type Kept =
  | { readonly done: true; readonly value: unknown }
  | { readonly done: false; readonly refusal: Reason };
type Reason = Extract<Answer<unknown>, { readonly ok: false }>["refusal"];
type Seen = { readonly fingerprint: string; readonly at: Instant; readonly answer: Kept };

export const KEPT_FOR = 48 * 60 * 60 * 1000;

const seenKey = (key: WriteKey): string => `seen:${key.scope}`;

/** The answer recorded for this write, or null if it is new. */
export function recorded(store: Store, key: WriteKey, now: Instant): Answer<unknown> | null {
  const seen = store.get(seenKey(key)) as Seen | undefined; // rows under seen: are written below only
  if (seen === undefined || seen.at + KEPT_FOR < now) return null;
  if (seen.fingerprint !== key.fingerprint) return refused({ code: "key-reused" });
  const { answer } = seen;
  return answer.done ? ok(answer.value) : refused(answer.refusal);
}

/** The row that records an answer. */
export function recording(key: WriteKey, answer: Answer<unknown>, at: Instant): Write {
  const kept: Kept = answer.ok
    ? { done: true, value: answer.value }
    : { done: false, refusal: answer.refusal };
  const seen: Seen = { fingerprint: key.fingerprint, at, answer: kept };
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
