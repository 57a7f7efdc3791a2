/** Invented accounts of stalls, for the tests of the fair. */

import { marksOf, type StallAccount } from "../../src/fair/account.ts";
import type { AskedSpan } from "../../src/fair/asked-span.ts";
import { type OwnQuarters, throughput } from "../../src/fair/throughput.ts";
import type { Throughput } from "../../src/model/fair/throughput.ts";
import { type Bucket, bucketKey, EMPTY_BUCKET } from "../../src/time/bucket.ts";
import { ids } from "../ids.ts";

export const TEXTS = {
  badSignatures: 2,
  mostToday: 5000,
  price: { perThousandSegments: 900, currency: "USD" },
} as const;

export const bucket = (given: Partial<Bucket>): Bucket => ({ ...EMPTY_BUCKET, ...given });

/** Buckets by the instants they are about. */
export const at = (instant: string, given: Partial<Bucket>): readonly [string, Bucket] => [
  bucketKey(Date.parse(instant)),
  bucket(given),
];

export const account = (
  stall: string,
  buckets: StallAccount["buckets"],
  given: Partial<StallAccount> = {},
): StallAccount => ({
  stall: ids.stall(stall),
  name: stall,
  heardAt: null,
  crewAt: null,
  paused: false,
  setUp: true,
  backlog: 0,
  soldOut: 0,
  backlogEnds: null,
  shares: null,
  buckets,
  ...given,
});

export type Looking = {
  readonly timeZone: string;
  readonly now: string;
  readonly span?: AskedSpan;
  readonly own?: OwnQuarters;
  readonly hours?: readonly { readonly opens: number; readonly closes: number }[];
};

/** The pace of some accounts; one that is too long to send fails the test. */
export function paceOf(
  accounts: readonly StallAccount[],
  { timeZone, now, span = { from: null, to: null }, own = null, hours = [] }: Looking,
): Throughput {
  const fair = { name: "Brackenfield", timeZone, hours };
  const pace = throughput(fair, accounts, TEXTS, marksOf(span, timeZone, Date.parse(now)), own);
  if (pace === "too-many-quarters") throw new Error("too many quarters for a test");
  return pace;
}
