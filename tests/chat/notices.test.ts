import { describe, expect, it } from "vitest";
import { notify } from "../../src/chat/wording/notices.ts";
import { ids } from "../ids.ts";
import { texter } from "./customer.ts";
import { exampleMenu } from "./example.ts";
import { openShop } from "./stall.ts";

describe("texts the stall sends unasked", () => {
  const placed = (payment: "not-tracked" | "before-handover" = "not-tracked") => {
    const shop = openShop(exampleMenu({ payment }));
    const ana = texter(shop);
    ana.text("1 navy L", "yes");
    const order = ana.port.orders()[0];
    if (order === undefined) throw new Error("the order stands");
    return { shop, ana, order };
  };

  it("say that it is ready, with the word and what to pay", () => {
    const { ana, order } = placed("before-handover");
    expect(notify(ana.port, ana.talk, { type: "ready", order, owed: 2400 }).text).toBe(
      `Order 101 is ready! Show number 101 and say "${order.word}". Bring $24.`,
    );
  });

  it("offer what is left for a garment that is short, and a bare number answers", () => {
    const { shop, ana } = placed();
    shop.stock([{ sku: ids.sku("tee.navy.L"), counted: 0 }]);
    const order = ana.port.orders()[0];
    if (order === undefined) throw new Error("the order stands");
    expect(order.shortGarments).toBe(1);
    const { talk, text } = notify(ana.port, ana.talk, { type: "short", order, paid: false });
    expect(text).toBe(
      "Sorry, 1 of order 101 can't be pressed: out of stock (Longtail tee, Navy, L). Take instead:\n1 Sand, L\n2 Forest, L\n3 Navy, XL\n4 wait for more\n5 cancel it",
    );
    ana.hears(talk);
    expect(ana.text("1")).toMatch(/^Order 101 is canceled\..*Longtail tee, Sand, L: \$24/s);
    expect(ana.text("yes")).toContain("Order 102");
  });

  it("offer what costs the same in place of what is paid for, in the same order", () => {
    const { shop, ana } = placed();
    shop.stock([{ sku: ids.sku("tee.navy.L"), counted: 0 }]);
    const order = ana.port.orders()[0];
    if (order === undefined) throw new Error("the order stands");
    const { talk, text } = notify(ana.port, ana.talk, { type: "short", order, paid: true });
    expect(text).toBe(
      "1 of order 101 can't be pressed: out of stock (Longtail tee, Navy, L). Take instead:\n1 Sand\n2 Forest\n3 XL\n4 wait for more\n5 cancel it, money back at the stall",
    );
    ana.hears(talk);
    expect(ana.text("1")).toMatch(
      /^Done: .*Longtail tee.*Sand.* in order 101, at the same price\. Ready in about/,
    );
    const [after, ...others] = ana.port.orders();
    expect(others).toEqual([]);
    expect(after).toMatchObject({ number: 101, shortGarments: 0, total: order.total, word: order.word });
    expect(after?.lines.filter(({ quantity }) => quantity > 0)).toEqual([
      { offer: "longtail-tee", colour: "sand", size: "L", quantity: 1 },
    ]);
    // A number of an answered list has no meaning any more.
    expect(ana.text("1")).not.toContain("Done:");
  });

  it("offer nothing dearer or cheaper in place of what is paid for", () => {
    const { shop, ana } = placed();
    const menu = exampleMenu();
    const dearer = menu.offers.map((offer) =>
      offer.id === "longtail-tee" ? { ...offer, price: offer.price + 100 } : offer,
    );
    shop.do({ type: "set-menu", menu: { ...menu, offers: dearer } });
    shop.stock([{ sku: ids.sku("tee.navy.L"), counted: 0 }]);
    const order = ana.port.orders()[0];
    if (order === undefined) throw new Error("the order stands");
    const { talk, text } = notify(ana.port, ana.talk, { type: "short", order, paid: true });
    expect(text).not.toMatch(/instead|\n[0-9] (Longtail|Sand|Forest|XL)/);
    expect(text).toContain("cancel it, money back at the stall");
    ana.hears(talk);
  });

  it("ask again if what was picked is gone meanwhile, and for the next thing that is short", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L", "add", "1 sand M", "yes");
    shop.stock([
      { sku: ids.sku("tee.navy.L"), counted: 0 },
      { sku: ids.sku("tee.sand.M"), counted: 0 },
    ]);
    const order = ana.port.orders()[0];
    if (order === undefined) throw new Error("the order stands");
    expect(order.shortGarments).toBe(2);
    const { talk, text } = notify(ana.port, ana.talk, { type: "short", order, paid: true });
    expect(text).toContain("1 Longtail tee, Sand, L");
    ana.hears(talk);
    shop.stock([{ sku: ids.sku("tee.sand.L"), counted: 0 }]);
    const again = ana.text("1");
    expect(again).toContain("2 of order 101 can't be pressed");
    expect(again).not.toContain("Sand, L");
    const next = ana.text("1");
    expect(next).toContain("1 of order 101 can't be pressed");
    expect(ana.text("1")).toContain("Done: ");
    expect(ana.port.orders()[0]).toMatchObject({ shortGarments: 0, total: order.total });
  });

  it("leave out of an order what is short, with the rest going on and the sum said", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L", "add", "1 sand M", "yes");
    shop.stock([{ sku: ids.sku("tee.navy.L"), counted: 0 }]);
    const order = ana.port.orders()[0];
    if (order === undefined) throw new Error("the order stands");
    const { talk, text } = notify(ana.port, ana.talk, { type: "short", order, paid: true });
    expect(text).toContain("4 wait for more\n5 remove it, money back at the stall");
    ana.hears(talk);
    expect(ana.text("5")).toBe(
      "Removed from order 101; the total is now $24 lower. If you paid, get that back at the stall.",
    );
    expect(ana.port.orders()[0]).toMatchObject({ shortGarments: 0, total: order.total - 2400 });
  });

  it("leave what the customer was choosing where it was", () => {
    const { ana, order } = placed();
    ana.text("menu", "2");
    const { talk, text } = notify(ana.port, ana.talk, {
      type: "late",
      order: { ...order, minutesLeft: 25 },
    });
    expect(text).toBe("Sorry, order 101 takes longer: now about 25 min.");
    ana.hears(talk);
    expect(ana.text("1")).toContain("Red kite tee, Navy");
  });
});
