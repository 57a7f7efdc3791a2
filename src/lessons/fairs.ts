/** Days of evidence put together into fairs, and how much an old fair still counts. */
import type { Lessons } from "../model/accounts/lessons.ts";

/** A fair of this many years ago counts half as much. Common practice, no source. */
export const HALF_LIFE_YEARS = 3;
/** Days of one name further apart than this are two fairs. Common practice, no source. */
const LONGEST_BREAK_DAYS = 7;
const DAY_MILLISECONDS = 86_400_000;
const YEAR_DAYS = 365.25;

export type FairEvidence = {
  readonly days: readonly Lessons[];
  /** 1 for the latest, halved every HALF_LIFE_YEARS before it. */
  readonly weight: number;
};

const dayNumber = ({ day }: Lessons): number => Date.parse(`${day}T00:00:00Z`) / DAY_MILLISECONDS;

/**
 * Puts days of the same name into one fair, unless a long break lies between them: a fair held again next year is
 * another fair. Age is counted from the latest day there is.
 */
export function fairsOf(lessons: readonly Lessons[]): FairEvidence[] {
  const latest = Math.max(...lessons.map(dayNumber));
  const groups: Lessons[][] = [];
  for (const lesson of [...lessons].sort((a, b) => dayNumber(a) - dayNumber(b))) {
    const same = groups.find((group) => {
      const last = group.at(-1);
      return (
        last !== undefined &&
        last.fair === lesson.fair &&
        dayNumber(lesson) - dayNumber(last) <= LONGEST_BREAK_DAYS
      );
    });
    if (same === undefined) groups.push([lesson]);
    else same.push(lesson);
  }
  return groups.map((days) => {
    const last = Math.max(...days.map(dayNumber));
    return { days, weight: 0.5 ** ((latest - last) / YEAR_DAYS / HALF_LIFE_YEARS) };
  });
}

/**
 * The days that speak for one kind of fair: those of the kind if there are any, else all. The kind is the
 * user's own word, compared without case.
 */
export function ofKind(lessons: readonly Lessons[], kind: string | undefined): readonly Lessons[] {
  if (kind === undefined) return lessons;
  const wanted = kind.trim().toLowerCase();
  const same = lessons.filter((lesson) => lesson.kind?.trim().toLowerCase() === wanted);
  return same.length > 0 ? same : lessons;
}
