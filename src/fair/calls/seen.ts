/** What visitors see of a fair, and which stalls have the shortest waits: from what stalls reported last. */
import { ok, refused } from "../../model/basics/result.ts";
import type { FairAnswer } from "../../model/fair/fair-refusal.ts";
import type { SeenFair, SeenRow } from "../../model/fair/seen.ts";
import { MARK_DIGITS } from "../../model/garment/picture.ts";
import type { Instant } from "../../time/instants.ts";
import type { FairTransactions, StallRow } from "../transact.ts";

/** A stall that has not reported for this long shows no wait: perhaps nobody is there. */
const UNHEARD = 15 * 60_000;
const SHORTEST = 3;

type Wait = SeenRow[6];

/** Minutes for one garment; null if the stall takes no orders, “?” if it was not heard of lately. */
function waitOf({ seen, paused, heardAt }: StallRow, takesOrders: boolean, now: Instant): Wait {
  if (seen == null || paused || !takesOrders || seen.left === "gone") return null;
  return heardAt !== null && now - heardAt < UNHEARD ? seen.waitMinutes : "?";
}

const minutesOf = (wait: Wait): number => (typeof wait === "number" ? wait : Number.POSITIVE_INFINITY);

/** Bytes of JSON that a stall's name, and what it makes, may take: 300 rows stay under 50 kB. */
const MOST_NAME_BYTES = 40;
const MOST_MAKES_BYTES = 28;

const encoder = new TextEncoder();
const bytesIn = (text: string): number => encoder.encode(JSON.stringify(text)).length - 2;

/** The text, or as much of its beginning as fits with an ellipsis. */
function fitting(text: string, mostBytes: number): string {
  if (bytesIn(text) <= mostBytes) return text;
  const characters = [...text];
  while (bytesIn(`${characters.join("").trimEnd()}…`) > mostBytes) characters.pop();
  return `${characters.join("").trimEnd()}…`;
}

const byWait = (one: Wait, other: Wait): number =>
  minutesOf(one) === minutesOf(other) ? 0 : minutesOf(one) - minutesOf(other);

const openUntil = (transactions: FairTransactions, now: Instant): string | null =>
  transactions
    .fair()
    ?.openings.find(({ opens, closes }) => Date.parse(opens) <= now && now < Date.parse(closes))?.closes ??
  null;

/** The stalls that want to be seen, the shortest wait first. */
export function seenFair(transactions: FairTransactions, now: Instant): FairAnswer<SeenFair> {
  const fair = transactions.fair();
  if (fair === undefined) return refused({ code: "no-such-fair" });
  const closes = openUntil(transactions, now);
  const stopped = transactions.organiser.stopReason;
  const stalls = transactions.stalls().flatMap((row): SeenRow[] => {
    if (row.seen == null) return [];
    const { makes, lowest, highest, currency, left, picture } = row.seen;
    const wait = waitOf(row, closes !== null && stopped === null, now);
    const name = fitting(row.name, MOST_NAME_BYTES);
    const mark = picture?.slice(0, MARK_DIGITS) ?? null;
    return [[row.stall, name, fitting(makes, MOST_MAKES_BYTES), lowest, highest, currency, wait, left, mark]];
  });
  return ok({
    name: fair.name,
    timeZone: fair.timeZone,
    closes,
    stopped,
    stalls: stalls.toSorted((one, other) => byWait(one[6], other[6])),
  });
}

/** Of stalls by their places in the fair's list, those with the shortest waits; in the list's order where nobody knows. */
export function shortestWaits<Listed extends { readonly stall: string }>(
  transactions: FairTransactions,
  listed: readonly Listed[],
  now: Instant,
): readonly (Listed & { readonly minutes: number | null })[] {
  const takesOrders = openUntil(transactions, now) !== null && transactions.organiser.stopReason === null;
  const rows = new Map(transactions.stalls().map((row) => [row.stall as string, row]));
  return listed
    .map((one) => {
      const row = rows.get(one.stall);
      const wait = row === undefined ? null : waitOf(row, takesOrders, now);
      return { ...one, minutes: wait === "?" ? null : wait };
    })
    .toSorted((one, other) => byWait(one.minutes, other.minutes))
    .slice(0, SHORTEST);
}
