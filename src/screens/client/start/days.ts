/** The days of a fair as people say them, and as instants. */

/** One day: "2027-06-12", "10:00" to "18:00"; a closing that is not after the opening is on the next day. */
export type Day = { readonly date: string; readonly opens: string; readonly closes: string };

const MINUTE = 60_000;

/** How far a zone's clock is ahead of UTC at an instant, in minutes. */
function aheadMinutes(zone: string, at: number): number {
  const form = new Intl.DateTimeFormat("en-GB", {
    timeZone: zone,
    hourCycle: "h23",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
    second: "2-digit",
  });
  const parts = Object.fromEntries(form.formatToParts(at).map(({ type, value }) => [type, Number(value)]));
  const shown = Date.UTC(
    parts["year"] ?? 0,
    (parts["month"] ?? 1) - 1,
    parts["day"],
    parts["hour"],
    parts["minute"],
    parts["second"],
  );
  return Math.round((shown - at) / MINUTE);
}

/** The instant at which a zone's clock shows a date and time; null if it never does. */
function instantAt(zone: string, date: string, time: string): number | null {
  const shown = Date.parse(`${date}T${time}:00Z`);
  if (Number.isNaN(shown)) return null;
  // The offset of the answer is what counts, and near a change of clocks it is not that of the first guess.
  const guess = shown - aheadMinutes(zone, shown) * MINUTE;
  return shown - aheadMinutes(zone, guess) * MINUTE;
}

const two = (part: number): string => String(part).padStart(2, "0");

/** The date and time on a zone's clock at an instant: "2027-06-12" and "10:00". */
function shownAt(zone: string, at: number): { readonly date: string; readonly time: string } {
  const shown = new Date(at + aheadMinutes(zone, at) * MINUTE);
  return {
    date: shown.toISOString().slice(0, 10),
    time: `${two(shown.getUTCHours())}:${two(shown.getUTCMinutes())}`,
  };
}

/** An opening span, from and to ISO instants, as the day it is by a zone's clock. */
export function dayOf(zone: string, opens: string, closes: string): Day {
  const from = shownAt(zone, Date.parse(opens));
  return { date: from.date, opens: from.time, closes: shownAt(zone, Date.parse(closes)).time };
}

/** The day as an opening span; null if it is incomplete. */
export function openingOf(zone: string, { date, opens, closes }: Day) {
  const from = instantAt(zone, date, opens);
  const to = instantAt(zone, date, closes);
  if (from === null || to === null) return null;
  const nextDay = new Date(Date.parse(`${date}T00:00:00Z`) + 24 * 60 * MINUTE).toISOString().slice(0, 10);
  const end = to > from ? to : instantAt(zone, nextDay, closes);
  if (end === null) return null;
  return { opens: new Date(from).toISOString(), closes: new Date(end).toISOString() };
}
