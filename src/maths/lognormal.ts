/** Times that cannot be negative and are now and then long: the lognormal distribution by its moments. */

/** Mean and variance of a time, in one unit and its square. */
export type Moments = { readonly mean: number; readonly variance: number };

type Shape = { readonly mu: number; readonly sigma: number };

/** The location and scale of the logarithm, matched to the moments. */
function shapeOf({ mean, variance }: Moments): Shape {
  const square = Math.log(1 + variance / mean ** 2);
  return { mu: Math.log(mean) - square / 2, sigma: Math.sqrt(square) };
}

/** Share of the standard normal distribution below z: Abramowitz & Stegun 26.2.17, error below 7.5e-8. */
export function normalShare(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const above = (Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)) * series;
  return z >= 0 ? 1 - above : above;
}

/** The share of times of these moments that are at most `time`. */
export function shareWithin(moments: Moments, time: number): number {
  if (time <= 0) return 0;
  if (moments.variance <= 0) return time >= moments.mean ? 1 : 0;
  const { mu, sigma } = shapeOf(moments);
  return normalShare((Math.log(time) - mu) / sigma);
}

/** The remaining time, given that `elapsed` has passed. */
export function remaining(moments: Moments, elapsed: number): Moments {
  if (elapsed <= 0 || moments.variance <= 0) {
    return { mean: Math.max(moments.mean - elapsed, 0), variance: moments.variance };
  }
  const { mu, sigma } = shapeOf(moments);
  const depth = (mu - Math.log(elapsed)) / sigma;
  const longer = normalShare(depth);
  // The partial moments of a lognormal above a point: exp(k mu + k^2 sigma^2 / 2) times a normal share.
  const first = (moments.mean * normalShare(depth + sigma)) / longer;
  const second = ((moments.variance + moments.mean ** 2) * normalShare(depth + 2 * sigma)) / longer;
  return { mean: first - elapsed, variance: Math.max(0, second - first ** 2) };
}

/** The remaining time seen at a random instant: mean E[X^2] / 2E[X], second moment E[X^3] / 3E[X] (renewal theory). */
export function remainingAtRandom({ mean, variance }: Moments): Moments {
  const spread = 1 + variance / mean ** 2;
  const left = (mean * spread) / 2;
  return { mean: left, variance: (mean ** 2 * spread ** 3) / 3 - left ** 2 };
}

/**
 * The moments of the larger of two independent times, taken as normal (C. E. Clark, "The greatest of a
 * finite set of random variables", 1961; formula from memory).
 */
export function larger(one: Moments, other: Moments): Moments {
  const spread = Math.sqrt(one.variance + other.variance);
  if (spread === 0) return { mean: Math.max(one.mean, other.mean), variance: 0 };
  const apart = (one.mean - other.mean) / spread;
  const share = normalShare(apart);
  const density = Math.exp(-0.5 * apart ** 2) / Math.sqrt(2 * Math.PI);
  const mean = one.mean * share + other.mean * (1 - share) + spread * density;
  const square =
    (one.mean ** 2 + one.variance) * share +
    (other.mean ** 2 + other.variance) * (1 - share) +
    (one.mean + other.mean) * spread * density;
  return { mean, variance: Math.max(0, square - mean ** 2) };
}
