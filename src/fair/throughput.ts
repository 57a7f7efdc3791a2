/** Every stall's pace, summed from the quarters of an hour that the stalls reported. */
import { quantile, RELATIVE_ERROR } from "../maths/log-histogram.ts";
import type { StallId } from "../model/basics/ids.ts";
import type { Money } from "../model/basics/money.ts";
import type { GatewayMapping } from "../model/fair/gateway.ts";
import type { Quarter, StallPace, Throughput } from "../model/fair/throughput.ts";
import { type Bucket, bucketStart } from "../time/bucket.ts";
import { dayOf, fairDay, type Hours, localInstant } from "../time/fair-day.ts";
import { type KeyedBucket, type Marks, PaceAccount, type StallAccount, TotalAccount } from "./account.ts";

export type FairClock = {
  readonly name: string;
  readonly timeZone: string;
  readonly hours: readonly Hours[];
};

/** The fair's facts about texts, apart from the counts. */
export type TextFacts = {
  readonly badSignatures: number;
  readonly mostToday: number;
  readonly price: GatewayMapping["price"] | undefined;
};

/** Whose own quarters of an hour a reader wants beside everybody's together. */
export type OwnQuarters = StallId | "every" | null;

const HOUR = 3_600_000;
/** Most quarters of single stalls in one answer: a day of three hundred stalls. */
export const MOST_OWN_QUARTERS = 30_000;

const tenth = (value: number): number => Math.round(value * 10) / 10;
const minutes = (seconds: number | null): number | null => (seconds === null ? null : tenth(seconds / 60));
const instant = (at: number | null): string | null => (at === null ? null : new Date(at).toISOString());

const waitsOf = ({ waits }: Bucket) => ({
  median: minutes(quantile(waits, 0.5)),
  p90: minutes(quantile(waits, 0.9)),
});

/** A bucket's plain counts. */
function tallyOf({ waits: _w, over: _o, backlogChange: _b, takings: _t, changed: _c, ...tally }: Bucket) {
  return tally;
}

type Now = { readonly backlog: number; readonly backlogEnds: number | null };

function pace(
  { sum, pressedInHour }: PaceAccount | TotalAccount,
  { backlog, backlogEnds }: Now,
  marks: Marks,
) {
  const { value } = sum;
  const { pressed, pressSeconds, promised, kept, over } = value;
  return {
    ...tallyOf(value),
    backlog,
    backlogEnds: instant(backlogEnds),
    waitMinutes: waitsOf(value),
    overQuote: {
      orders: promised - kept,
      medianMinutes: minutes(quantile(over, 0.5)),
      p90Minutes: minutes(quantile(over, 0.9)),
    },
    perHour: tenth((pressedInHour * HOUR) / (marks.now - marks.hourBegan || 1)),
    perPressHour: pressSeconds === 0 ? null : tenth((pressed * 3600) / pressSeconds),
  };
}

/** When buckets begin by the fair's clock: the same few instants for every stall. */
function startsIn(timeZone: string): (key: string) => string {
  const known = new Map<string, string>();
  return (key) => {
    const start = known.get(key) ?? localInstant(bucketStart(key), timeZone);
    known.set(key, start);
    return start;
  };
}

/** Quarters in order of time, each with the garments that were still to be pressed at its end. */
function quartersOf(
  quarters: readonly KeyedBucket[],
  backlogAtEnd: number,
  startOf: (key: string) => string,
): Quarter[] {
  let backlog = backlogAtEnd;
  return quarters
    .toReversed()
    .map(([key, bucket]): Quarter => {
      const row = {
        start: startOf(key),
        ...tallyOf(bucket),
        backlog: Math.max(0, backlog),
        waitMinutes: waitsOf(bucket),
      };
      backlog -= bucket.backlogChange;
      return row;
    })
    .reverse();
}

/** Sums of money, one for each currency. */
function moneyOf(paces: readonly StallPace[]): Money[] {
  const sums = new Map<Money["currency"], number>();
  for (const { takings } of paces) {
    if (takings !== null) sums.set(takings.currency, (sums.get(takings.currency) ?? 0) + takings.amount);
  }
  return [...sums].map(([currency, amount]) => ({ amount, currency }));
}

/** The dates on which the fair opens, in order. */
function daysOf({ hours, timeZone }: FairClock): string[] {
  return [...new Set(hours.map(({ opens }) => dayOf(opens, timeZone)))].sort();
}

/** The organiser's figures at an instant, or a refusal if they are too many to send. */
export function throughput(
  fair: FairClock,
  accounts: Iterable<StallAccount>,
  texts: TextFacts,
  marks: Marks,
  own: OwnQuarters,
): Throughput | "too-many-quarters" {
  const { timeZone, hours } = fair;
  const { now, span } = marks;
  const startOf = startsIn(timeZone);
  const total = new TotalAccount();
  const stalls: StallPace[] = [];
  let backlog = 0;
  let ends: number | null = null;
  let ownQuarters = 0;
  for (const stall of accounts) {
    const account = new PaceAccount(stall.buckets, marks);
    total.add(account);
    backlog += stall.backlog;
    if (stall.backlogEnds !== null) ends = Math.max(ends ?? 0, stall.backlogEnds);
    const shown = own === "every" || own === stall.stall;
    if (shown) ownQuarters += account.quarters.length;
    if (ownQuarters > MOST_OWN_QUARTERS) return "too-many-quarters";
    stalls.push({
      stall: stall.stall,
      name: stall.name,
      heardAt: instant(stall.heardAt),
      crewAt: instant(stall.crewAt),
      orderedAt: instant(account.orderedAt),
      paused: stall.paused,
      setUp: stall.setUp,
      soldOut: stall.soldOut,
      ...pace(account, stall, marks),
      takings: stall.shares === null ? null : { amount: account.sum.value.takings, currency: stall.shares },
      ...(shown
        ? { buckets: quartersOf(account.quarters, stall.backlog - account.changeSince, startOf) }
        : {}),
    });
  }
  return {
    asOf: new Date(now).toISOString(),
    fair: fair.name,
    timeZone,
    open: hours.some(({ opens, closes }) => opens <= now && now < closes),
    today: fairDay(now, timeZone, hours),
    days: daysOf(fair),
    span: {
      from: span.from === null ? null : localInstant(span.from, timeZone),
      to: span.to === null ? null : localInstant(span.to, timeZone),
    },
    waitErrorPercent: Math.round(RELATIVE_ERROR * 1000) / 10,
    stalls,
    total: {
      ...pace(total, { backlog, backlogEnds: ends }, marks),
      takings: moneyOf(stalls),
      sharing: stalls.filter(({ takings }) => takings !== null).length,
    },
    texts: textAccount(total, texts),
    buckets: quartersOf(total.quarters, backlog - total.changeSince, startOf),
  };
}

/** Segments sent, today and in the span, and what the latter cost at the gateway's price. */
function textAccount(
  { sum, segmentsToday }: TotalAccount,
  { badSignatures, mostToday, price }: TextFacts,
): Throughput["texts"] {
  const segments = sum.value.segmentsOut;
  const amount = Math.round((segments * (price?.perThousandSegments ?? 0)) / 1000);
  const cost = price === undefined ? null : { amount, currency: price.currency };
  return { segments, segmentsToday, mostToday, cost, badSignatures };
}
