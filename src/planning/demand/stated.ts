import type { PlanStated } from "../../model/planning/plan-answer.ts";
import { shareNumber } from "../request/given.ts";
import type { Prepared } from "../request/prepared.ts";
import { type Demand, demandOf } from "./stated-demand.ts";

/** An offer with stated demand whose stock no other offer uses: a newsvendor problem of its own. */
export type Alone = {
  readonly offer: number;
  readonly demand: Demand;
  readonly price: number;
  readonly cost: number;
  readonly worth: number;
  readonly minimum: number;
  readonly maximum: number;
};

/** The offers that can be planned exactly, each alone. */
export function standingAlone(prepared: Prepared): Alone[] {
  const { vanLimit, restocks, costs } = prepared;
  // A least pitch fee makes every sale's worth depend on all the others.
  if (vanLimit !== Number.POSITIVE_INFINITY || restocks || costs.pitchShare.atLeast > 0) return [];
  return prepared.offers.flatMap((offer, index): Alone[] => {
    const own = prepared.products.filter((product) => product.offer === index);
    const product = own[0];
    if (offer.stated === null || product === undefined || own.length !== 1) return [];
    const others = prepared.products.filter((other) => other !== product);
    const shared = others.some(
      ({ sku, transfer }) => sku === product.sku || (transfer >= 0 && transfer === product.transfer),
    );
    const parts = [product.sku, product.transfer].flatMap((at) => prepared.stocks[at] ?? []);
    const bound = parts.some(
      ({ owned, pack, bySheet, breaks }) => owned > 0 || pack > 1 || bySheet || breaks.length > 0,
    );
    const isPressed = prepared.presses.length > 0 || prepared.spoilage > 0 || costs.wearPerPressing > 0;
    const atPress = product.transfer >= 0 && isPressed;
    if (shared || bound || atPress) return [];
    return [
      {
        offer: index,
        demand: demandOf(offer.stated, shareNumber),
        price: offer.net,
        cost: parts.reduce((sum, part) => sum + part.cost, 0),
        worth: parts.reduce((sum, part) => sum + part.worth, 0),
        minimum: Math.max(...parts.map((part) => part.minimum)),
        maximum: Math.min(...parts.map((part) => part.maximum)),
      },
    ];
  });
}

/**
 * The share of days on which the best stock is enough: margin lost by one too few over that plus the loss
 * of one too many (the newsvendor's critical ratio; Cachon & Terwiesch, Matching Supply with Demand).
 * Where money is dearer by d, the margin shrinks by d times the cost (the budget's multiplier).
 */
function criticalRatio({ price, cost, worth }: Alone, dearer: number): number {
  return (price - cost * (1 + dearer)) / (price - worth);
}

/** The best quantity before rounding. */
function bestQuantity(alone: Alone, dearer: number): number {
  const ratio = criticalRatio(alone, dearer);
  const free = ratio <= 0 ? 0 : alone.demand.quantile(Math.min(ratio, 1 - 1e-12));
  return Math.min(alone.maximum, Math.max(alone.minimum, 0, free));
}

/** Expected profit of a quantity, before fixed costs. */
export function expectedProfit({ demand, price, cost, worth }: Alone, quantity: number): number {
  const sold = demand.mean - demand.unmet(quantity);
  return price * sold + worth * (quantity - sold) - cost * quantity;
}

/** The whole number next to the best quantity that earns more, money dearer or not. */
function wholeQuantity(alone: Alone, exact: number, dearer: number): number {
  const net = (quantity: number) => expectedProfit(alone, quantity) - dearer * alone.cost * quantity;
  const down = Math.floor(exact);
  const up = Math.ceil(exact);
  return net(up) > net(down) ? up : down;
}

export function spentAlone(alone: readonly Alone[], dearer: number): number {
  return alone.reduce(
    (sum, one) => sum + one.cost * wholeQuantity(one, bestQuantity(one, dearer), dearer),
    0,
  );
}

/**
 * The extra price of money at which the exact quantities fit the budget: the multiplier of the budget constraint, by
 * bisection. 0 if the budget does not bind.
 */
export function multiplierFor(alone: readonly Alone[], budget: number): number {
  const spent = (dearer: number) => alone.reduce((sum, one) => sum + one.cost * bestQuantity(one, dearer), 0);
  if (spent(0) <= budget) return 0;
  let low = 0;
  let high = 1;
  while (spent(high) > budget && high < 1e6) high *= 2;
  for (let halving = 0; halving < 80; halving++) {
    const middle = (low + high) / 2;
    if (spent(middle) > budget) low = middle;
    else high = middle;
  }
  return high;
}

/** Whole quantities within the budget: rounded down, then the pieces that earn most for their cost. */
export function quantitiesWithin(alone: readonly Alone[], dearer: number, budget: number): number[] {
  if (dearer === 0) return alone.map((one) => wholeQuantity(one, bestQuantity(one, 0), 0));
  const quantities = alone.map((one) => Math.max(one.minimum, Math.floor(bestQuantity(one, dearer) + 1e-9)));
  let left = budget - alone.reduce((sum, one, at) => sum + one.cost * (quantities[at] ?? 0), 0);
  for (;;) {
    let best = -1;
    let most = 0;
    alone.forEach((one, at) => {
      const now = quantities[at] ?? 0;
      const earns = expectedProfit(one, now + 1) - expectedProfit(one, now);
      if (one.cost > left || now >= one.maximum || earns <= 0 || earns / one.cost <= most) return;
      most = earns / one.cost;
      best = at;
    });
    const one = alone[best];
    if (one === undefined) return quantities;
    quantities[best] = (quantities[best] ?? 0) + 1;
    left -= one.cost;
  }
}

/** The answer's line of a separately planned offer. */
export function statedLine(prepared: Prepared, alone: Alone, quantity: number, dearer: number): PlanStated {
  const unmet = alone.demand.unmet(quantity);
  const sold = alone.demand.mean - unmet;
  return {
    offer: prepared.offers[alone.offer]?.id ?? "",
    criticalRatio: criticalRatio(alone, 0),
    exactQuantity: bestQuantity(alone, dearer),
    quantity,
    outlay: Math.round(alone.cost * quantity),
    expectedSold: sold,
    expectedUnmet: unmet,
    expectedLeftOver: quantity - sold,
    oddsEnough: alone.demand.atMost(quantity),
    expectedProfit: expectedProfit(alone, quantity),
  };
}
