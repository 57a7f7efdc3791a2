/** The beta distribution. */

import { logGamma } from "./gamma.ts";

/**
 * The share of a beta distribution below x (0 to 1): the regularised incomplete beta function, by its
 * continued fraction (Abramowitz & Stegun 26.5.8), from the side on which it converges fast.
 */
export function betaBelow(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  return x < (a + 1) / (a + b + 2)
    ? (front * fraction(x, a, b)) / a
    : 1 - (front * fraction(1 - x, b, a)) / b;
}

/** The continued fraction, by Lentz's method. */
function fraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / kept(1 - ((a + b) * x) / (a + 1), tiny);
  let value = d;
  for (let n = 1; n < 10_000; n++) {
    const even = (n * (b - n) * x) / ((a + 2 * n - 1) * (a + 2 * n));
    d = 1 / kept(1 + even * d, tiny);
    c = kept(1 + even / c, tiny);
    value *= d * c;
    const odd = (-(a + n) * (a + b + n) * x) / ((a + 2 * n) * (a + 2 * n + 1));
    d = 1 / kept(1 + odd * d, tiny);
    c = kept(1 + odd / c, tiny);
    const change = d * c;
    value *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return value;
}

const kept = (value: number, tiny: number): number => (Math.abs(value) < tiny ? tiny : value);

/** The value below which the given share (0 < share < 1) of a beta distribution lies. */
export function betaQuantile(share: number, a: number, b: number): number {
  let low = 0;
  let high = 1;
  for (let step = 0; step < 200 && high - low > 1e-15 * high; step++) {
    const middle = (low + high) / 2;
    if (betaBelow(middle, a, b) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
