/**
 * Tax follows the price after the seller's own discount, and a bundle is taxed on what is paid for it:
 * - Minnesota Department of Revenue, "Discounts and Coupons" (revenue.state.mn.us/guide/discounts-and-coupons-1): not reimbursed
 *   by a third party, tax is charged on the sales price after the discount is subtracted; so it is for quantity discounts.
 * - University of the West of England, numeracy pages (learntech.uwe.ac.uk/numeracy, page 1653): 256 pounds, 10 % off,
 *   VAT of 17.5 %: 230.40 + 40.32 = 270.72, whichever is done first.
 * - Tolley's De Voil Indirect Tax V7.423, example 6: eleven for the price of ten is taxed on the price of the ten.
 */
import { describe, expect, it } from "vitest";
import { Bundle } from "../../src/model/menu/bundles.ts";
import { Rules } from "../../src/model/menu/rules.ts";
import type { Discount, Line } from "../../src/stall/state/shapes/line.ts";
import { bill } from "../../src/stall/stock/bill.ts";
import { priced } from "../../src/stall/stock/pricing.ts";

const line = (each: number, quantity: number) => ({ offer: "table", each, quantity }) as Line; // a price reads nothing else
const off = (partsPerMillion: number): Omit<Discount, "amount"> => ({
  by: { partsPerMillion },
  reason: "many",
});

describe("tax on a reduced price", () => {
  it.each([false, true])("256 pounds less 10 %% at 17.5 %% is 270.72, tax in the price: %s", (taxInPrice) => {
    const rules = Rules.parse({ taxPartsPerMillion: 175_000, taxInPrice });
    // With the tax in the price the 256 pounds are 300.80 on the label.
    const given = line(taxInPrice ? 30_080 : 25_600, 1);
    expect(priced({ rules }, [given], off(100_000))).toMatchObject({ tax: 4032, total: 27_072 });
  });

  it("eleven tables for the price of ten are taxed as ten", () => {
    const rules = Rules.parse({ taxPartsPerMillion: 200_000 });
    const bundle = Bundle.parse({
      id: "eleven",
      name: "11 for 10",
      price: 10 * 15_000,
      takes: [{ offers: ["table"], quantity: 11 }],
    });
    const ten = bill([line(15_000, 10)], rules);
    expect(priced({ rules, bundles: [bundle] }, [line(15_000, 11)])).toMatchObject({
      tax: ten.tax,
      total: ten.total,
      bundles: [{ times: 1, saving: 15_000 }],
    });
  });

  it("what is free costs no tax", () => {
    const rules = Rules.parse({ taxPartsPerMillion: 72_500 });
    expect(priced({ rules }, [line(2400, 2)], off(1_000_000))).toMatchObject({ tax: 0, total: 0 });
  });
});
