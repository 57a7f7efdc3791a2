/** Instants as RFC 3339 text. */
import type { Instant } from "./facts.ts";

export const iso = (at: Instant): string => new Date(at).toISOString();
export const isoOrNull = (at: Instant | null): string | null => (at === null ? null : iso(at));
