/**
 * The fair's days and quarters of an hour over the changes of time of two zones.
 *
 * Source: IANA time zone database, files `northamerica` and `europe`:
 *   Rule US 2007 max - Mar Sun>=8   2:00  1:00 D      Rule EU 1981 max - Mar lastSun 1:00u 1:00 S
 *   Rule US 2007 max - Nov Sun>=1   2:00  0    S      Rule EU 1996 max - Oct lastSun 1:00u 0    -
 *   Zone America/New_York  -5:00 US E%sT              Zone Europe/London  0:00 EU GMT/BST
 */
import { describe, expect, it } from "vitest";
import { BUCKET_MILLISECONDS, bucketKey } from "../../src/time/bucket.ts";
import { daySpan, fairDay, localInstant, midnight } from "../../src/time/fair-day.ts";
import { account, bucket, paceOf } from "../fair/accounts.ts";

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const YEARS = [2025, 2026, 2027, 2028, 2029, 2030];

/** The first Sunday on or after a date, in UTC. */
const sundayFrom = (year: number, month: number, day: number): number => {
  const date = Date.UTC(year, month - 1, day);
  return date + ((7 - new Date(date).getUTCDay()) % 7) * DAY;
};
const lastSunday = (year: number, month: number, days: number): number => sundayFrom(year, month, days - 6);

type Change = { readonly zone: string; readonly at: number; readonly before: number; readonly after: number };
const CHANGES: readonly Change[] = YEARS.flatMap((year): Change[] => [
  // 2:00 by the clock that was in force: five hours, then four, behind UTC.
  { zone: "America/New_York", at: sundayFrom(year, 3, 8) + 7 * HOUR, before: -5, after: -4 },
  { zone: "America/New_York", at: sundayFrom(year, 11, 1) + 6 * HOUR, before: -4, after: -5 },
  { zone: "Europe/London", at: lastSunday(year, 3, 31) + HOUR, before: 0, after: 1 },
  { zone: "Europe/London", at: lastSunday(year, 10, 31) + HOUR, before: 1, after: 0 },
]);
const offset = (hours: number): string => `${hours < 0 ? "-" : "+"}0${Math.abs(hours)}:00`;
const local = (at: number, hours: number): string =>
  `${new Date(at + hours * HOUR).toISOString().slice(0, 19)}${offset(hours)}`;
const dateOf = ({ at, before }: Change): string => local(at - 1, before).slice(0, 10);

describe("a change of time", () => {
  it("shows in the clock at its very instant", () => {
    for (const { zone, at, before, after } of CHANGES) {
      const last = at - BUCKET_MILLISECONDS;
      expect([zone, localInstant(last, zone)]).toEqual([zone, local(last, before)]);
      expect([zone, localInstant(at, zone)]).toEqual([zone, local(at, after)]);
    }
  });

  it("makes a day of 92 or of 100 quarters, between days of 96", () => {
    for (const change of CHANGES) {
      const { zone, before, after } = change;
      const date = dateOf(change);
      const quarters = (day: string): number => {
        const { from, to } = daySpan(day, zone, []);
        return (to - from) / BUCKET_MILLISECONDS;
      };
      const next = new Date(Date.parse(date) + DAY).toISOString().slice(0, 10);
      const last = new Date(Date.parse(date) - DAY).toISOString().slice(0, 10);
      expect([zone, date, quarters(last), quarters(date), quarters(next)]).toEqual([
        zone,
        date,
        96,
        96 - (after - before) * 4,
        96,
      ]);
      expect(midnight(date, zone)).toBe(Date.parse(`${date}T00:00:00${offset(before)}`));
    }
  });

  it("leaves every quarter a row of its own: the hour that comes twice is told apart by its offset", () => {
    for (const change of CHANGES) {
      const { zone } = change;
      const { from, to } = daySpan(dateOf(change), zone, []);
      const buckets = Array.from(
        { length: (to - from) / BUCKET_MILLISECONDS },
        (_, n) => [bucketKey(from + n * BUCKET_MILLISECONDS), bucket({ placed: 1 })] as const,
      );
      const now = new Date(to).toISOString();
      const pace = paceOf([account("tern", buckets)], { timeZone: zone, now, span: { from, to } });
      expect(pace.total.placed).toBe(buckets.length);
      expect(new Set(pace.buckets.map(({ start }) => start)).size).toBe(buckets.length);
      expect(pace.buckets.map(({ start }) => Date.parse(start))).toEqual(
        buckets.map((_, n) => from + n * BUCKET_MILLISECONDS),
      );
      expect(pace.span.from?.slice(0, 16)).toBe(`${dateOf(change)}T00:00`);
    }
  });
});

describe("an evening past midnight", () => {
  // A Saturday evening in New York, open from 18:00 to 02:30 of the Sunday on which the clock goes back.
  const hours = [{ opens: Date.parse("2027-11-06T22:00:00Z"), closes: Date.parse("2027-11-07T07:30:00Z") }];
  const zone = "America/New_York";

  it("belongs to the day on which it began, and the next day begins when the stalls have packed up", () => {
    const packedUp = (hours[0]?.closes ?? 0) + 6 * HOUR;
    expect(fairDay(packedUp - 60_000, zone, hours)).toBe("2027-11-06");
    expect(fairDay(packedUp, zone, hours)).toBe("2027-11-07");
    const [evening, after] = ["2027-11-06", "2027-11-07"].map((date) => daySpan(date, zone, hours));
    expect(evening).toEqual({ from: Date.parse("2027-11-06T04:00:00Z"), to: packedUp });
    expect(after).toEqual({ from: packedUp, to: Date.parse("2027-11-08T05:00:00Z") });
  });

  it("is not one day if the fair stays open over several", () => {
    const [long] = [
      { opens: Date.parse("2027-11-05T14:00:00Z"), closes: Date.parse("2027-11-07T23:00:00Z") },
    ];
    expect(fairDay(Date.parse("2027-11-06T18:00:00Z"), zone, [long])).toBe("2027-11-06");
  });
});
