import { normalDensity, normalQuantile } from "../../../maths/normal.ts";
import { deviation, sampleQuantiles } from "../../../maths/sample.ts";
import type { Scenarios } from "../../demand/asks.ts";
import type { Shop } from "./shop.ts";

/** Where the search starts, how far it may go, and how long its steps are, per kind of goods. */
export type FirstGuess = {
  readonly stock: Float64Array;
  readonly lowest: Float64Array;
  readonly highest: Float64Array;
  /** Pieces to move for each minor unit of slope: the inverse of the newsvendor's curvature. */
  readonly stride: Float64Array;
};

export type GoodsAsked = { readonly asked: Float32Array; readonly margin: Float64Array };

/** A kind of goods asked for this seldom still moves by whole pieces. */
const LEAST_DEVIATION = 0.6;
const LEAST_DENSITY = 0.15;

/**
 * Each kind of goods as if it were alone: the newsvendor's quantity for the asks that would use it, its
 * margin after the partner's cost. Never more than the busiest scenario could use, or the maximum.
 */
export function firstGuess(
  shop: Shop,
  scenarios: Scenarios,
  dearer: number,
  { asked, margin }: GoodsAsked = asksPerGoods(shop, scenarios),
): FirstGuess {
  const count = shop.goods.length;
  const guess: FirstGuess = {
    stock: new Float64Array(count),
    lowest: new Float64Array(count),
    highest: new Float64Array(count),
    stride: new Float64Array(count),
  };
  shop.goods.forEach((one, at) => {
    const mine = asked.subarray(at * scenarios.count, (at + 1) * scenarios.count);
    const cost = one.cost - one.worth + dearer * one.cost;
    const worth = Math.max(margin[at] ?? 0, 1);
    const ratio = Math.min(0.995, Math.max(0.02, (worth - cost) / worth));
    const most = mine.reduce((top, value) => Math.max(top, value), 0);
    const lowest = one.minimum;
    const highest = Math.max(lowest, Math.min(one.maximum, Math.max(most, 0)));
    const density = Math.max(LEAST_DENSITY, normalDensity(normalQuantile(ratio)));
    guess.lowest[at] = lowest;
    guess.highest[at] = highest;
    guess.stock[at] = Math.min(
      highest,
      Math.max(lowest, worth <= cost ? 0 : (sampleQuantiles(mine, [ratio])[0] ?? 0)),
    );
    guess.stride[at] = Math.max(LEAST_DEVIATION, deviation(mine)) / (density * worth);
  });
  return guess;
}

/** Per goods and scenario, the asks whose first choice would use it; and per goods the mean margin of those. */
export function asksPerGoods(shop: Shop, scenarios: Scenarios): GoodsAsked {
  const count = shop.goods.length;
  const asked = new Float32Array(count * scenarios.count);
  const sum = new Float64Array(count);
  const uses = new Float64Array(count);
  const sunk = (goods: number) =>
    goods < 0 ? 0 : (shop.goods[goods]?.cost ?? 0) - (shop.goods[goods]?.worth ?? 0);
  const { from, ways } = shop.calm;
  for (let scenario = 0; scenario < scenarios.count; scenario++) {
    const end = scenarios.starts[scenario + 1] ?? 0;
    for (let ask = scenarios.starts[scenario] ?? 0; ask < end; ask++) {
      const list = 3 * (scenarios.product[ask] ?? 0);
      // All the ways to make the product itself: in a mixed shop it may be pressed or ready-made.
      for (let at = from[list] ?? 0; at < (from[list + 1] ?? 0); at++) {
        const way = ways[at] ?? 0;
        const need = shop.spoils[way] ? 1 + (scenarios.spoils[ask] ?? 0) : 1;
        const a = shop.first[way] ?? 0;
        const b = shop.second[way] ?? -1;
        const gain = (shop.net[way] ?? 0) - (shop.worthUsed[way] ?? 0);
        for (const [goods, partner] of [
          [a, b],
          [b, a],
        ] as const) {
          if (goods < 0) continue;
          asked[goods * scenarios.count + scenario] = (asked[goods * scenarios.count + scenario] ?? 0) + need;
          sum[goods] = (sum[goods] ?? 0) + gain - sunk(partner);
          uses[goods] = (uses[goods] ?? 0) + 1;
        }
      }
    }
  }
  return { asked, margin: sum.map((total, at) => total / Math.max(1, uses[at] ?? 0)) };
}
