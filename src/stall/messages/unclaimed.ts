/** What one address on the web has ordered that nobody has come for yet. */
import { garmentsOf, stageOf } from "../state/orders.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";

export type Unclaimed = {
  readonly orders: number;
  /** Those in line: what waits outside it keeps nobody else of the address out. */
  readonly garments: number;
};

/**
 * Counts the open web orders of an address, by its keyed hash, that are neither claimed nor paid. There are few: together
 * they hold a share of the stock.
 */
export function unclaimedAt({ state, people }: UnitOfWork, address: string): Unclaimed {
  let [orders, garments] = [0, 0];
  for (const { key } of state.orderIndex.unclaimed) {
    const number = Number(key);
    if (people.atOrder(number).address !== address) continue;
    const order = state.order(number);
    orders += 1;
    if (order !== undefined && stageOf(order) !== "to-claim") garments += garmentsOf(order.lines);
  }
  return { orders, garments };
}

/** Notes which address a web order came from; erased with the people. */
export function noteAddress({ people }: UnitOfWork, number: number, address: string): void {
  people.atOrders.set(String(number), { ...people.atOrder(number), address });
}
