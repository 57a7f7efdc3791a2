/** The arithmetic mean of a sample; 0 for an empty one. */
export function mean(values: ArrayLike<number>): number {
  let sum = 0;
  for (let index = 0; index < values.length; index++) sum += values[index] ?? 0;
  return values.length === 0 ? 0 : sum / values.length;
}

/** The standard deviation of a sample, with n - 1 below. */
export function deviation(values: ArrayLike<number>): number {
  const middle = mean(values);
  let sum = 0;
  for (let index = 0; index < values.length; index++) sum += ((values[index] ?? 0) - middle) ** 2;
  return values.length < 2 ? 0 : Math.sqrt(sum / (values.length - 1));
}

/**
 * The value at each share of the sample, interpolated between the two nearest (definition 7 of
 * R. J. Hyndman and Y. Fan, "Sample quantiles in statistical packages", 1996).
 */
export function sampleQuantiles(values: ArrayLike<number>, shares: readonly number[]): number[] {
  const sorted = Float64Array.from(values).sort();
  return shares.map((share) => {
    const place = share * (sorted.length - 1);
    const below = Math.floor(place);
    const low = sorted[below] ?? 0;
    return low + (place - below) * ((sorted[below + 1] ?? low) - low);
  });
}
