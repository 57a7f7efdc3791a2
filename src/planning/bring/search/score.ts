import type { Scenarios } from "../../demand/asks.ts";
import { blankDay, liveDay } from "./day.ts";
import { asksPerGoods, type GoodsAsked } from "./first-guess.ts";
import { addSlopes, blankLedger, type Ledger, type Slopes } from "./marginal-values.ts";
import type { Goods, Shop } from "./shop.ts";

/** A shop with its scenarios and the room to live them through: made once, used for every try. */
export type Trial = {
  readonly shop: Shop;
  readonly scenarios: Scenarios;
  /** What the asks want of each kind of goods; counted once, when it is first wanted. */
  readonly wanted: () => GoodsAsked;
  /** Mean gain of these scenarios with this stock, before what the stock cost. */
  readonly gain: (stock: Int32Array, which?: Int32Array) => number;
  /** The same, with the mean worth of one more and one fewer of each kind of goods put into `slopes`. */
  readonly slopes: (stock: Int32Array, slopes: Slopes, which?: Int32Array) => number;
};

export function newTrial(shop: Shop, scenarios: Scenarios): Trial {
  const day = blankDay(shop, scenarios);
  const ledger: Ledger = blankLedger(shop);
  const every = Int32Array.from({ length: scenarios.count }, (_, index) => index);
  let wanted: GoodsAsked | null = null;
  return {
    shop,
    scenarios,
    wanted: () => {
      wanted ??= asksPerGoods(shop, scenarios);
      return wanted;
    },
    gain: (stock, which = every) => {
      let sum = 0;
      for (const scenario of which) sum += liveDay(shop, scenarios, scenario, stock, day);
      return sum / which.length;
    },
    slopes: (stock, slopes, which = every) => {
      const parts = [slopes.more, slopes.fewer, slopes.bothMore, slopes.bothFewer];
      for (const part of parts) part.fill(0);
      let sum = 0;
      for (const scenario of which) {
        sum += liveDay(shop, scenarios, scenario, stock, day);
        addSlopes(shop, scenarios, scenario, day, ledger, slopes);
      }
      for (const part of parts) {
        for (let at = 0; at < part.length; at++) part[at] = (part[at] as number) / which.length; // in range
      }
      return sum / which.length;
    },
  };
}

/** What bringing this stock costs in itself: what is lost on each piece bought, were it to come home. */
export function stake(goods: readonly Goods[], stock: ArrayLike<number>): number {
  return goods.reduce(
    (sum, one, at) => sum + Math.max(0, (stock[at] ?? 0) - one.owned) * (one.cost - one.worth),
    0,
  );
}

/** What has to be paid for this stock, beyond what is owned. */
export function outlay(goods: readonly Goods[], stock: ArrayLike<number>): number {
  return goods.reduce((sum, one, at) => sum + Math.max(0, (stock[at] ?? 0) - one.owned) * one.cost, 0);
}

/** How much of the van's limit this stock takes. */
export function vanLoad(goods: readonly Goods[], stock: ArrayLike<number>): number {
  return goods.reduce((sum, one, at) => sum + (stock[at] ?? 0) * one.vanShare, 0);
}
