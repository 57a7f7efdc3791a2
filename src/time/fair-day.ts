/** The days of the fair: its own calendar's, by its time zone. Instants are milliseconds since 1970, UTC. */
import { BUCKET_MILLISECONDS } from "./bucket.ts";

/** A day of the fair, "2027-06-12". */
export type Day = string;

/** When a fair is open. */
export type Hours = { readonly opens: number; readonly closes: number };
export type Stretch = { readonly from: number; readonly to: number };

const HOUR = 3_600_000;
/** Work this long after closing time still belongs to that day: packing up after midnight. */
const PACKING_UP = 6 * HOUR;
/** An opening that lasts longer is one of several days, each the calendar's, and not a long evening. */
const LONGEST_DAY = 36 * HOUR;
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

/** The date at an instant in the fair's time zone, "2027-06-12". */
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

/** The first quarter of an hour of a date in the fair's time zone, however long the days around it are. */
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

/** The date after a date. */
export function dateAfter(date: string): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) + 24 * HOUR).toISOString().slice(0, 10);
}

/**
 * The day of the fair at an instant, for the stall's account and the organiser's pace alike: the date on which an
 * opening began, while it lasts and while the stalls pack up; else the calendar's.
 */
export function fairDay(at: number, timeZone: string, hours: readonly Hours[]): string {
  let begun: number | null = null;
  for (const { opens, closes } of hours) {
    if (closes - opens > LONGEST_DAY) continue;
    if (opens <= at && at < closes + PACKING_UP && (begun === null || opens > begun)) begun = opens;
  }
  return dayOf(begun ?? at, timeZone);
}

/** The first quarter of an hour of a day of the fair: midnight, or when the day before is over if that is later. */
function dayBegins(date: string, timeZone: string, hours: readonly Hours[]): number {
  const first = midnight(date, timeZone);
  // A day can only change at an opening, or at the end of its packing up.
  const changes = [first, ...hours.flatMap(({ opens, closes }) => [opens, closes + PACKING_UP])]
    .filter((at) => at >= first)
    .sort((one, other) => one - other);
  const begins = changes.find((at) => fairDay(at, timeZone, hours) >= date) ?? first;
  return Math.ceil(begins / BUCKET_MILLISECONDS) * BUCKET_MILLISECONDS;
}

/** From when to when a day of the fair lasts; the days follow one another without a gap. */
export function daySpan(date: string, timeZone: string, hours: readonly Hours[]): Stretch {
  return {
    from: dayBegins(date, timeZone, hours),
    to: dayBegins(dateAfter(date), timeZone, hours),
  };
}

const clocks = new Map<string, Intl.DateTimeFormat>();
const minutes = new Map<string, Intl.DateTimeFormat>();

/** Whether an instant is in the first minute of a day on that clock: 12:00 AM says it to nobody. */
export const isMidnight = (at: number, timeZone: string): boolean =>
  kept(minutes, timeZone, "en-GB", { hour: "2-digit", minute: "2-digit", hourCycle: "h23" }).format(at) ===
  "00:00";

/** The hour of the fair's clock at an instant, "14:00". */
export function hourOf(at: number, timeZone: string): string {
  const format = kept(clocks, timeZone, "en-GB", { hour: "2-digit", hourCycle: "h23" });
  return `${format.format(at)}:00`;
}
