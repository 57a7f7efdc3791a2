import type { Work } from "../../../maths/work.ts";
import type { Scenarios } from "../../demand/asks.ts";
import { priceOfAll } from "../../request/price.ts";
import { blankDay, simulateDay } from "./day.ts";
import { asksPerGoods, type GoodsAsked } from "./first-guess.ts";
import { addSlopes, blankLedger, type Ledger, type Slopes } from "./marginal-values.ts";
import type { Goods, Shop } from "./shop.ts";

/** Requests simulated between two steps: some milliseconds of work. */
const STEP_ASKS = 20_000;

/** A shop with its scenarios and the room to live them through: made once, used for every try. */
export type Trial = {
  readonly shop: Shop;
  readonly scenarios: Scenarios;
  /** Asks of all the scenarios together. */
  readonly asks: number;
  /** The requests for each kind of goods, counted at first use. */
  readonly wanted: () => GoodsAsked;
  /** Mean gain of these scenarios with this stock, before what the stock cost. */
  readonly gain: (stock: Int32Array) => Work<number>;
  /** Like `score`, and writes the mean value of one more and one fewer of each kind of goods into `slopes`. */
  readonly slopes: (stock: Int32Array, slopes: Slopes, which?: Int32Array) => Work<number>;
};

export function newTrial(shop: Shop, scenarios: Scenarios): Trial {
  const day = blankDay(shop, scenarios);
  const ledger: Ledger = blankLedger(shop);
  const every = Int32Array.from({ length: scenarios.count }, (_, index) => index);
  let wanted: GoodsAsked | null = null;
  let lived = 0;
  const live = function* (which: Int32Array, liveOne: (scenario: number) => number): Work<number> {
    let sum = 0;
    for (const scenario of which) {
      sum += liveOne(scenario);
      lived += (scenarios.starts[scenario + 1] ?? 0) - (scenarios.starts[scenario] ?? 0);
      if (lived < STEP_ASKS) continue;
      yield lived;
      lived = 0;
    }
    return sum / which.length;
  };
  return {
    shop,
    scenarios,
    asks: scenarios.starts[scenarios.count] ?? 0,
    wanted: () => {
      wanted ??= asksPerGoods(shop, scenarios);
      return wanted;
    },
    gain: (stock) => live(every, (scenario) => simulateDay(shop, scenarios, scenario, stock, day)),
    slopes: function* (stock, slopes, which = every) {
      const parts = [slopes.more, slopes.fewer, slopes.bothMore, slopes.bothFewer];
      for (const part of parts) part.fill(0);
      const gain = yield* live(which, (scenario) => {
        const left = simulateDay(shop, scenarios, scenario, stock, day);
        addSlopes(shop, scenarios, scenario, day, ledger, slopes);
        return left;
      });
      for (const part of parts) {
        for (let at = 0; at < part.length; at++) part[at] = (part[at] as number) / which.length; // in range
      }
      return gain;
    },
  };
}

export type Paid = { readonly outlay: number; readonly stake: number };

/** Whole pieces of a sum of parts, minus a small tolerance, so that rounding errors buy no pack. */
const HAIR = 1e-9;

/**
 * The cost of this stock. Outlay: the price of its shopping list, whole packs of every blank and transfer beyond what
 * is owned, including those of garments decorated beforehand. Stake: the part of that which is lost if everything comes
 * home, and the work on decorated garments.
 */
export function paidFor(goods: readonly Goods[], stock: ArrayLike<number>): Paid {
  let outlay = 0;
  let stake = 0;
  const needs = new Map<number, { readonly part: Bought; pieces: number }>();
  for (let at = 0; at < goods.length; at++) {
    const { made, worth, owned } = goods[at] as Goods; // in range
    const count = Math.max(0, (stock[at] ?? 0) - owned);
    if (made === undefined || count === 0) continue;
    stake += count * (made.work - worth);
    for (const { at: item, stock: part, pieces } of made.parts) {
      stake += count * pieces * part.worth;
      const need = needs.get(item);
      if (need === undefined) needs.set(item, { part, pieces: count * pieces });
      else need.pieces += count * pieces;
    }
  }
  const buy = (one: Bought, pieces: number) => {
    const price = priceOfAll(one, pieces);
    outlay += price;
    stake += price - pieces * one.worth;
  };
  for (let at = 0; at < goods.length; at++) {
    const one = goods[at] as Goods; // in range
    if (one.made !== undefined) break; // decorated garments come last
    const need = needs.get(at);
    if (need === undefined) buy(one, Math.max(0, (stock[at] ?? 0) - one.owned));
    else need.pieces += stock[at] ?? 0;
  }
  for (const { part, pieces } of needs.values()) {
    const short = Math.max(0, Math.ceil(pieces - HAIR) - part.owned);
    buy(part, Math.ceil(short / part.pack) * part.pack);
  }
  return { outlay, stake };
}

type Bought = Pick<Goods, "cost" | "breaks" | "worth" | "owned" | "pack">;

/** The cost of bringing this stock: the loss on each bought piece if it came home. */
export const stake = (goods: readonly Goods[], stock: ArrayLike<number>): number =>
  paidFor(goods, stock).stake;

/** The price of this stock beyond what is owned. */
export const outlay = (goods: readonly Goods[], stock: ArrayLike<number>): number =>
  paidFor(goods, stock).outlay;

/** The part of the van's limit that this stock takes. */
export function vanLoad(goods: readonly Goods[], stock: ArrayLike<number>): number {
  let sum = 0;
  for (let at = 0; at < goods.length; at++) sum += (stock[at] ?? 0) * (goods[at]?.vanShare ?? 0);
  return sum;
}
