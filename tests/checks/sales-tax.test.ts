/**
 * Streamlined Sales and Use Tax Agreement section 324 (as enacted in R.I. Gen. Laws 44-18.1-25): computed to
 * the third decimal, rounded up when that is greater than four; by item or by invoice as the seller elects.
 * The worked amounts were recomputed from that text.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Rules } from "../../src/model/menu/rules.ts";
import type { Line } from "../../src/stall/state/shapes/line.ts";
import { bill, lineNets, taxIn, taxOn } from "../../src/stall/stock/bill.ts";

const line = (each: number, quantity: number) => ({ each, quantity }) as Line; // a bill reads nothing else
const taxOf = (each: number, quantity: number, taxPartsPerMillion: number, taxBasis: "item" | "order") =>
  bill([line(each, quantity)], Rules.parse({ taxPartsPerMillion, taxBasis })).tax;

describe("section 324", () => {
  it.each([
    [225, 3, 60_000, 42, 41],
    [750, 2, 70_000, 106, 105],
    [750, 4, 70_000, 212, 210],
    [499, 3, 72_500, 108, 109],
    [499, 4, 82_500, 164, 165],
  ])("%i cents x %i at %i millionths: %i by item, %i by order", (each, quantity, rate, item, order) => {
    expect([taxOf(each, quantity, rate, "item"), taxOf(each, quantity, rate, "order")]).toEqual([
      item,
      order,
    ]);
  });
  it("does not round twice: 22.48 at 0.6 % is 0.13", () => {
    expect(taxOn(2248, 6000)).toBe(13);
  });
  it.each([
    [275, 60_000, 17],
    [200, 72_500, 15],
    [375, 60_000, 23],
    [600, 87_500, 53],
    [1160, 87_500, 102],
  ])("%i cents at %i millionths is %i, where binary fractions say one less", (amount, rate, tax) => {
    expect(taxOn(amount, rate)).toBe(tax);
    expect(Math.round((amount / 100) * (rate / 1_000_000) * 100)).toBe(tax - 1);
  });
  it("agrees with the rule read digit by digit", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 10_000_000 }),
        fc.integer({ min: 0, max: 1_000_000 }),
        (amount, rate) => {
          // The exact product in millionths of a cent, as decimal digits; the first after the cent decides.
          const digits = String(BigInt(amount) * BigInt(rate)).padStart(7, "0");
          const cents = Number(digits.slice(0, -6));
          const third = Number(digits.at(-6));
          expect(taxOn(amount, rate)).toBe(third > 4 ? cents + 1 : cents);
        },
      ),
    );
  });
  it("comes to the same for orders of many lines, by item and by order, in big integers", () => {
    const lines = fc.array(fc.tuple(fc.integer({ min: 0, max: 99_999 }), fc.integer({ min: 0, max: 63 })), {
      maxLength: 8,
    });
    fc.assert(
      fc.property(lines, fc.integer({ min: 0, max: 300_000 }), (given, rate) => {
        // Twice the millionths of a cent, half a cent added, so that whole-number division rounds half up.
        const rounded = (amount: bigint): bigint => (2n * amount * BigInt(rate) + 1_000_000n) / 2_000_000n;
        const net = given.reduce((sum, [each, quantity]) => sum + BigInt(each) * BigInt(quantity), 0n);
        const byItem = given.reduce(
          (sum, [each, quantity]) => sum + rounded(BigInt(each)) * BigInt(quantity),
          0n,
        );
        for (const [taxBasis, tax] of [
          ["item", byItem],
          ["order", rounded(net)],
        ] as const) {
          const told = bill(
            given.map(([each, quantity]) => line(each, quantity)),
            Rules.parse({ taxPartsPerMillion: rate, taxBasis }),
          );
          expect([BigInt(told.tax), BigInt(told.total)]).toEqual([tax, net + tax]);
        }
      }),
    );
  });
});

/**
 * The VAT fraction, rate / (1 + rate): 3/23 at 15 %, 7/47 at 17.5 %, 1/6 at 20 %, with the worked sums of
 * rossmartin.co.uk, "What is the VAT fraction?" (15 April 2020): 115, 117.50 and 120 pounds; 1/21 at 5 %, with
 * 3.81 in 80 pounds and 10 in 60, of itsrelative.co.uk, "VAT fraction" (11 June 2014).
 */
describe("tax in a price", () => {
  it.each([
    [11_500, 150_000, 1500],
    [11_750, 175_000, 1750],
    [12_000, 200_000, 2000],
    [6000, 200_000, 1000],
    [8000, 50_000, 381],
  ])("%i pence at %i millionths hold %i", (amount, rate, tax) => {
    expect(taxIn(amount, rate)).toBe(tax);
  });

  const lines = fc.array(
    fc.record({ each: fc.integer({ min: 0, max: 99_999 }), quantity: fc.integer({ min: 0, max: 60 }) }),
    { minLength: 1, maxLength: 8 },
  );
  const rules = fc.record({
    taxPartsPerMillion: fc.integer({ min: 0, max: 1_000_000 }),
    taxBasis: fc.constantFrom("item" as const, "order" as const),
    taxInPrice: fc.boolean(),
  });
  it("lets the lines before tax and the tax come to the total, to the minor unit", () => {
    fc.assert(
      fc.property(lines, rules, (given, rule) => {
        const made = bill(given, rule);
        const priced = given.map(({ each, quantity }) => each * quantity);
        const nets = lineNets({ ...made, lines: given });
        expect(nets.reduce((sum, net) => sum + net, made.tax)).toBe(made.total);
        const all = priced.reduce((sum, price) => sum + price, 0);
        if (!rule.taxInPrice) expect(nets).toEqual(priced);
        else expect(made.total).toBe(all);
        // No line is more than a minor unit from its exact part.
        for (const [at, net] of nets.entries())
          if (all > 0)
            expect(Math.abs(net - ((made.total - made.tax) * (priced[at] ?? 0)) / all)).toBeLessThan(1);
      }),
    );
  });
  it("is the tax that, put on what is left, comes to the price again, to half a minor unit", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1_000_000 }),
        fc.integer({ min: 0, max: 1_000_000 }),
        (amount, rate) => {
          const before = amount - taxIn(amount, rate);
          expect(Math.abs(before * (1 + rate / 1_000_000) - amount)).toBeLessThanOrEqual(1.000_001);
        },
      ),
    );
  });
});
