/** The price of an order and the tax in it, in whole numbers, so that no rounding of fractions can change a sum. */

import { sharedOut } from "../../model/basics/shared-out.ts";
import type { Rules } from "../../model/menu/rules.ts";
import type { Line } from "../state/shapes/line.ts";

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

type Charged = Pick<Line, "each" | "quantity" | "off" | "lowered">;

/** The price of a line's garments together, in minor units; includes the tax only if prices do. */
export const lineNet = ({ each, quantity, off = 0, lowered }: Charged): number =>
  (each - (lowered?.by ?? 0)) * quantity - off;

/** The tax and the total of some lines, rounded per garment or per order as the rules say. */
export function bill(
  lines: readonly Charged[],
  { taxBasis, taxPartsPerMillion, taxInPrice }: Pick<Rules, "taxBasis" | "taxPartsPerMillion" | "taxInPrice">,
): Sums {
  const charged = lines.reduce((sum, line) => sum + lineNet(line), 0);
  const taxOf = (amount: number): number => (taxInPrice ? taxIn : taxOn)(amount, taxPartsPerMillion);
  const tax =
    taxBasis === "item"
      ? lines.reduce(
          (sum, line) => sum + garmentPrices(line).reduce((all, price) => all + taxOf(price), 0),
          0,
        )
      : taxOf(charged);
  return taxInPrice ? { tax, total: charged, taxInPrice } : { tax, total: charged + tax };
}

/** The price of each garment of a line: garments that are alike cost alike, to the minor unit. */
const garmentPrices = (line: Charged): readonly number[] =>
  sharedOut(
    lineNet(line),
    Array.from({ length: line.quantity }, () => 1),
  );

/**
 * Each line's share of the net total (total less tax), in proportion to the lines' prices. In minor units; the shares
 * add up exactly.
 */
export const lineNets = (order: {
  readonly lines: readonly Charged[];
  readonly tax: number;
  readonly total: number;
}): readonly number[] => sharedOut(order.total - order.tax, order.lines.map(lineNet));
