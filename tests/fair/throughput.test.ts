import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { marksOf } from "../../src/fair/account.ts";
import { MOST_OWN_QUARTERS, throughput } from "../../src/fair/throughput.ts";
import { type LogHistogram, RELATIVE_ERROR, withValue } from "../../src/maths/log-histogram.ts";
import { Throughput } from "../../src/model/fair/throughput.ts";
import { BUCKET_MILLISECONDS, bucketKey, bucketStart } from "../../src/time/bucket.ts";
import { account, at, bucket, paceOf, TEXTS } from "./accounts.ts";

const HERE = { timeZone: "America/New_York", now: "2027-06-12T16:07:30Z" };
const histogram = (values: readonly number[]): LogHistogram =>
  values.reduce((sum: LogHistogram, value) => withValue(sum, value), {});

describe("throughput", () => {
  it("adds buckets up per stall and in total, waits merged", () => {
    const waits = histogram([300, 600, 900]);
    const over = histogram([120]);
    const tern = account(
      "tern",
      [
        at("2027-06-12T15:45:00Z", {
          placed: 5,
          garments: 7,
          pressed: 3,
          asked: 9,
          unmet: 2,
          pressSeconds: 150,
        }),
        at("2027-06-12T16:00:00Z", { placed: 1, garments: 1, pressed: 2, waits, over, promised: 3, kept: 2 }),
      ],
      { backlog: 4, backlogEnds: Date.parse("2027-06-12T16:20:00Z") },
    );
    const gannet = account("gannet", [at("2027-06-12T16:00:00Z", { placed: 2, garments: 2, pressed: 1 })], {
      backlog: 1,
      backlogEnds: Date.parse("2027-06-12T16:09:00Z"),
    });
    const view = paceOf([tern, gannet], HERE);
    expect(Throughput.safeParse(view).error).toBeUndefined();
    expect([view.fair, view.timeZone]).toEqual(["Brackenfield", "America/New_York"]);
    expect(view.total).toMatchObject({ placed: 8, garments: 10, pressed: 6, asked: 9, unmet: 2, backlog: 5 });
    expect(view.total).toMatchObject({ kept: 2, backlogEnds: "2027-06-12T16:20:00.000Z" });
    expect(view.total.overQuote.orders).toBe(1);
    expect(view.total.overQuote.medianMinutes).toBeCloseTo(2, 1);
    expect(view.stalls.map(({ stall, placed }) => [stall, placed])).toEqual([
      ["tern", 6],
      ["gannet", 2],
    ]);
    // Ten minutes is the middle one of the three waits, within the histogram's 2.5 %.
    expect(view.total.waitMinutes.median).toBeGreaterThan(9.7);
    expect(view.total.waitMinutes.median).toBeLessThan(10.3);
    expect(view.stalls[1]?.waitMinutes).toEqual({ median: null, p90: null });
    // Five garments in 150 seconds of press time.
    expect([view.stalls[0]?.perPressHour, view.stalls[1]?.perPressHour]).toEqual([120, null]);
  });

  it("counts garments an hour over the hour so far, whatever span is asked for", () => {
    const full = [3, 2, 1, 0].map(
      (back) =>
        [
          bucketKey(Date.parse("2027-06-12T16:00:00Z") - back * BUCKET_MILLISECONDS),
          bucket({ pressed: 10 }),
        ] as const,
    );
    const looking = { timeZone: "America/New_York", now: "2027-06-12T16:14:59.999Z" };
    const yesterday = { from: Date.parse("2027-06-11T04:00:00Z"), to: Date.parse("2027-06-12T04:00:00Z") };
    expect(paceOf([account("tern", full)], looking).total.perHour).toBe(40);
    const before = paceOf([account("tern", full)], { ...looking, span: yesterday }).total;
    expect([before.pressed, before.perHour]).toEqual([0, 40]);
  });

  it("works the backlog of each quarter out backwards from now, drops and later quarters included", () => {
    const buckets = [
      at("2027-06-12T15:30:00Z", { backlogChange: 10 }),
      at("2027-06-12T15:45:00Z", { pressed: 2, backlogChange: -5 }),
      at("2027-06-12T16:00:00Z", { backlogChange: 1 }),
    ];
    const starts = ({ buckets: rows }: Throughput) => rows.map(({ start, backlog }) => [start, backlog]);
    expect(starts(paceOf([account("tern", buckets, { backlog: 6 })], HERE))).toEqual([
      ["2027-06-12T11:30:00-04:00", 10],
      ["2027-06-12T11:45:00-04:00", 5],
      ["2027-06-12T12:00:00-04:00", 6],
    ]);
    const span = { from: null, to: Date.parse("2027-06-12T16:00:00Z") };
    const own = account("tern", buckets, { backlog: 6 });
    const earlier = paceOf([own], { ...HERE, span, own: own.stall });
    expect(starts(earlier)).toEqual([
      ["2027-06-12T11:30:00-04:00", 10],
      ["2027-06-12T11:45:00-04:00", 5],
    ]);
    expect(earlier.stalls[0]?.buckets).toEqual(earlier.buckets);
    expect(earlier.total.backlog).toBe(6);
  });

  it("gives the sums of any span that the quarters in it give, and days that add up to the whole", () => {
    const quarter = fc.record({ quarter: fc.nat(3 * 96), placed: fc.nat(9), pressed: fc.nat(9) });
    const first = Date.parse("2027-06-11T04:00:00Z");
    fc.assert(
      fc.property(
        fc.array(fc.array(quarter, { maxLength: 30 }), { minLength: 1, maxLength: 4 }),
        (stalls) => {
          const sorted = stalls.map((rows) =>
            [...new Map(rows.map((row) => [row.quarter, row])).values()].sort(
              (a, b) => a.quarter - b.quarter,
            ),
          );
          const accounts = sorted.map((rows, n) =>
            account(
              `stall-${n}`,
              rows.map(({ quarter: index, placed, pressed }) => [
                bucketKey(first + index * BUCKET_MILLISECONDS),
                bucket({ placed, pressed }),
              ]),
            ),
          );
          const days = [0, 1, 2, 3].map((day) => ({
            from: first + day * 86_400_000,
            to: first + (day + 1) * 86_400_000,
          }));
          const each = days.map((span) => paceOf(accounts, { ...HERE, span }).total);
          const whole = paceOf(accounts, HERE).total;
          for (const field of ["placed", "pressed"] as const) {
            const exact = sorted.flat().reduce((sum, row) => sum + row[field], 0);
            expect(each.reduce((sum, day) => sum + day[field], 0)).toBe(exact);
            expect(whole[field]).toBe(exact);
          }
        },
      ),
      { numRuns: 40 },
    );
  });

  it("keeps waits within the stated error of the exact quantiles when many stalls are merged", () => {
    const exact = (values: readonly number[], share: number): number =>
      [...values].sort((one, other) => one - other)[Math.ceil(share * values.length) - 1] ?? Number.NaN;
    const seconds = fc.array(fc.integer({ min: 30, max: 7200 }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(fc.array(seconds, { minLength: 1, maxLength: 5 }), (stalls) => {
        const accounts = stalls.map((values, n) =>
          account(`stall-${n}`, [at("2027-06-12T15:45:00Z", { waits: histogram(values) })]),
        );
        const { median, p90 } = paceOf(accounts, HERE).total.waitMinutes;
        for (const [found, share] of [
          [median, 0.5],
          [p90, 0.9],
        ] as const) {
          const truth = exact(stalls.flat(), share) / 60;
          // Shown to a tenth of a minute, so half a tenth comes on top of the histogram's own error.
          expect(Math.abs((found ?? Number.NaN) - truth)).toBeLessThanOrEqual(
            truth * RELATIVE_ERROR + 0.05 + 1e-9,
          );
        }
      }),
      { numRuns: 60 },
    );
    expect(paceOf([], HERE).waitErrorPercent / 100).toBeGreaterThanOrEqual(RELATIVE_ERROR);
  });

  it("shows takings of the stalls that share them only, a sum for each currency", () => {
    const took = [at("2027-06-12T15:45:00Z", { takings: 2400 })];
    const { stalls, total } = paceOf(
      [
        account("tern", took, { shares: "USD" }),
        account("gannet", took),
        account("knot", took, { shares: "USD" }),
        account("dunlin", took, { shares: "CAD" }),
      ],
      HERE,
    );
    expect(stalls.map(({ takings }) => takings?.amount ?? null)).toEqual([2400, null, 2400, 2400]);
    expect(total.sharing).toBe(3);
    expect(total.takings).toEqual([
      { amount: 4800, currency: "USD" },
      { amount: 2400, currency: "CAD" },
    ]);
  });

  it("counts the day's segments on the fair's own calendar, and estimates what those of the span cost", () => {
    // Midnight at the fair is 04:00 UTC in June.
    const view = paceOf(
      [
        account("tern", [
          at("2027-06-12T03:45:00Z", { segmentsOut: 1000 }),
          at("2027-06-12T04:00:00Z", { segmentsOut: 200 }),
          at("2027-06-12T16:00:00Z", { segmentsOut: 34 }),
        ]),
      ],
      HERE,
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

  it("does not send more quarters of single stalls than a day of three hundred has", () => {
    const quarters = Array.from(
      { length: MOST_OWN_QUARTERS + 1 },
      (_, n) => [bucketKey(n * BUCKET_MILLISECONDS), bucket({})] as const,
    );
    const marks = marksOf({ from: null, to: null }, "UTC", Date.parse(HERE.now));
    const fair = { name: "Long", timeZone: "UTC", hours: [] };
    expect(throughput(fair, [account("tern", quarters)], TEXTS, marks, "every")).toBe("too-many-quarters");
    expect(throughput(fair, [account("tern", quarters)], TEXTS, marks, null)).not.toBe("too-many-quarters");
  });
});

describe("a bucket of fifteen minutes", () => {
  it("begins on a quarter of every clock there is", () => {
    // Asia/Kathmandu is 5:45 ahead of UTC, Australia/Lord_Howe 10:30 and 11:00 (IANA time zone database).
    for (const zone of ["Asia/Kathmandu", "Australia/Lord_Howe", "America/St_Johns", "Pacific/Chatham"]) {
      for (const instant of ["2027-05-01T10:07:00Z", "2027-12-01T10:07:00Z"]) {
        const start = bucketStart(bucketKey(Date.parse(instant)));
        const format = new Intl.DateTimeFormat("en", { timeZone: zone, minute: "numeric" });
        expect([zone, Number(format.format(start)) % 15]).toEqual([zone, 0]);
      }
    }
  });
});
