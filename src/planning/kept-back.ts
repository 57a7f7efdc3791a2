import type { Scenarios } from "./asks.ts";
import type { Shop } from "./shop.ts";

/** One day in this many is also lived the other way. */
const EVERY = 2;

/**
 * The scenarios, and some of them once more as a crew lives them that keeps scarce pieces for the sales
 * that earn most: its asks in the order of what they leave, not in the order they come.
 *
 * Where money is short, many stocks do about as well first come first served and differ in how well they
 * could do with foresight. Searching with both in view picks, among the first, one that is good at the second.
 */
export function withKeptBack(scenarios: Scenarios, shop: Shop): Scenarios {
  const days = Array.from({ length: scenarios.count }, (_, day) => day);
  const again = days.filter((day) => day % EVERY === 0);
  const order: number[] = [];
  const starts = [0];
  const push = (asks: readonly number[]) => {
    for (const ask of asks) order.push(ask);
    starts.push(order.length);
  };
  const asksOf = (day: number) => {
    const begin = scenarios.starts[day] ?? 0;
    return Array.from({ length: (scenarios.starts[day + 1] ?? begin) - begin }, (_, at) => begin + at);
  };
  const leaves = (ask: number) => {
    const way = shop.calm.ways[shop.calm.from[3 * (scenarios.product[ask] ?? 0)] ?? 0] ?? 0;
    return (shop.net[way] ?? 0) - (shop.worthUsed[way] ?? 0) * (1 + (scenarios.spoils[ask] ?? 0));
  };
  for (const day of days) push(asksOf(day));
  for (const day of again) push(asksOf(day).sort((a, b) => leaves(b) - leaves(a) || a - b));
  const all = [...days, ...again];
  const times = new Float32Array(order.length);
  all.forEach((day, at) => {
    // The times stay as they were: only who comes when is changed.
    times.set(scenarios.minute.subarray(scenarios.starts[day], scenarios.starts[day + 1]), starts[at]);
  });
  return {
    count: all.length,
    starts: Int32Array.from(starts),
    passersBy: Float64Array.from(all, (day) => scenarios.passersBy[day] ?? 0),
    orders: Int32Array.from(all, (day) => scenarios.orders[day] ?? 0),
    minute: times,
    product: Uint16Array.from(order, (ask) => scenarios.product[ask] ?? 0),
    reaction: Uint8Array.from(order, (ask) => scenarios.reaction[ask] ?? 0),
    patience: Float32Array.from(order, (ask) => scenarios.patience[ask] ?? 0),
    spoils: Uint8Array.from(order, (ask) => scenarios.spoils[ask] ?? 0),
    opens: Uint8Array.from(order, (ask) => scenarios.opens[ask] ?? 0),
  };
}
