import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Menu } from "../../src/model/menu/catalogue.ts";
import type { OpenOrder } from "../../src/model/orders/open-orders.ts";
import { pricesOf, sheetsOf, tagsOf, taxWords } from "../../src/screens/client/prints/state.ts";

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
});
