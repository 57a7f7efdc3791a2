import { describe, expect, it } from "vitest";
import { type Bucket, bucketKey, bucketStart, EMPTY_BUCKET } from "../../src/fair/bucket.ts";
import { type StallAccount, throughput } from "../../src/fair/throughput.ts";
import { withValue } from "../../src/maths/log-histogram.ts";
import type { StallId } from "../../src/model/ids.ts";

const NOON = Date.parse("2027-06-12T16:00:00Z");
const FAIR = { name: "Brackenfield", timeZone: "America/New_York" };
const TEXTS = {
  badSignatures: 2,
  mostToday: 5000,
  price: { perThousandSegments: 900, currency: "USD" },
} as const;
const bucket = (given: Partial<Bucket>): Bucket => ({ ...EMPTY_BUCKET, ...given });
const account = (stall: string, backlog: number, buckets: Record<string, Bucket>): StallAccount => ({
  stall: stall as StallId, // a brand for a test's own id
  name: stall,
  heardAt: NOON,
  backlog,
  soldOut: 0,
  backlogEnds: null,
  buckets: new Map(Object.entries(buckets)),
});

describe("throughput", () => {
  it("adds buckets up per stall and in total, waits merged", () => {
    const waits = [300, 600, 900].reduce((histogram, wait) => withValue(histogram, wait), {});
    const first = account("tern", 4, {
      [bucketKey(NOON - 900_000)]: bucket({ placed: 5, garments: 7, pressed: 3, asked: 9, unmet: 2 }),
      [bucketKey(NOON)]: bucket({ placed: 1, garments: 1, pressed: 2, waits, promised: 3, kept: 2 }),
    });
    const second = account("gannet", 1, {
      [bucketKey(NOON)]: bucket({ placed: 2, garments: 2, pressed: 1 }),
    });
    const view = throughput(FAIR, [first, second], TEXTS, NOON + 450_000);
    expect([view.fair, view.timeZone]).toEqual(["Brackenfield", "America/New_York"]);
    expect(view.total).toMatchObject({
      placed: 8,
      garments: 10,
      pressed: 6,
      asked: 9,
      unmet: 2,
      backlog: 5,
      kept: 2,
    });
    expect(view.stalls.map(({ stall, placed }) => [stall, placed])).toEqual([
      ["tern", 6],
      ["gannet", 2],
    ]);
    // Ten minutes is the middle one of the three waits, within the histogram's 2.5 %.
    expect(view.total.waitMinutes.median).toBeGreaterThan(9.7);
    expect(view.total.waitMinutes.median).toBeLessThan(10.3);
    expect(view.stalls[1]?.waitMinutes).toEqual({ median: null, p90: null });
  });
  it("counts garments an hour over the hour so far", () => {
    const full = Object.fromEntries(
      [3, 2, 1, 0].map((back) => [bucketKey(NOON - back * 900_000), bucket({ pressed: 10 })]),
    );
    const view = throughput(FAIR, [account("tern", 0, full)], TEXTS, NOON + 900_000 - 1);
    expect(view.total.perHour).toBeCloseTo(40, 1);
  });
  it("works the backlog of each bucket out backwards from now", () => {
    const view = throughput(
      FAIR,
      [
        account("tern", 6, {
          [bucketKey(NOON - 900_000)]: bucket({ garments: 10, pressed: 2 }),
          [bucketKey(NOON)]: bucket({ garments: 3, pressed: 5 }),
        }),
      ],
      TEXTS,
      NOON + 60_000,
    );
    expect(view.buckets.map(({ start, backlog }) => [start, backlog])).toEqual([
      ["2027-06-12T15:45:00.000Z", 8],
      ["2027-06-12T16:00:00.000Z", 6],
    ]);
  });
});

describe("a bucket of fifteen minutes", () => {
  it("begins on a quarter of every clock there is, over a change of time too", () => {
    // IANA: Europe/London goes forward at 01:00 UTC on 2027-03-28, America/New_York back at 06:00 UTC on 2027-11-07;
    // Asia/Kathmandu is 5:45 ahead of UTC.
    for (const [zone, at] of [
      ["Europe/London", "2027-03-28T00:52:00Z"],
      ["Europe/London", "2027-03-28T01:07:00Z"],
      ["America/New_York", "2027-11-07T05:59:00Z"],
      ["America/New_York", "2027-11-07T06:01:00Z"],
      ["Asia/Kathmandu", "2027-05-01T10:00:00Z"],
    ] as const) {
      const start = bucketStart(bucketKey(Date.parse(at)));
      const minute = Number(
        new Intl.DateTimeFormat("en", { timeZone: zone, minute: "numeric" }).format(start),
      );
      expect([zone, minute % 15]).toEqual([zone, 0]);
      expect(Date.parse(at) - start).toBeLessThan(900_000);
    }
  });
  it("counts the day's segments on the fair's own calendar, and estimates what all of them cost", () => {
    // Midnight at the fair is 04:00 UTC in June.
    const before = Date.parse("2027-06-12T03:45:00Z");
    const view = throughput(
      FAIR,
      [
        account("tern", 0, {
          [bucketKey(before)]: bucket({ segmentsOut: 1000 }),
          [bucketKey(before + 900_000)]: bucket({ segmentsOut: 200 }),
          [bucketKey(NOON)]: bucket({ segmentsOut: 34 }),
        }),
      ],
      TEXTS,
      NOON,
    );
    expect(view.texts).toEqual({
      segments: 1234,
      segmentsToday: 234,
      mostToday: 5000,
      // 1,234 segments at 9.00 a thousand are 11.106.
      cost: { amount: 1111, currency: "USD" },
      badSignatures: 2,
    });
  });
});
