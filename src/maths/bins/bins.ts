/** The fewest bins that hold some weights, or the best that was found. */

import { search } from "./bin-search.ts";

/** Weights into bins of given capacities, using as few bins as can be. */
export type BinAnswer =
  | {
      readonly type: "packed";
      /** For each weight, the index of its bin in `capacities`. */
      readonly binOf: readonly number[];
      readonly used: number;
      /** No packing uses fewer bins than this; equal to `used` when the search finished. */
      readonly atLeast: number;
    }
  /** No packing exists (`proven`), or none was found within the budget. */
  | { readonly type: "impossible"; readonly proven: boolean };

const STEPS = 60_000;

/**
 * The fewest of the `capacities` that hold all `weights`: whole non-negative numbers (pick a small unit),
 * so that sums are exact. Any packing into k bins also goes into the k largest, so only those are tried.
 * Exact within a budget counted in steps; the same input always gives the same answer.
 */
export function fewestBins(
  weights: readonly number[],
  capacities: readonly number[],
  steps: number = STEPS,
): BinAnswer {
  const items = falling(weights);
  const sorted = items.map((item) => weights[item] ?? 0);
  const bins = falling(capacities);
  const rooms = bins.map((bin) => capacities[bin] ?? 0);
  if (weights.length === 0) return { type: "packed", binOf: [], used: 0, atLeast: 0 };

  let atLeast = 1;
  let proven = true;
  let left = steps;
  for (let count = 1; count <= rooms.length; count++) {
    const open = rooms.slice(0, count);
    const found = pack(sorted, open, left);
    left -= found.spent;
    if (found.type === "packed") {
      const binOf = new Array<number>(weights.length).fill(-1);
      found.binOf.forEach((bin, order) => {
        binOf[items[order] ?? -1] = bins[bin] ?? -1;
      });
      return { type: "packed", binOf, used: new Set(binOf).size, atLeast };
    }
    if (found.type === "gave-up") proven = false;
    if (proven) atLeast = count + 1;
  }
  return { type: "impossible", proven };
}

function pack(sorted: readonly number[], open: readonly number[], steps: number): ReturnType<typeof search> {
  const quick = bestFit(sorted, open);
  return quick === null ? search(sorted, open, steps) : { type: "packed", binOf: quick, spent: 0 };
}

const falling = (values: readonly number[]): number[] =>
  [...values.keys()].sort((a, b) => (values[b] ?? 0) - (values[a] ?? 0));

/** Each weight, largest first, to the bin it fills best; null when one is left without a place. */
function bestFit(weights: readonly number[], capacities: readonly number[]): number[] | null {
  const room = [...capacities];
  const places: number[] = [];
  for (const weight of weights) {
    let best = -1;
    for (let bin = 0; bin < room.length; bin++) {
      const here = room[bin] ?? 0;
      if (here >= weight && (best < 0 || here < (room[best] ?? 0))) best = bin;
    }
    if (best < 0) return null;
    room[best] = (room[best] ?? 0) - weight;
    places.push(best);
  }
  return places;
}
