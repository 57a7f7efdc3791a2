/** The day of the fair: its own calendar's, by its time zone. */
const formats = new Map<string, Intl.DateTimeFormat>();

/** The date at an instant where the fair is, "2027-06-12". */
export function dayOf(at: number, timeZone: string): string {
  let format = formats.get(timeZone);
  if (format === undefined) {
    format = new Intl.DateTimeFormat("en-CA", {
      timeZone,
      year: "numeric",
      month: "2-digit",
      day: "2-digit",
    });
    formats.set(timeZone, format);
  }
  return format.format(at);
}
