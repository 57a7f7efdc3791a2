import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { segments } from "../../src/chat/fitting/segments.ts";
import { Menu } from "../../src/model/menu/catalogue.ts";
import { paymentLink, plainSum } from "../../src/model/menu/payment-link.ts";
import { Rules } from "../../src/model/menu/rules.ts";
import { texter } from "../chat/customer.ts";
import { exampleMenu } from "../chat/example.ts";
import { openShop } from "../chat/stall.ts";

const LINK = "https://pay.example/tern?o={order}&a={amount}";

const withRules = (rules: object): Menu => {
  const menu = exampleMenu();
  return Menu.parse({ ...menu, rules: { ...menu.rules, ...rules } });
};

describe("a payment link", () => {
  it("has its slots filled, the sum with the currency's own digits", () => {
    expect(paymentLink(LINK, { order: 127, minorUnits: 2574, currency: "USD" })).toBe(
      "https://pay.example/tern?o=127&a=25.74",
    );
    expect(
      paymentLink("https://pay.example/{order}/{amount}/{currency}", {
        order: 101,
        minorUnits: 5,
        currency: "EUR",
      }),
    ).toBe("https://pay.example/101/0.05/EUR");
    // ISO 4217 gives the yen no minor unit.
    expect(plainSum(2400, "JPY")).toBe("2400");
  });

  it("says any sum so that it reads back as the very same minor units", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000_000 }), (sum) => {
        expect(BigInt(plainSum(sum, "USD").replace(".", ""))).toBe(BigInt(sum));
      }),
    );
  });

  it.each([
    "http://pay.example/{order}",
    "https://pay.example/tern",
    "https://pay.example/{order}/{name}",
    "https://{order}.example/pay",
    "https://someone@pay.example/{order}",
    "https://pay.example/{order} now",
    "https://pay.example/{order}/}",
    "javascript:alert({order})",
    `https://pay.example/${"a".repeat(120)}{order}`,
  ])("is refused as %s", (paymentLink) => {
    expect(Rules.safeParse({ paymentLink }).success).toBe(false);
  });

  it("stands in the text that confirms an order, in one or two messages, if payments are noted", () => {
    for (const payment of ["before-pressing", "before-handover"]) {
      const shop = openShop(withRules({ paymentLink: LINK, payment }));
      const reply = texter(shop).text("1 navy L", "yes");
      const total = shop.state.order(101)?.total ?? 0;
      expect(reply).toMatch(/Pay here: https:\S+$/);
      const url = new URL(reply.split(" ").at(-1) ?? "");
      expect([url.searchParams.get("o"), url.searchParams.get("a")]).toEqual(["101", plainSum(total, "USD")]);
      expect(segments(reply).parts).toBeLessThanOrEqual(2);
      expect(segments(reply).alphabet).toBe("GSM-7");
    }
    const untracked = openShop(withRules({ paymentLink: LINK, payment: "not-tracked" }));
    expect(texter(untracked).text("1 navy L", "yes")).not.toContain("https");
  });
});
