/** What one sale leaves before its blank and transfer. */
import type { PreparedCosts } from "./prepared.ts";

/** The part of a charged price that goes to the pitch: its share of the takings before tax, refunds taken off. */
export function toPitch({ beforeTax, pitchShare, refundShare }: PreparedCosts): number {
  return pitchShare.share * beforeTax * (1 - refundShare);
}

/** The part of a charged price that is given back: the tax on it falls away, the card fee stays paid. */
export function refunded({ beforeTax, refundShare }: PreparedCosts): number {
  return refundShare * beforeTax;
}

/**
 * The profit of one sale in minor units, before blank and transfer: the price less tax, card fee, the pitch's share,
 * refunds and per-garment costs.
 */
export function netOf(price: number, costs: PreparedCosts): number {
  const kept = costs.keptShare - toPitch(costs) - refunded(costs);
  return price * kept - costs.feeEach - costs.perGarment;
}
