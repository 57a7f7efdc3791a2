/** A watch that survives a reload: its start, its count, and its own key once it is over. */

export type Watch = {
  readonly since: number;
  readonly people: number;
  /** Set when the watch is over and its count is on its way to the stall. */
  readonly ended: { readonly seconds: number; readonly once: string } | null;
};

/** A watch longer than this was forgotten, not watched. */
const LONGEST_SECONDS = 3600;

export const secondsOf = (watch: Watch, now: number): number =>
  watch.ended?.seconds ?? Math.min(LONGEST_SECONDS, Math.max(1, Math.round((now - watch.since) / 1000)));

/** The watch with one more or one fewer; the first tap begins it. */
export function tapped(watch: Watch | null, by: 1 | -1, now: number): Watch | null {
  if (watch === null) return by === 1 ? { since: now, people: 1, ended: null } : null;
  return { ...watch, people: Math.max(0, watch.people + by) };
}

/** "4:05" for 245 seconds. */
export const clockWords = (seconds: number): string =>
  `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
