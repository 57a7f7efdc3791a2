/** A day of a fair, such as 2027-06-12, in words of the reader's language: Saturday, June 12, 2027. */
export const dayInWords = (day: string): string =>
  new Intl.DateTimeFormat(undefined, {
    weekday: "long",
    day: "numeric",
    month: "long",
    year: "numeric",
    timeZone: "UTC",
  }).format(Date.parse(`${day}T12:00:00Z`));
