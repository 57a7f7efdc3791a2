import { describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { ids } from "../ids.ts";
import { texter } from "./customer.ts";
import { exampleMenu } from "./example.ts";
import { openShop, type Shop } from "./stall.ts";

const linesOf = ({ state }: Shop, number = 101) =>
  (state.order(number)?.lines ?? [])
    .filter(({ quantity }) => quantity > 0)
    .map(({ offer, colour, size, quantity }) => `${quantity} ${offer} ${colour} ${size}`);

/** A customer with an order of these texts, said yes to. */
function ordered(...texts: readonly string[]) {
  const shop = openShop(exampleMenu());
  const ana = texter(shop);
  ana.text(...texts, "yes");
  return { shop, ana };
}

describe("changing a placed order by text", () => {
  it.each([
    ["change 101 to XL", "1 longtail-tee navy XL"],
    ["Change my order to xl please", "1 longtail-tee navy XL"],
    ["can you change order 101 to sand", "1 longtail-tee sand L"],
    ["switch 101 to sand M", "1 longtail-tee sand M"],
    ["change the navy to sand", "1 longtail-tee sand L"],
    ["change size to S", "1 longtail-tee navy S"],
    ["make it two", "2 longtail-tee navy L"],
    ["make that 3", "3 longtail-tee navy L"],
    ["make it XL", "1 longtail-tee navy XL"],
    ["cambia 101 a XL", "1 longtail-tee navy XL"],
    ["cambiar mi pedido por arena", "1 longtail-tee sand L"],
    ["que sean dos", "2 longtail-tee navy L"],
  ])("“%s” leaves %s", (text, line) => {
    const { shop, ana } = ordered("1 navy L");
    const said = ana.text(text);
    expect(said).toContain("101");
    expect(linesOf(shop)).toEqual([line]);
    expect(shop.state.orders.size).toBe(1);
    expect(shop.state.order(101)?.jobs.every(({ stage }) => stage === "waiting")).toBe(true);
  });

  it.each([
    ["add a longtail tee sand M to 101", ["1 longtail-tee navy L", "1 longtail-tee sand M"]],
    ["add one more longtail navy L to my order", ["2 longtail-tee navy L"]],
    ["agrega una longtail arena M al 101", ["1 longtail-tee navy L", "1 longtail-tee sand M"]],
  ])("“%s” is no second order", (text, lines) => {
    const { shop, ana } = ordered("1 navy L");
    ana.text(text);
    expect(linesOf(shop)).toEqual(lines);
    expect(shop.state.orders.size).toBe(1);
    expect(shop.state.holds.size).toBe(0);
  });

  it("asks for what an added garment lacks, and adds it then", () => {
    const { shop, ana } = ordered("1 navy L");
    expect(ana.text("add a longtail to 101")).toContain("Which color?");
    expect(ana.text("sand")).toContain("Which size?");
    expect(ana.text("M")).toContain("Order 101:");
    expect(linesOf(shop)).toEqual(["1 longtail-tee navy L", "1 longtail-tee sand M"]);
  });

  it("asks which garment, then what of it, by numbers of a list", () => {
    const { shop, ana } = ordered("1 navy L", "1 sand M");
    expect(ana.text("CHANGE")).toBe("Change which one?\n1 Longtail tee, Navy, L\n2 Longtail tee, Sand, M");
    expect(ana.text("2")).toContain("What do you want to change? 1 color 2 size 3 how many");
    expect(ana.text("2")).toContain("Which size?");
    expect(ana.text("XL")).toContain("Order 101:");
    expect(linesOf(shop)).toEqual(["1 longtail-tee navy L", "1 longtail-tee sand XL"]);
    expect(ana.text("change 101 to 2XL")).toContain("Change which one?");
    ana.text("1");
    expect(linesOf(shop)).toEqual(["1 longtail-tee sand XL", "1 longtail-tee navy 2XL"]);
  });

  it("asks which of two orders is meant", () => {
    const { shop, ana } = ordered("1 navy L");
    ana.text("1 sand M", "yes");
    expect(ana.text("change to S")).toBe("Change which one?\n1 order 101\n2 order 102");
    ana.text("2");
    expect([linesOf(shop), linesOf(shop, 102)]).toEqual([
      ["1 longtail-tee navy L"],
      ["1 longtail-tee sand S"],
    ]);
  });

  it("takes a garment off, but never the last", () => {
    const { shop, ana } = ordered("1 navy L", "1 sand M");
    ana.text("remove the sand one from 101");
    expect(linesOf(shop)).toEqual(["1 longtail-tee navy L"]);
    expect(ana.text("take off the navy from 101")).toBe(
      "That is all of order 101. To cancel it, text DROP 101.",
    );
    expect(linesOf(shop)).toEqual(["1 longtail-tee navy L"]);
  });

  it("offers what is nearest if the new one is gone, and keeps the old one meanwhile", () => {
    const { shop, ana } = ordered("1 navy L");
    shop.stock([StockEntry.parse({ sku: "tee.navy.XL", counted: 0 })]);
    expect(ana.text("change 101 to XL")).toContain("sold out");
    expect(linesOf(shop)).toEqual(["1 longtail-tee navy L"]);
    ana.text("1");
    expect(linesOf(shop)).toHaveLength(1);
    expect(linesOf(shop)[0]).not.toBe("1 longtail-tee navy L");
    expect(shop.state.orders.size).toBe(1);
  });

  it("asks which of two is meant that is added, and adds that one to the order", () => {
    const { shop, ana } = ordered("1 navy L");
    const said = ana.text("add a tote to 101");
    expect(said).toContain("1 ");
    expect(said).not.toContain("tee");
    ana.text("2");
    expect(linesOf(shop)).toEqual(["1 longtail-tee navy L", "1 heron-tote natural one"]);
    expect([shop.state.orders.size, shop.state.holds.size]).toEqual([1, 0]);
  });

  it("says why not: on a press, ready, not theirs", () => {
    const { shop, ana } = ordered("1 navy L");
    shop.do({ type: "pull", press: ids.press("A") });
    expect(ana.text("change 101 to XL")).toBe(
      "Order 101 is on the press already and is made as ordered. Ask at the stall.",
    );
    shop.do({ type: "pressed", job: ids.job("101-1") });
    expect(ana.text("change 101 to XL")).toBe("Order 101 is ready. To exchange it, come to the stall.");
    const bob = texter(shop);
    bob.text("1 sand M", "yes");
    expect(bob.text("change 101 to S")).toBe("You have no open order 101.");
  });

  it("says what is still to be paid, and what comes back", () => {
    const { shop, ana } = ordered("2 navy L");
    shop.do({ type: "paid", number: 101, tender: "card" });
    expect(ana.text("make it three")).toMatch(/Pay \$[\d.]+ more when you pick up\./);
    shop.do({ type: "paid", number: 101, tender: "card" });
    expect(ana.text("make it one")).toMatch(/You get \$[\d.]+ back at the stall\./);
  });

  it("leaves an order that is not confirmed to its own words", () => {
    const { shop, ana } = ordered("1 navy L");
    ana.text("1 sand M");
    expect(ana.text("change")).toContain("What do you want to change?");
    expect(ana.text("1")).toContain("Which color?");
    ana.text("navy", "yes");
    expect([linesOf(shop), linesOf(shop, 102)]).toEqual([
      ["1 longtail-tee navy L"],
      ["1 longtail-tee navy M"],
    ]);
  });
});
