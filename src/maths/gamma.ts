/** The gamma function and the gamma distribution. */

import { standardNormal } from "./normal-draw.ts";
import type { Random } from "./random.ts";

/** Lanczos's series with g = 7 and nine terms (C. Lanczos 1964): good to about 15 digits for x > 0. */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;

/** The natural logarithm of the gamma function, for x > 0. */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const shifted = x - 1;
  let sum: number = LANCZOS[0];
  for (let term = 1; term < LANCZOS.length; term++) sum += (LANCZOS[term] ?? 0) / (shifted + term);
  const base = shifted + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(base) - base + Math.log(sum);
}

/**
 * The share of a gamma distribution of this shape and rate 1 below x: the regularised lower incomplete
 * gamma function P(shape, x). Power series below shape + 1, continued fraction above
 * (Abramowitz & Stegun 6.5.29 and 6.5.31).
 */
export function gammaBelow(shape: number, x: number): number {
  return x < shape + 1 ? lowerBySeries(shape, x) : 1 - upperByFraction(shape, x);
}

/** The probability above x, accurate also where it is tiny. */
export function gammaAbove(shape: number, x: number): number {
  return x < shape + 1 ? 1 - lowerBySeries(shape, x) : upperByFraction(shape, x);
}

function lowerBySeries(shape: number, x: number): number {
  if (x <= 0) return 0;
  let term = 1 / shape;
  let sum = term;
  for (let n = 1; n < 10_000 && Math.abs(term) > Math.abs(sum) * 1e-17; n++) {
    term *= x / (shape + n);
    sum += term;
  }
  return sum * Math.exp(shape * Math.log(x) - x - logGamma(shape));
}

function upperByFraction(shape: number, x: number): number {
  const tiny = 1e-300;
  let b = x + 1 - shape;
  let c = 1 / tiny;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < 10_000; n++) {
    const a = -n * (n - shape);
    b += 2;
    d = 1 / nonZero(a * d + b, tiny);
    c = nonZero(b + a / c, tiny);
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return fraction * Math.exp(shape * Math.log(x) - x - logGamma(shape));
}

function nonZero(value: number, tiny: number): number {
  return Math.abs(value) < tiny ? tiny : value;
}

/** The value below which the given share (0 < share < 1) of a gamma distribution lies. */
export function gammaQuantile(share: number, shape: number, rate: number): number {
  let low = 0;
  let high = shape + 10 * Math.sqrt(shape) + 10;
  while (gammaBelow(shape, high) < share) high *= 2;
  for (let step = 0; step < 200 && high - low > 1e-15 * high; step++) {
    const middle = (low + high) / 2;
    if (gammaBelow(shape, middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2 / rate;
}

/**
 * One value from a gamma distribution. Squeeze method of G. Marsaglia and W. W. Tsang, "A simple method
 * for generating gamma variables" (2000); shapes below 1 by their power of a uniform value.
 */
export function drawGamma(random: Random, shape: number, rate: number): number {
  if (shape < 1) return drawGamma(random, shape + 1, rate) * (1 - random.next()) ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const z = standardNormal(random);
    const v = (1 + c * z) ** 3;
    if (v <= 0) continue;
    const u = 1 - random.next();
    if (Math.log(u) < 0.5 * z * z + d - d * v + d * Math.log(v)) return (d * v) / rate;
  }
}
