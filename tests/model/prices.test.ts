import { describe, expect, it } from "vitest";
import { Menu } from "../../src/model/menu/catalogue.ts";
import { menuFaults } from "../../src/model/menu/menu-faults.ts";
import { lowestPrice, priceOf } from "../../src/model/menu/prices.ts";
import { secondLess } from "../../src/stall/stock/pricing.ts";
import { exampleMenu } from "../stall/test-stall.ts";

/** The example with 3.00 more for 2XL on the tee, and the first offer's own surcharges. */
function dearer(surcharges?: Record<string, number>): Menu {
  const menu = exampleMenu();
  return Menu.parse({
    ...menu,
    blanks: menu.blanks.map((blank) => ({
      ...blank,
      sizes: blank.sizes.map((size) => (String(size.id) === "2XL" ? { ...size, surcharge: 300 } : size)),
    })),
    offers: menu.offers.map((offer, at) =>
      at === 0 && surcharges !== undefined ? { ...offer, surcharges } : offer,
    ),
  });
}

/** Prices of the first offer by size, and the lowest. */
function pricesOf(menu: Menu) {
  const [offer] = menu.offers;
  const blank = menu.blanks.find(({ id }) => id === offer?.blank);
  if (offer === undefined || blank === undefined) throw new Error("the example has an offer");
  const each = Object.fromEntries(blank.sizes.map((size) => [size.id, priceOf(offer, size)]));
  return { each, ...lowestPrice(offer, blank) };
}

describe("the price of a garment", () => {
  it("is the offer's, and the surcharge of its size on the blank", () => {
    const { each, lowest, varies } = pricesOf(dearer());
    expect([each["L"], each["2XL"], lowest, varies]).toEqual([2400, 2700, 2400, true]);
  });
  it("takes the offer's own surcharge before the blank's, 0 included", () => {
    expect(pricesOf(dearer({ "2XL": 500 })).each["2XL"]).toBe(2900);
    expect(pricesOf(dearer({ "2XL": 0 }))).toMatchObject({ lowest: 2400, varies: false });
  });
  it("is the menu's price if nothing costs more", () => {
    expect(pricesOf(exampleMenu())).toMatchObject({ lowest: 2400, varies: false });
  });
  it("of a second is less by a share or by an amount, not by both", () => {
    const rules = { secondsAmountOff: 700, secondsPartsPerMillionOff: 300_000 };
    expect([
      secondLess({ secondsPartsPerMillionOff: 333_333 }, 2400),
      secondLess({ secondsAmountOff: 700 }, 2400),
      secondLess({ secondsAmountOff: 700 }, 500),
      secondLess({}, 2400),
    ]).toEqual([800, 700, 500, 0]);
    const menu = exampleMenu();
    const both = { ...menu, rules: { ...menu.rules, ...rules } };
    expect(menuFaults(both).map(({ pointer }) => pointer)).toEqual(["#/rules/secondsAmountOff"]);
  });
  it("refuses a surcharge for a size that the blank does not have", () => {
    expect(menuFaults(dearer({ "2XL": 500 }))).toEqual([]);
    expect(menuFaults(dearer({ "9XL": 500 })).map(({ pointer }) => pointer)).toEqual([
      "#/offers/0/surcharges/9XL",
    ]);
  });
});
