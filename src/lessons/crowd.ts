/** How many people walked past, from a watch or from the organiser's figure. */

/** One hour of the fair's clock. */
export type WatchedHour = {
  readonly hour: string;
  readonly openSeconds: number;
  readonly watchedSeconds: number;
  readonly people: number;
};

export type Crowd = {
  readonly passersBy: number;
  /** Standard deviation, as a share of it. */
  readonly uncertainty: number;
  /** By the hour, for those that were watched. */
  readonly hours: ReadonlyMap<string, number>;
};

/** The relative error of counting by taps; common practice, no source. */
const CLICKING = 0.03;
/** How far an unwatched hour differs from the others; common practice, no source. */
const OTHER_HOUR = 0.35;

/**
 * A watch of part of an hour is extended to the hour, with the error of a Poisson count. An unwatched hour is the mean
 * of the watched ones. Null if nobody watched.
 */
export function watchedCrowd(hours: readonly WatchedHour[]): Crowd | null {
  const watched = hours.filter(({ watchedSeconds }) => watchedSeconds > 0);
  if (watched.length === 0) return null;
  const seconds = watched.reduce((sum, hour) => sum + hour.watchedSeconds, 0);
  const people = watched.reduce((sum, hour) => sum + hour.people, 0);
  const perSecond = people / seconds;
  const byHour = new Map<string, number>();
  let passersBy = 0;
  let variance = 0;
  for (const { hour, openSeconds, watchedSeconds, people: seen } of hours) {
    if (watchedSeconds === 0) {
      const expected = perSecond * openSeconds;
      passersBy += expected;
      variance += (OTHER_HOUR * expected) ** 2;
      continue;
    }
    // If part of the watch was outside the hours, only what was seen counts.
    const stretch = Math.max(1, openSeconds / watchedSeconds);
    byHour.set(hour, seen * stretch);
    passersBy += seen * stretch;
    // Of the part that was seen nothing is left to chance; the rest is as uncertain as the sample of it.
    variance += Math.max(1, seen) * (stretch - 1) * stretch;
  }
  if (passersBy === 0) return null;
  return {
    passersBy,
    uncertainty: Math.sqrt(variance / passersBy ** 2 + CLICKING ** 2),
    hours: byHour,
  };
}
