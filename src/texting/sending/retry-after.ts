/** Retry-After, RFC 9110 section 10.2.3: a number of seconds or an HTTP date. */

const DAYS = "(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)";
const LONG_DAYS = "(?:Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday)";
const MONTHS = "(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)";
const TIME = "[0-9]{2}:[0-9]{2}:[0-9]{2}";

// The three forms of an HTTP date (RFC 9110, section 5.6.7); recipients must take all of them.
const FIXED = new RegExp(`^${DAYS}, [0-9]{2} ${MONTHS} [0-9]{4} ${TIME} GMT$`);
const OBSOLETE = new RegExp(`^${LONG_DAYS}, ([0-9]{2})-(${MONTHS})-([0-9]{2}) (${TIME}) GMT$`);
const ASCTIME = new RegExp(`^${DAYS} (${MONTHS}) ([ 0-9][0-9]) (${TIME}) ([0-9]{4})$`);

/** The instant of an HTTP date, or null if the text is not one. */
export function httpDate(text: string, now: number): number | null {
  const obsolete = OBSOLETE.exec(text);
  const asctime = ASCTIME.exec(text);
  let plain: string | null = FIXED.test(text) ? text : null;
  if (asctime !== null) plain = `${asctime[2]?.trim()} ${asctime[1]} ${asctime[4]} ${asctime[3]} GMT`;
  if (obsolete !== null) {
    // A two-digit year that seems more than 50 years ahead is the most recent one in the past.
    const century = Math.floor(new Date(now).getUTCFullYear() / 100) * 100;
    const year = century + Number(obsolete[3]);
    const past = year > new Date(now).getUTCFullYear() + 50 ? year - 100 : year;
    plain = `${obsolete[1]} ${obsolete[2]} ${past} ${obsolete[4]} GMT`;
  }
  const at = plain === null ? Number.NaN : Date.parse(plain);
  return Number.isNaN(at) ? null : at;
}

/** The longest that one answer of a gateway can silence a stall. */
export const LONGEST_REST = 10 * 60 * 1000;

/** Milliseconds to wait from now on, at most ten minutes; 0 if the header is absent, past or cannot be read. */
export function retryAfter(header: string | null, now: number): number {
  const text = (header ?? "").trim();
  if (/^[0-9]+$/.test(text)) return Math.min(Number(text) * 1000, LONGEST_REST);
  const at = httpDate(text, now);
  return at === null ? 0 : Math.min(Math.max(0, at - now), LONGEST_REST);
}
