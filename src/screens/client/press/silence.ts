/**
 * How long this tablet has had no answer of the stall: it takes reserved garments for 20 minutes without one, and no
 * longer.
 */

/** The stall lets a reserve go a little later, so the two never overlap. */
const SILENT_FOR = 20 * 60_000;

/** An instant by two clocks: the tablet's own can be set, and the other stops while some tablets sleep. */
type Moment = { readonly set: number; readonly ticked: number | null };

export type Silence = {
  /** To be called before the stall is asked: from then on it may count its 20 minutes. */
  readonly asking: () => Moment;
  /** The stall answered the request made at that moment. */
  readonly heard: (asked: Moment) => void;
  /** The page was opened again; the stall was last heard then by the tablet's clock (milliseconds since 1970). */
  readonly heardBefore: (at: number) => void;
  /** Whether reserved garments may still be taken. */
  readonly mayTake: () => boolean;
};

export function silence(
  set: () => number = Date.now,
  ticked: () => number = () => performance.now(),
): Silence {
  let last: Moment | null = null;
  return {
    asking: () => ({ set: set(), ticked: ticked() }),
    heard: (asked) => {
      last = asked;
    },
    heardBefore: (at) => {
      last ??= { set: at, ticked: null };
    },
    mayTake: () => {
      if (last === null) return false;
      const passed = set() - last.set;
      // A clock that was set back says nothing of how long it was: the longer silence is believed.
      if (passed < 0 && last.ticked === null) return false;
      return Math.max(passed, last.ticked === null ? 0 : ticked() - last.ticked) < SILENT_FOR;
    },
  };
}
