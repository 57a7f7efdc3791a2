/** The standard normal distribution. */

import { gammaAbove, gammaBelow } from "./gamma.ts";

/** Density of the standard normal distribution. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

/** Share of the standard normal distribution below z, through the incomplete gamma function of 1/2. */
export function normalBelow(z: number): number {
  const half = (z * z) / 2;
  return z < 0 ? 0.5 * gammaAbove(0.5, half) : 0.5 + 0.5 * gammaBelow(0.5, half);
}

/**
 * The z below which the given share (0 < share < 1) lies. Starts from the rational approximation of
 * Abramowitz & Stegun 26.2.23 and closes in with Halley's steps, so that only rounding is left.
 */
export function normalQuantile(share: number): number {
  if (share === 0.5) return 0;
  const tail = Math.min(share, 1 - share);
  const t = Math.sqrt(-2 * Math.log(tail));
  const above =
    t -
    (2.515517 + 0.802853 * t + 0.010328 * t * t) / (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t ** 3);
  let z = -above;
  for (let step = 0; step < 4; step++) {
    const error = (normalBelow(z) - tail) / normalDensity(z);
    z -= error / (1 + (z * error) / 2);
  }
  return share < 0.5 ? z : -z;
}

/** Expected amount by which a standard normal value exceeds z: density(z) - z (1 - below(z)). */
export function normalLoss(z: number): number {
  return normalDensity(z) - z * normalBelow(-z);
}
