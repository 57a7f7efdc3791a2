/** The share of passers-by who buy, uncertain: equally likely values, in rising order. */

import { normalDensity } from "../../maths/normal.ts";
import { deviation, mean } from "../../maths/sample.ts";
import type { GivenRange } from "./given.ts";
import { johnsonShare } from "./johnson.ts";

/** Low and high are 5 and 95 % points. */
const TAIL = 0.05;
const VALUES = 1000;
/** The grid of standard normal values that the share is weighed on. */
const [FARTHEST, STEP] = [6, 0.01];
const [LEAST, MOST] = [1e-7, 0.999];
/** A low figure below this part of the likely one is read as this, so that the tail stays within reason. */
const LEAST_LOW = 0.02;

/** Orders counted among passers-by; `orders` may be fewer than were counted, if the crowd was only guessed. */
export type Counted = { readonly orders: number; readonly passersBy: number };

/**
 * The share who buy by the three figures given, sharpened by what was counted: Bayes' rule on a grid, with orders as
 * Poisson counts.
 */
export function buyingRate({ low, likely, high }: GivenRange, counted: readonly Counted[]): Float64Array {
  const middle = Math.min(MOST / 1.01, Math.max(LEAST, likely));
  const share = johnsonShare(
    {
      low: Math.min(middle / 1.0001, Math.max(low, middle * LEAST_LOW)),
      middle,
      high: Math.max(middle * 1.0001, Math.min(high, MOST)),
    },
    TAIL,
  );
  const count = Math.round((2 * FARTHEST) / STEP) + 1;
  const zs = Float64Array.from({ length: count }, (_, at) => at * STEP - FARTHEST);
  const logs = zs.map((z) => {
    const rate = Math.max(1e-300, share(z));
    return counted.reduce(
      (sum, { orders, passersBy }) => sum + orders * Math.log(rate) - passersBy * rate,
      Math.log(normalDensity(z)),
    );
  });
  const top = Math.max(...logs);
  // Cumulative weights between the grid's points by the trapezoidal rule.
  const upTo = new Float64Array(count);
  for (let at = 1; at < count; at++) {
    const pair = Math.exp((logs[at - 1] ?? 0) - top) + Math.exp((logs[at] ?? 0) - top);
    upTo[at] = (upTo[at - 1] ?? 0) + pair / 2;
  }
  const whole = upTo[count - 1] ?? 1;
  let at = 1;
  return Float64Array.from({ length: VALUES }, (_, nth) => {
    const wanted = ((nth + 0.5) / VALUES) * whole;
    while (at < count - 1 && (upTo[at] ?? 0) < wanted) at++;
    const [before, after] = [upTo[at - 1] ?? 0, upTo[at] ?? 0];
    const part = after > before ? (wanted - before) / (after - before) : 0;
    return share((zs[at - 1] ?? 0) + part * STEP);
  });
}

/** The usual share as that of the next fair, which strays from it: the logarithms' deviation grows to `strays`. */
export function spreadOut(rates: Float64Array, strays: number): Float64Array {
  const logs = rates.map(Math.log);
  const middle = mean(logs);
  const times = Math.max(1, strays / Math.max(1e-9, deviation(logs)));
  return logs.map((log) => Math.min(MOST, Math.exp(middle + times * (log - middle))));
}

/** The rate that this part of all cases stay below, between the equally likely values. */
export function rateAt(rates: Float64Array, part: number): number {
  const place = Math.min(rates.length - 1, Math.max(0, part * rates.length - 0.5));
  const below = Math.floor(place);
  const low = rates[below] ?? 0;
  return low + (place - below) * ((rates[below + 1] ?? low) - low);
}
