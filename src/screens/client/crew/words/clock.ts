import { isMidnight } from "../../../../time/fair-day.ts";

/** The time of day of an instant, as this tablet's clock has it, or one of another time zone. */
export function timeOfDay(instant: string, timeZone?: string): string {
  const form = timeZone === undefined ? OWN : new Intl.DateTimeFormat(undefined, { ...FORM, timeZone });
  const at = Date.parse(instant);
  return isMidnight(at, form.resolvedOptions().timeZone) ? "midnight" : form.format(at);
}
const FORM = { hour: "numeric", minute: "2-digit" } as const;
const OWN = new Intl.DateTimeFormat(undefined, FORM);
