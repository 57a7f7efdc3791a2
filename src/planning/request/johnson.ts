import { normalBelow, normalQuantile } from "../../maths/normal.ts";

/** A share's values that a given part of all cases stay below, half of them, and all but that part. */
export type Triplet = { readonly low: number; readonly middle: number; readonly high: number };

/** On the scale of normal quantiles, a side shorter than this part of both together is read as that long. */
const SHORTEST_SIDE = 0.2;

/**
 * The share at a standard normal value, so that `low`, `middle` and `high` (0 < low < middle < high < 1) are exactly the
 * shares that `tail`, a half and 1 - `tail` of all cases stay below: the bounded Johnson quantile-parameterised
 * distribution (C. C. Hadlock and J. E. Bickel, Decision Analysis 14, 2017, pages 35 to 64). If one side is less than
 * a quarter of the other, its point is moved out to that: the long tail would else leave every real range.
 */
export function johnsonShare({ low, middle, high }: Triplet, tail: number): (z: number) => number {
  const [given, at, last] = [normalQuantile(low), normalQuantile(middle), normalQuantile(high)];
  const least = SHORTEST_SIDE * (last - given);
  const [below, above] = [Math.max(at - given, least), Math.max(last - at, least)];
  const reach = -normalQuantile(tail);
  if (Math.abs(above - below) < 1e-9 * (above + below)) return (z) => normalBelow(at + (above * z) / reach);
  // The longer tail grows with the hyperbolic sine from the other side's point on.
  const side = above > below ? 1 : -1;
  const from = side > 0 ? at - below : at + above;
  const bend = Math.acosh((above + below) / (2 * Math.min(above, below))) / reach;
  const scale = (above + below) / Math.sinh(2 * bend * reach);
  return (z) => normalBelow(from + scale * Math.sinh(bend * (z + side * reach)));
}
