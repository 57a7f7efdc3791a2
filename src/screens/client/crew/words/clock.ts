import { isMidnight } from "../../../../time/fair-day.ts";

const FORM = { hour: "numeric", minute: "2-digit" } as const;
/** The tablet's own clock, until the fair's is known. */
let fairs = new Intl.DateTimeFormat(undefined, FORM);

const clockOf = (timeZone: string) => new Intl.DateTimeFormat(undefined, { ...FORM, timeZone });

/** From here on this page tells times by the clock of this zone: the fair's, wherever the tablet comes from. */
export function tellTimesIn(timeZone: string): void {
  fairs = clockOf(timeZone);
}

/** The time of day of an instant by the fair's clock, or by one of another time zone. */
export function timeOfDay(instant: string, timeZone?: string): string {
  const form = timeZone === undefined ? fairs : clockOf(timeZone);
  const at = Date.parse(instant);
  return isMidnight(at, form.resolvedOptions().timeZone) ? "midnight" : form.format(at);
}
