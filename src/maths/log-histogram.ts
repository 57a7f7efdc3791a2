/**
 * A histogram whose bins grow by a fixed factor, so that two of them can be added and any quantile read
 * off within a fixed relative error: half a bin, 2.5 % of the value, above one unit.
 */
export type LogHistogram = Readonly<Record<string, number>>;

const GROWTH = 1.05;
const LOG_GROWTH = Math.log(GROWTH);

/** The largest relative error of a quantile of values of at least 1. */
export const RELATIVE_ERROR = Math.sqrt(GROWTH) - 1;

/** The histogram with a value put in (or, with -1, taken out again); values under 1 count as 1. */
export function withValue(histogram: LogHistogram, value: number, times: 1 | -1 = 1): LogHistogram {
  const bin = String(Math.floor(Math.log(Math.max(value, 1)) / LOG_GROWTH));
  const { [bin]: before = 0, ...others } = histogram;
  const count = before + times;
  return count === 0 ? others : { ...others, [bin]: count };
}

/** Adds a histogram to a sum of some, which is changed in place. */
export function mergeInto(sum: Record<string, number>, more: LogHistogram): void {
  // Not Object.entries: tens of thousands of these are added up for one look at a large fair.
  for (const bin in more) sum[bin] = (sum[bin] ?? 0) + (more[bin] ?? 0);
}

/** The value below which the given share of the values lies (nearest rank); null if there are none. */
export function quantile(histogram: LogHistogram, share: number): number | null {
  const bins = Object.entries(histogram)
    .map(([bin, count]) => [Number(bin), count] as const)
    .sort(([one], [other]) => one - other);
  const total = bins.reduce((sum, [, count]) => sum + count, 0);
  if (total === 0) return null;
  const rank = Math.max(1, Math.ceil(share * total));
  let passed = 0;
  for (const [bin, count] of bins) {
    passed += count;
    // The geometric middle of the bin is off by at most half a bin either way.
    if (passed >= rank) return Math.exp((bin + 0.5) * LOG_GROWTH);
  }
  return null;
}
