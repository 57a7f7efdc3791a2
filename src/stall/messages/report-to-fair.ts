/** The stall's reports to its fair, and when one is due. */

import type { SeenStall, StallReport } from "../../fair/reports.ts";
import type { Currency } from "../../model/basics/money.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import { priceOf } from "../../model/menu/prices.ts";
import { BUCKET_MILLISECONDS, type Bucket, bucketKey, bucketStart, EMPTY_BUCKET } from "../../time/bucket.ts";
import type { Instant } from "../../time/instants.ts";
import { backlogEnds } from "../line/closing-time.ts";
import { quoteMinutes } from "../line/quote.ts";
import { whyStopped } from "../state/opening.ts";
import type { StallState } from "../state/state.ts";
import { coloursOf, leftOf, type OfferParts, offerParts, sizesOf } from "../stock/offers.ts";
import type { Pushed } from "../storage/people.ts";
import type { Store } from "../storage/records.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";

/** Buckets a report looks back over: a late entry reaches at most this far into the past. */
const LOOK_BACK = 400;
/** A stall reports changes at most this often, in milliseconds. */
const REPORT_EVERY = 5000;
/**
 * A stall without changes reports this often, as long as its crew's screens ask for anything: so the fair can tell an
 * idle stall from a silent one. The screens' requests trigger it, so a stall without a crew costs nothing.
 */
export const HEARTBEAT = 3 * 60_000;

const NEVER_TOLD: Pushed = { version: 0, at: 0, toldAt: 0, shares: null };

/** What the fair was last told, and when the stall last tried. */
export const lastReport = ({ people }: UnitOfWork): Pushed => people.pushed.get("") ?? NEVER_TOLD;

/** When the next report is due; null if the fair is up to date. */
export function reportDue(unit: UnitOfWork, now: Instant): Instant | null {
  if (unit.state.identity === null) return null;
  const told = lastReport(unit);
  // A report "in the future" dates from before the clock was moved back: report again now.
  if (Math.max(told.at, told.toldAt) > now) return now;
  const { crewAt, textsAt } = unit.noticed;
  // Texts counted "in the future" date from before the clock was moved back: counting them as news would never end.
  const news = unit.state.version > told.version || (textsAt >= told.toldAt && textsAt <= now);
  if (news) return Math.max(now, told.at + REPORT_EVERY);
  return crewAt !== null && Math.min(crewAt, now) - told.at >= HEARTBEAT ? now : null;
}

/** The currency of the takings that the stall shares; null if it does not share them. */
const sharesOf = (menu: Menu | null): Currency | null =>
  menu?.rules.shareTakings === true ? menu.currency : null;

/** The buckets of the state that were changed after a version. */
function changedBuckets(store: Store, after: number): readonly (readonly [string, Bucket])[] {
  const rows = [...store.list({ prefix: "bucket:", reverse: true, limit: LOOK_BACK })];
  return rows
    .map(([key, value]) => [key.slice("bucket:".length), value as Bucket] as const) // bucket rows only
    .filter(([, bucket]) => bucket.changed > after);
}

/** The buckets in which texts were counted since an instant. */
function textedBuckets({ people }: UnitOfWork, since: Instant, now: Instant): readonly string[] {
  const first = Math.max(since, now - LOOK_BACK * BUCKET_MILLISECONDS);
  const keys: string[] = [];
  for (let at = bucketStart(bucketKey(first)); at <= now; at += BUCKET_MILLISECONDS) {
    const key = bucketKey(at);
    if ((people.textCounts.get(key)?.at ?? -1) >= since) keys.push(key);
  }
  return keys;
}

/** So many letters of what it makes are shown. */
const MOST_LETTERS = 32;
/** Less than this part of the menu left is few. */
const FEW = 1 / 3;

/** What visitors of the fair see; null if the stall does not want to be seen, or sells nothing. */
function seenOf(
  state: StallState,
  menu: Menu,
  choices: readonly OfferParts[],
  now: Instant,
): SeenStall | null {
  const [first] = choices;
  if (!menu.rules.seenAtFair || first === undefined) return null;
  const left = choices.map((choice) => ({ choice, left: leftOf(state, choice).length }));
  const parts = left.reduce((sum, { left: some }) => sum + some, 0);
  const all = choices.reduce((sum, one) => sum + coloursOf(one).length * sizesOf(one).length, 0);
  const prices = choices.flatMap((one) => sizesOf(one).map((size) => priceOf(one.offer, size)));
  const shown = left.find(({ left: some }) => some > 0)?.choice ?? first;
  let makes = "";
  for (const name of new Set(choices.map(({ blank }) => blank.name))) {
    const longer = makes === "" ? name.slice(0, MOST_LETTERS) : `${makes}, ${name}`;
    if (longer.length > MOST_LETTERS) break;
    makes = longer;
  }
  const { platen } = shown.blank;
  return {
    makes,
    lowest: Math.min(...prices),
    highest: Math.max(...prices),
    currency: menu.currency,
    waitMinutes: quoteMinutes(state, menu, [{ platen, kind: shown.design.kind, quantity: 1 }], now),
    left: parts === 0 ? "gone" : parts < all * FEW ? "few" : "plenty",
    picture: state.pictures.get(shown.design.id)?.hash ?? null,
  };
}

/** The report of what changed since the fair was last told. */
export function reportOf(unit: UnitOfWork, store: Store, now: Instant): StallReport | null {
  const { state, people, noticed } = unit;
  const { identity, menu, orderIndex } = state;
  if (identity === null) return null;
  const told = lastReport(unit);
  const shares = sharesOf(menu);
  // Takings that are shared from now on, or no longer, change every bucket.
  const buckets = new Map(changedBuckets(store, told.shares === shares ? told.version : 0));
  for (const key of textedBuckets(unit, told.toldAt, now)) {
    if (!buckets.has(key)) buckets.set(key, state.buckets.get(key) ?? EMPTY_BUCKET);
  }
  const choices = (menu?.offers ?? []).flatMap(({ id, offered }) => {
    const choice = menu === null || !offered ? undefined : offerParts(menu, id);
    return choice === undefined ? [] : [choice];
  });
  return {
    stall: identity.stall,
    version: state.version,
    at: now,
    crewAt: noticed.crewAt,
    paused: whyStopped(state.status) !== null,
    setUp: menu !== null,
    read: [...state.announcements.values()].flatMap(({ id, readAt }) =>
      readAt === null ? [] : [[id, readAt] as const],
    ),
    seen: menu === null ? null : seenOf(state, menu, choices, now),
    shares,
    backlogEnds: menu === null ? null : backlogEnds(state, menu, now),
    backlog: orderIndex.backlog,
    soldOut: choices.filter((choice) => leftOf(state, choice).length === 0).length,
    buckets: [...buckets].map(([key, bucket]) => {
      const { at: _, ...texts } = people.textCounts.get(key) ?? { at: 0 };
      return [key, { ...bucket, ...texts, takings: shares === null ? 0 : bucket.takings }] as const;
    }),
  };
}
