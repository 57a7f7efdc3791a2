/** The unclaimed web orders of one address. */
import { garmentsOf, stageOf } from "../state/orders.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";

export type Unclaimed = {
  /** Garments in line. Orders that wait outside the line do not count against the address. */
  readonly garments: number;
  /** Orders placed without a token: those are all one sender's. */
  readonly keylessOrders: number;
};

/**
 * Counts the open web orders of an address, by its keyed hash, that are neither claimed nor paid. There are few: together
 * they hold a share of the stock.
 */
export function unclaimedAt({ state, people }: UnitOfWork, address: string): Unclaimed {
  let [garments, keylessOrders] = [0, 0];
  for (const { key } of state.orderIndex.unclaimed) {
    const number = Number(key);
    const at = people.atOrder(number);
    if (at.address !== address) continue;
    if (at.keyless === true) keylessOrders += 1;
    const order = state.order(number);
    if (order !== undefined && stageOf(order) !== "to-claim") garments += garmentsOf(order.lines);
  }
  return { garments, keylessOrders };
}

/** Notes which address a web order came from; erased with the people. */
export function noteAddress(
  { people }: UnitOfWork,
  number: number,
  address: string,
  isKeyless = false,
): void {
  const at = { ...people.atOrder(number), address };
  people.atOrders.set(String(number), isKeyless ? { ...at, keyless: true } : at);
}
