import type { CircuitKind, PricedKind } from "../../model/planning/power.ts";
import { gatherFaults } from "./faults.ts";
import { reader } from "./given.ts";

/** The currency of amounts if a request names none. */
export const USUAL_CURRENCY = "USD";

/** Kinds of circuit with their prices in minor units; prices that cannot be read were refused before. */
export function priced(kinds: readonly CircuitKind[], currency: string = USUAL_CURRENCY): PricedKind[] {
  const { money } = reader(currency, gatherFaults());
  return kinds.map(({ volts, breakerAmps, price }) => ({
    volts,
    breakerAmps,
    price: price === undefined ? null : money(price, []),
  }));
}
