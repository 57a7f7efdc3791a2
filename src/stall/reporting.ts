/** What the stall tells its fair. */
import { addBuckets, type Bucket, bucketKey, EMPTY_BUCKET } from "../fair/bucket.ts";
import type { StallReport } from "../fair/reports.ts";
import type { Books } from "./books.ts";
import { backlogEnds } from "./closing-time.ts";
import type { Instant } from "./facts.ts";
import { choiceOf, leftOf } from "./offers.ts";
import type { Store } from "./records.ts";

/** Buckets a report looks back over: a late entry reaches at most this far into the past. */
const LOOK_BACK = 400;

function changedBuckets(store: Store, after: number): readonly (readonly [string, Bucket])[] {
  const rows = [...store.list({ prefix: "bucket:", reverse: true, limit: LOOK_BACK })];
  return rows
    .map(([key, value]) => [key.slice("bucket:".length), value as Bucket] as const) // bucket rows only
    .filter(([, bucket]) => bucket.changed > after);
}

/** The report that brings the fair up to date, given what it was told last. */
export function reportOf(books: Books, store: Store, after: number, now: Instant): StallReport | null {
  const { state, people } = books;
  const { identity, menu, standing } = state;
  if (identity === null) return null;
  const buckets = new Map(changedBuckets(store, after));
  const current = bucketKey(now);
  if (!buckets.has(current) && people.textCounts.get(current) !== undefined) {
    buckets.set(current, state.buckets.get(current) ?? EMPTY_BUCKET);
  }
  const { flat, cap } = standing.waiting;
  const aside = [...standing.aside.values()].reduce((sum, list) => sum + list.length, 0);
  const choices = (menu?.offers ?? []).flatMap(({ id, offered }) => {
    const choice = menu === null || !offered ? undefined : choiceOf(menu, id);
    return choice === undefined ? [] : [choice];
  });
  return {
    stall: identity.stall,
    version: state.version,
    at: now,
    backlogEnds: menu === null ? null : backlogEnds(state, menu, now),
    backlog: flat.length + cap.length + aside + standing.short.length + standing.onPress.size,
    soldOut: choices.filter((choice) => leftOf(state, choice).length === 0).length,
    buckets: [...buckets].map(([key, bucket]) => {
      const texts = people.textCounts.get(key) ?? { textsIn: 0, textsOut: 0, segmentsOut: 0 };
      return [key, addBuckets(bucket, { ...EMPTY_BUCKET, ...texts })] as const;
    }),
  };
}
