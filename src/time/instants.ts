/** Instants, and as RFC 3339 text. */

/** Milliseconds since 1970, UTC. */
export type Instant = number;

/** Milliseconds in a minute. */
export const MINUTE = 60_000;

export const iso = (at: Instant): string => new Date(at).toISOString();
export const isoOrNull = (at: Instant | null): string | null => (at === null ? null : iso(at));
