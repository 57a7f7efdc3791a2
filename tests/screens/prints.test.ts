import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Menu } from "../../src/model/menu/catalogue.ts";
import type { OpenOrder } from "../../src/model/orders/open-orders.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { moneyWords } from "../../src/screens/client/crew/words/money.ts";
import { type Json, withValue } from "../../src/screens/client/kit/json-pointer.ts";
import { bundleLines, rangeWords, taxLines } from "../../src/screens/client/prints/posted.ts";
import {
  bundlesOf,
  notesOf,
  pricesOf,
  sheetsOf,
  tagsOf,
  taxWords,
} from "../../src/screens/client/prints/state.ts";
import { newBundle, newWish } from "../../src/screens/client/setup/form/adding.ts";
import { menuView } from "../../src/stall/calls/views.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { customer, OPENS, testStall } from "../stall/test-stall.ts";

const menu = Menu.parse(
  JSON.parse(readFileSync(new URL("../../examples/tern/menu.json", import.meta.url), "utf8")),
);
const order = (number: number, word: string): OpenOrder =>
  ({
    number,
    word,
    lines: [
      { name: "Otter tee", blank: "tee", colour: "sand", size: "M", quantity: 2 },
      { name: "Tern cap", blank: "cap", colour: "black", size: "one", quantity: 1 },
    ],
  }) as unknown as OpenOrder; // what a tag shows of it

describe("hand tags", () => {
  it("say number, word and garments, in number order, from a number on", () => {
    const orders = [order(112, "heron"), order(104, "anvil"), order(109, "maple")];
    const from = (number: string) => tagsOf({ orders, menu, from: number }).map((tag) => tag.number);
    expect(from("")).toEqual([104, 109, 112]);
    expect(from("105")).toEqual([109, 112]);
    expect(from("never")).toEqual([104, 109, 112]);
    expect(tagsOf({ orders, menu, from: "112" })).toEqual([
      { number: 112, word: "heron", garments: ["2 × Otter tee, Sand, M", "1 × Tern cap, Black, one size"] },
    ]);
  });

  it("are eight a sheet", () => {
    const numbers = Array.from({ length: 17 }, (_, at) => at);
    expect(sheetsOf(numbers).map(({ length }) => length)).toEqual([8, 8, 1]);
    expect(sheetsOf(numbers).flat()).toEqual(numbers);
    expect(sheetsOf([])).toEqual([]);
  });
});

describe("the price card", () => {
  it("lists what is on sale by its fixed number, and says what tax does", () => {
    const without = {
      ...menu,
      offers: menu.offers.map((offer, at) => (at === 1 ? { ...offer, offered: false } : offer)),
    };
    const rows = pricesOf(without);
    expect(rows.map(({ number }) => number)).toEqual([1, 3, 4, 5, 6]);
    expect(rows[0]).toMatchObject({ name: "Longtail tee", price: "$24.00" });
    expect(rows[0]?.comes).toMatch(/^Navy, Sand, Black · S, M, L, XL/);
    expect(taxWords(menu)).toMatch(/^Sales tax of 7\.25 % is added\.$/);
    expect(taxWords({ ...menu, rules: { ...menu.rules, taxInPrice: true } })).toMatch(/^Prices include/);
    expect(taxWords({ ...menu, rules: { ...menu.rules, taxPartsPerMillion: 0 } })).toBe("");
  });

  it("says of sizes, bundles and wishes what an order of them is charged, and so does the poster", () => {
    // Filled in as a stall does on its set-up page.
    const saved = JSON.parse(JSON.stringify(menu)) as Json; // a menu is JSON
    const translations = { es: "2 camisetas" };
    const bundle = { ...newBundle(saved, "Any 2 tees"), price: 4000, translations };
    const wish = { ...newWish(saved, "Gift"), surcharge: 250 };
    const typed = [
      ["#/bundles", [bundle]],
      ["#/wishes", [wish]],
      ["#/blanks/0/sizes/4/surcharge", 300],
      ["#/rules/taxInPrice", true],
    ] as const;
    const dear = Menu.parse(typed.reduce<Json>((so, [at, value]) => withValue(so, at, value), saved));
    const counts = [
      { sku: "tee.navy.2XL" },
      { sku: "tee.navy.L" },
      { design: "longtail" },
      { design: "kite" },
    ];
    const charged = (...lines: readonly object[]): string => {
      const stall = testStall(
        dear,
        counts.map((one) => StockEntry.parse({ ...one, counted: 9 })),
      );
      const order = {
        type: "place",
        takenBy: "counter",
        chance: 0,
        asks: [],
        customer: customer("ann"),
        lines,
      };
      stall.run(order as unknown as Command, OPENS); // plain ids
      return moneyWords(stall.state.order(101)?.total ?? 0, dear.currency);
    };
    const tee = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };
    const kite = { ...tee, offer: "red-kite-tee" };

    const [row] = pricesOf(dear);
    expect(row).toMatchObject({ price: `from ${charged(tee)}` });
    expect(row?.comes).toContain("2XL +$3.00");
    expect(charged({ ...tee, size: "2XL" })).toBe("$27.00");
    expect(bundlesOf(dear)).toEqual([
      {
        bundle: "any-2-tees",
        name: "Any 2 tees",
        of: "2 × Longtail tee, Red kite tee, or Otter tee",
        others: [{ language: "es", name: "2 camisetas", of: "2 × Cola larga, Milano rojo o Nutria" }],
        price: charged(tee, kite),
      },
    ]);
    expect(charged(tee, { ...kite, size: "2XL" })).toBe("$43.00");
    expect(charged({ ...tee, wishes: ["gift"] })).toBe("$26.50");
    expect(notesOf(dear)).toEqual([
      "A size that costs more costs that on top of a bundle, too.",
      "Ask at the counter: Gift +$2.50.",
      "Prices include sales tax of 7.25 %.",
    ]);

    const view = menuView(testStall(dear, []).state, dear, OPENS);
    const [first] = view.offers;
    if (first === undefined) throw new Error("there is an offer");
    expect(rangeWords(first, view)).toBe(`${charged(tee)}–${charged({ ...tee, size: "2XL" })}`);
    expect(bundleLines(view)).toEqual([
      { words: `Any 2 tees ${charged(tee, kite)}`, others: [["es", "2 camisetas"]] },
    ]);
    expect(taxLines(view)).toEqual({ en: "Tax of 7.25 % included", es: "Impuesto de 7.25 % incluido" });
    // Garments off sale are on neither.
    const off = {
      ...dear,
      offers: dear.offers.map((offer) => ({ ...offer, offered: !offer.id.endsWith("tee") })),
    };
    expect(bundlesOf(off)).toEqual([]);
  });
});
