/** Taking money at the counter: by one tender, in parts, and with a tip. */
import fc from "fast-check";
import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { paying } from "../../src/screens/client/counter/acts.ts";
import { inParts, type Paying } from "../../src/screens/client/counter/cash.ts";
import { paidAs } from "../../src/screens/client/counter/on-order.ts";
import { Payment, type Typed } from "../../src/screens/client/counter/payment.tsx";
import { controlsIn } from "./controls.ts";

const DUE = 2574;

/** The payment tapped for $25.74, after some typing. */
function tapped(typed: Partial<Typed>, name: RegExp): readonly [how: Paying, given: number | null] {
  const taps: (readonly [Paying, number | null])[] = [];
  const view = h(Payment, {
    id: "given",
    amount: DUE,
    currency: "USD",
    typed: { given: "", tip: "", ...typed },
    busy: false,
    type: () => {},
    paid: (how, given) => taps.push([how, given]),
  });
  const control = controlsIn(view).find((one) => name.test(one.name));
  if (control === undefined) throw new Error(`nothing is called ${name} in ${renderToString(view)}`);
  control.tap();
  const [tap] = taps;
  if (tap === undefined) throw new Error(`${name} does nothing`);
  return tap;
}

describe("taking money", () => {
  it("takes some of it in cash and the rest by card in one tap", () => {
    const [how, given] = tapped({ given: "10" }, /^Rest by card: \$15\.74$/);
    expect(how).toEqual({
      tender: "card",
      parts: [
        { tender: "card", amount: 1574 },
        { tender: "cash", amount: 1000 },
      ],
    });
    expect(given).toBeNull();
    expect(paying(127, how, "2027-06-12T10:00:00Z", null)).toMatchObject({ says: "127 paid, card and cash" });
  });

  it("keeps a tip apart, and gives change only for what is left", () => {
    expect(tapped({ tip: "2" }, /^Paid: Card$/)[0]).toEqual({ tender: "card", tip: 200 });
    expect(tapped({ given: "30" }, /^Keep the change: tip \$4\.26$/)[0]).toEqual({
      tender: "cash",
      tip: 426,
    });
    expect(tapped({ tip: "2" }, /^\$30\.00 back \$2\.26$/)).toEqual([{ tender: "cash", tip: 200 }, 3000]);
    // The tip goes with the card that pays the rest.
    const [how] = tapped({ given: "10", tip: "2" }, /^Rest by card: \$17\.74$/);
    expect(how).toMatchObject({ tender: "card", tip: 200, parts: [{ amount: 1574 }, { amount: 1000 }] });
    expect(paidAs(how, "2027-06-12T10:00:00Z", { amount: DUE, currency: "USD" })).toMatchObject({
      paid: { amount: { amount: DUE } },
      tips: { amount: 200 },
    });
  });

  it("takes parts that add up to what is due", () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 100_000 }), fc.nat(), (due, some) => {
        const { parts = [] } = inParts(1 + (some % (due - 1)), due, "card", 0);
        expect(parts.every(({ amount }) => amount > 0)).toBe(true);
        expect(parts.reduce((sum, { amount }) => sum + amount, 0)).toBe(due);
      }),
    );
  });
});
