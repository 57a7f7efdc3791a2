import { normalDensity, normalQuantile } from "../../../maths/normal.ts";
import { deviation } from "../../../maths/sample.ts";
import type { Scenarios } from "../../demand/asks.ts";
import { DAY_MINUTES } from "../../request/prepared.ts";
import { REACTIONS, type Shop } from "./shop.ts";

/** Where the search starts, how far it may go, and how long its steps are, per kind of goods. */
export type FirstGuess = {
  readonly stock: Float64Array;
  readonly lowest: Float64Array;
  readonly highest: Float64Array;
  /** Pieces to move for each minor unit of slope: the inverse of the newsvendor's curvature. */
  readonly stride: Float64Array;
};

/** The requests for each kind of goods, whatever the price of money. */
export type GoodsAsked = {
  readonly days: number;
  /** Per goods and day, the asks whose first choice would use it; sorted within each kind of goods. */
  readonly sorted: Float32Array;
  readonly deviation: Float64Array;
  /** Per goods: what a sale leaves on average after the cost of the partner. */
  readonly margin: Float64Array;
};

/** A kind of goods asked for this seldom still moves by whole pieces. */
const LEAST_DEVIATION = 0.6;
const LEAST_DENSITY = 0.15;

/**
 * Each kind of goods planned alone: the newsvendor's quantity for the requests that would use it, its margin after the
 * partner's cost. Never more than the busiest scenario could use, or the maximum.
 */
export function firstGuess(shop: Shop, wanted: GoodsAsked, dearer: number): FirstGuess {
  const count = shop.goods.length;
  const guess: FirstGuess = {
    stock: new Float64Array(count),
    lowest: new Float64Array(count),
    highest: new Float64Array(count),
    stride: new Float64Array(count),
  };
  shop.goods.forEach((one, at) => {
    const mine = wanted.sorted.subarray(at * wanted.days, (at + 1) * wanted.days);
    const cost = one.cost - one.worth + dearer * one.cost;
    const worth = Math.max(wanted.margin[at] ?? 0, 1);
    const ratio = Math.min(0.995, Math.max(0.02, (worth - cost) / worth));
    const lowest = one.minimum;
    const highest = Math.max(lowest, Math.min(one.maximum, mine.at(-1) ?? 0));
    const density = Math.max(LEAST_DENSITY, normalDensity(normalQuantile(ratio)));
    const enough = worth <= cost ? 0 : (mine[Math.round(ratio * (mine.length - 1))] ?? 0);
    guess.lowest[at] = lowest;
    guess.highest[at] = highest;
    guess.stock[at] = Math.min(highest, Math.max(lowest, enough));
    guess.stride[at] = Math.max(LEAST_DEVIATION, wanted.deviation[at] ?? 0) / (density * worth);
  });
  return guess;
}

/** Counts what the asks of the scenarios want of each kind of goods. */
export function asksPerGoods(shop: Shop, scenarios: Scenarios): GoodsAsked {
  const { goods, first, second } = shop;
  // With restocking, the stock has to last for a day and not for the fair.
  const parts = shop.restocks ? shop.days : 1;
  const days = scenarios.count * parts;
  const sorted = new Float32Array(goods.length * days);
  const sum = new Float64Array(goods.length);
  const uses = new Float64Array(goods.length);
  const sunk = Float64Array.from(goods, ({ cost, worth }) => cost - worth);
  const { from, ways } = shop.calm;
  const count = (one: number, day: number, need: number, gain: number) => {
    sorted[one * days + day] = (sorted[one * days + day] as number) + need; // in range
    sum[one] = (sum[one] as number) + gain;
    uses[one] = (uses[one] as number) + 1;
  };
  for (let scenario = 0; scenario < scenarios.count; scenario++) {
    const end = scenarios.starts[scenario + 1] ?? 0;
    for (let ask = scenarios.starts[scenario] ?? 0; ask < end; ask++) {
      const today = parts > 1 ? Math.floor((scenarios.minute[ask] as number) / DAY_MINUTES) : 0; // in range
      const day = scenario * parts + today;
      const list = REACTIONS * (scenarios.product[ask] as number); // in range
      const last = from[list + 1] as number; // lists are built for every product
      // All the ways to make the product itself: in a mixed shop it may be pressed or ready-made.
      for (let at = from[list] as number; at < last; at++) {
        const way = ways[at] as number; // in range
        const need = shop.spoils[way] ? 1 + (scenarios.spoils[ask] as number) : 1;
        const a = first[way] as number; // one entry a way
        const b = second[way] as number; // -1 or goods
        const gain = (shop.net[way] as number) - (shop.worthUsed[way] as number);
        count(a, day, need, b < 0 ? gain : gain - (sunk[b] as number));
        if (b >= 0) count(b, day, need, gain - (sunk[a] as number));
      }
    }
  }
  const spread = new Float64Array(goods.length);
  for (let one = 0; one < goods.length; one++) {
    const mine = sorted.subarray(one * days, (one + 1) * days).sort();
    spread[one] = deviation(mine);
  }
  return {
    days,
    sorted,
    deviation: spread,
    margin: sum.map((total, at) => total / Math.max(1, uses[at] ?? 0)),
  };
}
