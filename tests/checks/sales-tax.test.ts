/**
 * Streamlined Sales and Use Tax Agreement section 324 (as enacted in R.I. Gen. Laws 44-18.1-25): computed to
 * the third decimal, rounded up when that is greater than four; by item or by invoice as the seller elects.
 * The worked amounts were recomputed from that text.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Rules } from "../../src/model/menu/rules.ts";
import type { Line } from "../../src/stall/state/facts.ts";
import { bill, taxOn } from "../../src/stall/stock/bill.ts";

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
