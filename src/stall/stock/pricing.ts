/** The price of an order: its garments, the best bundles, the crew's discount, and the tax on the rest. */
import { sharedOut } from "../../model/basics/shared-out.ts";
import type { Bundle } from "../../model/menu/bundles.ts";
import type { Rules } from "../../model/menu/rules.ts";
import type { BundleUse, Discount, Line } from "../state/shapes/line.ts";
import { bill, lineNet, type Sums, taxOn } from "./bill.ts";
import { bundled } from "./bundles.ts";

/** Lines with what each costs less, the bundles and the discount that this comes from, and the sums. */
export type OrderPrice<L> = Sums & {
  readonly lines: readonly L[];
  readonly bundles?: readonly BundleUse[];
  readonly discount?: Discount;
};

type Priced = Pick<Line, "offer" | "each" | "quantity" | "extra" | "own" | "lowered" | "off">;
type Selling = {
  readonly bundles?: readonly Bundle[] | undefined;
  readonly rules: Pick<Rules, "taxBasis" | "taxPartsPerMillion" | "taxInPrice">;
};

/** The amount of a discount on a price, both in minor units: as given, or its share of it, half a unit rounded up. */
export const discountOn = (price: number, by: Discount["by"]): number =>
  "amount" in by ? by.amount : taxOn(price, by.partsPerMillion);

/** What a garment of this price costs less as a second, in minor units: by the stall's rule, and never more than the price. */
export const secondLess = (
  {
    secondsAmountOff,
    secondsPartsPerMillionOff = 0,
  }: Pick<Rules, "secondsAmountOff" | "secondsPartsPerMillionOff">,
  each: number,
): number => Math.min(each, secondsAmountOff ?? taxOn(each, secondsPartsPerMillionOff));

/**
 * Prices some lines: the bundles that save most, then the discount (never more than the rest), shared over the lines by
 * their price after bundles; then the tax of the reduced price. All in minor units; they add up exactly.
 */
export function priced<L extends Priced>(
  { bundles = [], rules }: Selling,
  lines: readonly L[],
  discount?: Omit<Discount, "amount">,
): OrderPrice<L> {
  const { uses, offs } = bundled(bundles, lines);
  const together = withOffs(lines, offs);
  const before = together.reduce((sum, line) => sum + lineNet(line), 0);
  const amount = discount === undefined ? 0 : Math.min(before, discountOn(before, discount.by));
  const shares = sharedOut(amount, together.map(lineNet));
  const reduced = withOffs(
    lines,
    offs.map((off, at) => off + (shares[at] ?? 0)),
  );
  return {
    lines: reduced,
    ...bill(reduced, rules),
    ...(uses.length === 0 ? {} : { bundles: uses }),
    ...(discount === undefined ? {} : { discount: { ...discount, amount } }),
  };
}

/** The lines with what each costs less; one that costs nothing less is left as it is. */
const withOffs = <L extends Priced>(lines: readonly L[], offs: readonly number[]): readonly L[] =>
  lines.map((line, at) => {
    const off = offs[at] ?? 0;
    const { off: _, ...plain } = line;
    return (off === 0 ? plain : { ...plain, off }) as L; // a line of the same kind, without what may be absent
  });
