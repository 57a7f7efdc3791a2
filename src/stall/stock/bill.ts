/** What an order costs. */
import type { Rules } from "../../model/menu/rules.ts";
import type { Line } from "../state/facts.ts";

const MILLION = 1_000_000;

/**
 * Sales tax of an amount in minor units at a rate in parts per million, half a minor unit and more rounded
 * up: carried to the third decimal and rounded up when that is greater than four (Streamlined Sales and
 * Use Tax Agreement, section 324). Whole numbers throughout, so that no binary fraction can tip it.
 */
export function taxOn(amount: number, partsPerMillion: number): number {
  const millionths = BigInt(amount) * BigInt(partsPerMillion);
  return Number((millionths + BigInt(MILLION / 2)) / BigInt(MILLION));
}

/** The tax and the total of some lines, rounded per garment or per order as the rules say. */
export function bill(
  lines: readonly Pick<Line, "each" | "quantity">[],
  rules: Pick<Rules, "taxBasis" | "taxPartsPerMillion">,
): { readonly tax: number; readonly total: number } {
  const net = lines.reduce((sum, line) => sum + line.each * line.quantity, 0);
  const tax =
    rules.taxBasis === "item"
      ? lines.reduce((sum, line) => sum + taxOn(line.each, rules.taxPartsPerMillion) * line.quantity, 0)
      : taxOn(net, rules.taxPartsPerMillion);
  return { tax, total: net + tax };
}
