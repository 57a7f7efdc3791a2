import type { Work } from "../../../maths/work.ts";
import type { Scenarios } from "../../demand/asks.ts";
import { blankDay, liveDay } from "./day.ts";
import { asksPerGoods, type GoodsAsked } from "./first-guess.ts";
import { addSlopes, blankLedger, type Ledger, type Slopes } from "./marginal-values.ts";
import type { Goods, Shop } from "./shop.ts";

/** Asks lived through between two steps: some milliseconds of work. */
const STEP_ASKS = 20_000;

/** A shop with its scenarios and the room to live them through: made once, used for every try. */
export type Trial = {
  readonly shop: Shop;
  readonly scenarios: Scenarios;
  /** Asks of all the scenarios together. */
  readonly asks: number;
  /** What the asks want of each kind of goods; counted once, when it is first wanted. */
  readonly wanted: () => GoodsAsked;
  /** Mean gain of these scenarios with this stock, before what the stock cost. */
  readonly gain: (stock: Int32Array) => Work<number>;
  /** The same, with the mean worth of one more and one fewer of each kind of goods put into `slopes`. */
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
    gain: (stock) => live(every, (scenario) => liveDay(shop, scenarios, scenario, stock, day)),
    slopes: function* (stock, slopes, which = every) {
      const parts = [slopes.more, slopes.fewer, slopes.bothMore, slopes.bothFewer];
      for (const part of parts) part.fill(0);
      const gain = yield* live(which, (scenario) => {
        const left = liveDay(shop, scenarios, scenario, stock, day);
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

/** What bringing this stock costs in itself: what is lost on each piece bought, were it to come home. */
export function stake(goods: readonly Goods[], stock: ArrayLike<number>): number {
  let sum = 0;
  for (let at = 0; at < goods.length; at++) {
    const one = goods[at] as Goods; // in range
    sum += Math.max(0, (stock[at] ?? 0) - one.owned) * (one.cost - one.worth);
  }
  return sum;
}

/** What has to be paid for this stock, beyond what is owned. */
export function outlay(goods: readonly Goods[], stock: ArrayLike<number>): number {
  let sum = 0;
  for (let at = 0; at < goods.length; at++) {
    const one = goods[at] as Goods; // in range
    sum += Math.max(0, (stock[at] ?? 0) - one.owned) * one.cost;
  }
  return sum;
}

/** How much of the van's limit this stock takes. */
export function vanLoad(goods: readonly Goods[], stock: ArrayLike<number>): number {
  let sum = 0;
  for (let at = 0; at < goods.length; at++) sum += (stock[at] ?? 0) * (goods[at]?.vanShare ?? 0);
  return sum;
}
