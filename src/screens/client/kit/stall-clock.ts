/**
 * The stall's clock, as far as a tablet can know: the tablet's own may be wrong by hours. An answer has the time it was
 * made, and arrives no earlier than that; so the latest such time is the best estimate.
 */
export type StallClock = {
  /** The stall made an answer at this instant, in milliseconds since 1970. */
  readonly heard: (instant: number) => void;
  /** About now; null before the stall was heard. */
  readonly now: () => string | null;
};

export function stallClock(tablet: () => number = Date.now): StallClock {
  let ahead: number | null = null;
  return {
    heard: (instant) => {
      const now = instant - tablet();
      ahead = ahead === null ? now : Math.max(ahead, now);
    },
    now: () => (ahead === null ? null : new Date(tablet() + ahead).toISOString()),
  };
}
