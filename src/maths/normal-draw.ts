/** Draws from the standard normal distribution. */

import type { Random } from "./random.ts";

/** One standard normal value: the polar method of G. Marsaglia and T. A. Bray (1964). */
export function standardNormal(random: Random): number {
  for (;;) {
    const x = 2 * random.next() - 1;
    const y = 2 * random.next() - 1;
    const square = x * x + y * y;
    if (square > 0 && square < 1) return x * Math.sqrt((-2 * Math.log(square)) / square);
  }
}
