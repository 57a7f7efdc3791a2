/** The days of the fair: its own calendar's, by its time zone. Instants are milliseconds since 1970, UTC. */
import { BUCKET_MILLISECONDS } from "./bucket.ts";

/** When a fair is open. */
export type Hours = { readonly opens: number; readonly closes: number };
export type Stretch = { readonly from: number; readonly to: number };

const HOUR = 3_600_000;
/** An opening that goes on later than this past midnight is one of several days, not a long evening. */
const LONGEST_EVENING = 12 * HOUR;
/** No place on earth is further than this from UTC (IANA time zones: -12:00 to +14:00). */
const FURTHEST = 15 * HOUR;

const formats = new Map<string, Intl.DateTimeFormat>();
const offsets = new Map<string, Intl.DateTimeFormat>();

function kept(
  among: Map<string, Intl.DateTimeFormat>,
  timeZone: string,
  locale: string,
  options: Intl.DateTimeFormatOptions,
): Intl.DateTimeFormat {
  const format = among.get(timeZone) ?? new Intl.DateTimeFormat(locale, { timeZone, ...options });
  among.set(timeZone, format);
  return format;
}

/** The date at an instant where the fair is, "2027-06-12". */
export function dayOf(at: number, timeZone: string): string {
  const digits = { year: "numeric", month: "2-digit", day: "2-digit" } as const;
  return kept(formats, timeZone, "en-CA", digits).format(at);
}

/** The instant as the fair's own clock shows it, with its offset: "2027-11-07T01:30:00-04:00". */
export function localInstant(at: number, timeZone: string): string {
  const format = kept(offsets, timeZone, "en", { timeZoneName: "longOffset" });
  const name = format.formatToParts(at).find(({ type }) => type === "timeZoneName")?.value ?? "";
  const [, sign = "+", hours = "00", minutes = "00"] = /GMT([+-])(\d\d):(\d\d)/.exec(name) ?? [];
  const ahead = (Number(hours) * 60 + Number(minutes)) * (sign === "-" ? -60_000 : 60_000);
  return `${new Date(at + ahead).toISOString().slice(0, 19)}${sign}${hours}:${minutes}`;
}

/** The first quarter of an hour of a date where the fair is, however long the days around it are. */
export function midnight(date: string, timeZone: string): number {
  const utc = Date.parse(`${date}T00:00:00Z`);
  let before = (utc - FURTHEST) / BUCKET_MILLISECONDS;
  let from = (utc + FURTHEST) / BUCKET_MILLISECONDS;
  while (from - before > 1) {
    const middle = Math.floor((before + from) / 2);
    if (dayOf(middle * BUCKET_MILLISECONDS, timeZone) < date) before = middle;
    else from = middle;
  }
  return from * BUCKET_MILLISECONDS;
}

/** The date that comes some days after another. */
function dateAfter(date: string, days: number): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) + days * 24 * HOUR).toISOString().slice(0, 10);
}

/** When a day of the fair begins: at midnight, or when the evening before closes where that is later. */
function dayBegins(date: string, timeZone: string, hours: readonly Hours[]): number {
  const begins = midnight(date, timeZone);
  const evenings = hours.filter(
    ({ opens, closes }) => opens < begins && closes > begins && closes - begins <= LONGEST_EVENING,
  );
  const last = Math.max(begins, ...evenings.map(({ closes }) => closes));
  return Math.ceil(last / BUCKET_MILLISECONDS) * BUCKET_MILLISECONDS;
}

/** From when to when a day of the fair lasts; the days follow one another without a gap. */
export function daySpan(date: string, timeZone: string, hours: readonly Hours[]): Stretch {
  return {
    from: dayBegins(date, timeZone, hours),
    to: dayBegins(dateAfter(date, 1), timeZone, hours),
  };
}

/** The day of the fair at an instant: after midnight still the day before, until that evening closes. */
export function fairDay(at: number, timeZone: string, hours: readonly Hours[]): string {
  const date = dayOf(at, timeZone);
  return at < dayBegins(date, timeZone, hours) ? dateAfter(date, -1) : date;
}
