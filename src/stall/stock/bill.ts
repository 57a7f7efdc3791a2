/** What an order costs, and the tax in it. Whole numbers throughout, so that no binary fraction can tip a sum. */
import type { Rules } from "../../model/menu/rules.ts";
import type { Line } from "../state/facts.ts";
import { sharedOut } from "./shared-out.ts";

const MILLION = 1_000_000;

/** An order's sums in minor units; `taxInPrice` if its prices include the tax, else tax is on top of them. */
export type Sums = { readonly tax: number; readonly total: number; readonly taxInPrice?: true };

/** `part / whole` of an amount, half a minor unit and more rounded up. */
function share(amount: number, part: number, whole: number): number {
  const twice = 2n * BigInt(amount) * BigInt(part) + BigInt(whole);
  return Number(twice / (2n * BigInt(whole)));
}

/**
 * Sales tax of an amount in minor units at a rate in parts per million, half a minor unit and more rounded
 * up: carried to the third decimal and rounded up when that is greater than four (Streamlined Sales and
 * Use Tax Agreement, section 324).
 */
export const taxOn = (amount: number, partsPerMillion: number): number =>
  share(amount, partsPerMillion, MILLION);

/**
 * The tax in an amount that includes it: rate / (1 + rate) of it, the "VAT fraction", rounded as `taxOn`.
 * Amounts in minor units, the rate in parts per million.
 */
export const taxIn = (amount: number, partsPerMillion: number): number =>
  share(amount, partsPerMillion, MILLION + partsPerMillion);

/** The tax and the total of some lines, rounded per garment or per order as the rules say. */
export function bill(
  lines: readonly Pick<Line, "each" | "quantity">[],
  { taxBasis, taxPartsPerMillion, taxInPrice }: Pick<Rules, "taxBasis" | "taxPartsPerMillion" | "taxInPrice">,
): Sums {
  const priced = lines.reduce((sum, line) => sum + line.each * line.quantity, 0);
  const taxOf = (amount: number): number => (taxInPrice ? taxIn : taxOn)(amount, taxPartsPerMillion);
  const tax =
    taxBasis === "item"
      ? lines.reduce((sum, line) => sum + taxOf(line.each) * line.quantity, 0)
      : taxOf(priced);
  return taxInPrice ? { tax, total: priced, taxInPrice } : { tax, total: priced + tax };
}

/**
 * What each line of an order brought before tax, in minor units: parts of the total less the tax, in
 * proportion to the lines' prices. They add up to it exactly.
 */
export const lineNets = (order: {
  readonly lines: readonly Pick<Line, "each" | "quantity">[];
  readonly tax: number;
  readonly total: number;
}): readonly number[] =>
  sharedOut(
    order.total - order.tax,
    order.lines.map(({ each, quantity }) => each * quantity),
  );
