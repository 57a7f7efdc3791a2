/**
 * The stall's clock as far as a tablet can tell: its own may be wrong by hours. The stall says when it made a
 * view, and it is never earlier than that when the view arrives; the latest such hint is the best.
 */
export type StallClock = {
  /** The stall made something at this instant. */
  readonly heard: (instant: string) => void;
  /** About now; null before the stall was heard. */
  readonly now: () => string | null;
};

export function stallClock(tablet: () => number = Date.now): StallClock {
  let ahead: number | null = null;
  return {
    heard: (instant) => {
      const now = Date.parse(instant) - tablet();
      ahead = ahead === null ? now : Math.max(ahead, now);
    },
    now: () => (ahead === null ? null : new Date(tablet() + ahead).toISOString()),
  };
}
