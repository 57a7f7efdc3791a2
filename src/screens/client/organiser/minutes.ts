/** Waits in words. */

/** "12 min"; a dash if there is no figure. */
export function minutesWords(minutes: number | null): string {
  if (minutes === null) return "–";
  return minutes < 1 ? "under 1 min" : `${Math.round(minutes)} min`;
}
