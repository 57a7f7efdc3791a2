/** A rate limiter in memory, for when the platform's own is not bound: on a laptop, for one. */

import { MINUTE } from "../../time/instants.ts";

/** So many callers are remembered; past that, those who have been quiet longest are forgotten. */
const MOST_REMEMBERED = 20_000;

/**
 * Buckets that fill again evenly. Of each caller one instant is kept: when its bucket is full again (the virtual
 * scheduling form of the generic cell rate algorithm, ITU-T I.371, annex A).
 */
export class Buckets {
  readonly #full = new Map<string, number>();

  /**
   * Counts one call of a caller who may make `most` a `period`. Returns the seconds to wait; 0 if the call may go on.
   */
  take(caller: string, most: number, now: number, period = MINUTE): number {
    const each = period / most;
    const known = this.#full.get(caller) ?? now;
    // Further ahead than a bucket can be: the clock was set back, and that must not lock anybody out.
    const before = known > now + period + each ? now : known;
    const full = Math.max(before, now) + each;
    if (full - now > period + each / 2) return Math.max(1, Math.ceil((full - now - period) / 1000));
    // Delete and set again, so that the map's order is by the latest call.
    this.#full.delete(caller);
    this.#full.set(caller, full);
    if (this.#full.size > MOST_REMEMBERED) this.#forget();
    return 0;
  }

  #forget(): void {
    for (const [caller] of this.#full) {
      this.#full.delete(caller);
      if (this.#full.size <= MOST_REMEMBERED / 2) return;
    }
  }
}
