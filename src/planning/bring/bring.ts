import type { Work } from "../../maths/work.ts";
import type { Scenarios } from "../demand/asks.ts";
import { type Alone, multiplierFor, quantitiesWithin, spentAlone } from "../demand/stated.ts";
import type { Prepared } from "../request/prepared.ts";
import { newTrial } from "./search/score.ts";
import { type Afforded, FULL_EFFORT, type SearchEffort, search } from "./search/search.ts";
import { openShop, type Shop, type Strategy } from "./search/shop.ts";

/** Where plans are only compared, starting from one that is known. */
export const LIGHT_EFFORT: SearchEffort = { steps: 0, passes: 3, last: 0 };

/** A shop and its most profitable stock, with the separately planned offers. */
export type Brought = {
  readonly shop: Shop;
  readonly best: Afforded;
  /** For each separately planned offer: the number to bring. */
  readonly aloneQuantities: readonly number[];
  /** The extra price of money for those. */
  readonly aloneDearer: number;
};

export type BringOptions = {
  readonly manner: Strategy;
  readonly alone: readonly Alone[];
  /** A plan to start from, if there is one. */
  readonly from?: ArrayLike<number>;
  readonly care?: SearchEffort;
  /** Counts that are fixed beforehand, by the place of their goods in the shop. */
  readonly held?: ReadonlyMap<number, number>;
  /** Products left off the menu. */
  readonly dropped?: ReadonlySet<number>;
};

/**
 * Whole numbers of everything to bring, found jointly: blanks by colour and size, transfers, and garments decorated
 * beforehand. Maximises the expected profit over the scenarios, first come first served, within budget, van, minimums,
 * maximums and packs, as far as the search gets.
 */
export function* whatToBring(prepared: Prepared, scenarios: Scenarios, options: BringOptions): Work<Brought> {
  const { alone, care = FULL_EFFORT } = options;
  yield 0;
  const open = openShop(prepared, options.manner, options.dropped);
  const shop = withHeld(withoutAlone(prepared, open, alone), options.held ?? new Map());
  const onlyAlone = alone.length > 0 && alone.length === prepared.offers.length;
  const best = yield* search(newTrial(shop, scenarios), {
    seed: prepared.request.seed,
    vanLimit: prepared.vanLimit,
    care,
    budget: (dearer) => (onlyAlone ? Number.POSITIVE_INFINITY : prepared.budget - spentAlone(alone, dearer)),
    ...(options.from === undefined ? {} : { from: options.from }),
  });
  const aloneDearer = onlyAlone ? multiplierFor(alone, prepared.budget) : best.dearer;
  const aloneBudget = onlyAlone ? prepared.budget : spentAlone(alone, aloneDearer);
  return {
    shop,
    best,
    aloneDearer,
    aloneQuantities: quantitiesWithin(alone, aloneDearer, aloneBudget),
  };
}

/** The shop without the stock of separately planned offers. */
function withoutAlone(prepared: Prepared, shop: Shop, alone: readonly Alone[]): Shop {
  const apart = new Set(alone.map(({ offer }) => offer));
  const theirs = new Set(
    prepared.products.filter(({ offer }) => apart.has(offer)).flatMap(({ sku, transfer }) => [sku, transfer]),
  );
  const goods = shop.goods.map((one, index) =>
    theirs.has(index) ? { ...one, minimum: 0, maximum: 0 } : one,
  );
  return theirs.size === 0 ? shop : { ...shop, goods };
}

/** The shop with some of its goods held at these counts. */
function withHeld(shop: Shop, held: ReadonlyMap<number, number>): Shop {
  const goods = shop.goods.map((one, index) => {
    const count = held.get(index);
    return count === undefined ? one : { ...one, minimum: count, maximum: count };
  });
  return held.size === 0 ? shop : { ...shop, goods };
}
