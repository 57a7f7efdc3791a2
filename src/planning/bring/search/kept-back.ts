import type { Scenarios } from "../../demand/asks.ts";
import type { Shop } from "./shop.ts";

/** One day in this many is also simulated the other way. */
const EVERY = 2;

/**
 * The scenarios, and some of them once more as a crew lives them that keeps scarce pieces for the sales
 * that earn most: its asks in the order of what they leave, not in the order they come.
 *
 * Where money is short, many stocks do about as well first come first served and differ in how well they
 * could do with foresight. Searching with both in view picks, among the first, one that is good at the second.
 */
export function withKeptBack(scenarios: Scenarios, shop: Shop): Scenarios {
  const { starts, count } = scenarios;
  const again = Math.ceil(count / EVERY);
  const asks = starts[count] ?? 0;
  let room = asks;
  for (let at = 0; at < again; at++) room += (starts[at * EVERY + 1] ?? 0) - (starts[at * EVERY] ?? 0);
  const order = new Int32Array(room);
  const minute = new Float32Array(room);
  const allStarts = new Int32Array(count + again + 1);
  for (let ask = 0; ask < asks; ask++) order[ask] = ask;
  minute.set(scenarios.minute.subarray(0, asks));
  allStarts.set(starts.subarray(0, count + 1));

  const ranks = ranksOf(shop);
  const next = new Int32Array(ranks.length + 1);
  let filled = asks;
  for (let at = 0; at < again; at++) {
    const begin = starts[at * EVERY] ?? 0;
    const end = starts[at * EVERY + 1] ?? begin;
    // Sorting by counting: how many asks of better ranks come before the first of each.
    next.fill(0);
    for (let ask = begin; ask < end; ask++) {
      const above = (ranks[scenarios.product[ask] ?? 0] ?? 0) + 1;
      next[above] = (next[above] ?? 0) + 1;
    }
    for (let rank = 1; rank < next.length; rank++) next[rank] = (next[rank] ?? 0) + (next[rank - 1] ?? 0);
    for (let ask = begin; ask < end; ask++) {
      const rank = ranks[scenarios.product[ask] ?? 0] ?? 0;
      order[filled + (next[rank] ?? 0)] = ask;
      next[rank] = (next[rank] ?? 0) + 1;
    }
    // The times stay as they were: only who comes when is changed.
    minute.set(scenarios.minute.subarray(begin, end), filled);
    filled += end - begin;
    allStarts[count + at + 1] = filled;
  }
  const twice = (from: Float64Array | Int32Array) =>
    Array.from({ length: count + again }, (_, at) => from[at < count ? at : (at - count) * EVERY] ?? 0);
  return {
    count: count + again,
    starts: allStarts,
    passersBy: Float64Array.from(twice(scenarios.passersBy)),
    orders: Int32Array.from(twice(scenarios.orders)),
    minute,
    product: picked(scenarios.product, order, new Uint16Array(room)),
    reaction: picked(scenarios.reaction, order, new Uint8Array(room)),
    patience: picked(scenarios.patience, order, new Float32Array(room)),
    spoils: picked(scenarios.spoils, order, new Uint8Array(room)),
    opens: picked(scenarios.opens, order, new Uint8Array(room)),
  };
}

/** Per product its place when all are put in the order of what a sale leaves, the most first. */
function ranksOf(shop: Shop): Int32Array {
  const products = (shop.calm.from.length - 1) / 3;
  const leaves = Float64Array.from({ length: products }, (_, product) => {
    const way = shop.calm.ways[shop.calm.from[3 * product] ?? 0] ?? 0;
    return (shop.net[way] ?? 0) - (shop.worthUsed[way] ?? 0);
  });
  const order = Array.from(leaves.keys()).sort((a, b) => (leaves[b] ?? 0) - (leaves[a] ?? 0) || a - b);
  const ranks = new Int32Array(products);
  order.forEach((product, rank) => {
    ranks[product] = rank;
  });
  return ranks;
}

type Numbers = Uint16Array | Uint8Array | Float32Array;

function picked<Kind extends Numbers>(from: Kind, order: Int32Array, into: Kind): Kind {
  for (let at = 0; at < order.length; at++) into[at] = from[order[at] ?? 0] ?? 0;
  return into;
}
