/** CANCEL on the web page means an order, since no text is sent there that could be stopped; and DROP after an unfinished change. */
import { beforeEach, describe, expect, it } from "vitest";
import { type Texter, texter } from "./customer.ts";
import { exampleMenu } from "./example.ts";
import { openShop, type Shop } from "./stall.ts";

let shop: Shop;
let ana: Texter;

const standing = (): readonly number[] => ana.port.orders().map(({ number }) => number);

describe("CANCEL on the web page", () => {
  beforeEach(() => {
    shop = openShop(exampleMenu());
    ana = texter(shop, "web");
  });

  it.each(["CANCEL", "cancel", "Cancel!"])(
    "%s cancels the one order there is, and opts nobody out",
    (word) => {
      ana.text("1 navy L", "yes");
      const turn = ana.turn(word);
      expect(turn.optOut).toBeUndefined();
      expect(turn.replies[0]).toContain("Order 101 is canceled.");
      expect(shop.state.order(101)).toBeUndefined();
      expect(ana.talk.optedOut).toBe(false);
    },
  );

  it("asks which of several orders, drops the one that is picked, and nothing if nothing is", () => {
    ana.text("1 navy L", "yes", "4 black", "yes");
    expect(ana.text("CANCEL")).toBe("What do you want to cancel?\n1 order 101\n2 order 102\n3 nothing");
    expect(standing()).toEqual([101, 102]);
    ana.text("3");
    expect(standing()).toEqual([101, 102]);
    ana.text("CANCEL");
    expect(ana.text("2")).toContain("Order 102 is canceled");
    expect(standing()).toEqual([101]);
  });

  it("asks whether an order or the garment under way is meant", () => {
    ana.text("1 navy L", "yes", "1 sand M");
    expect(ana.text("CANCEL")).toMatch(/^What do you want to cancel\?\n1 order 101\n2 /);
    expect(standing()).toEqual([101]);
    ana.text("2");
    expect(standing()).toEqual([101]);
    expect(shop.state.holds.size).toBe(0);
  });

  it("says so if there is nothing to cancel", () => {
    expect(ana.text("CANCEL")).toContain("You have no order to cancel.");
    expect(ana.talk.optedOut).toBe(false);
  });

  it("leaves STOP, END and QUIT the words for silence", () => {
    ana.text("1 navy L", "yes");
    for (const word of ["STOP", "END", "QUIT"]) expect(ana.turn(word).optOut, word).toBe(true);
    expect(standing()).toEqual([101]);
  });
});

describe("DROP after a change that was not finished", () => {
  beforeEach(() => {
    shop = openShop(exampleMenu());
    ana = texter(shop);
  });

  it("drops what was not confirmed, if that is all there is", () => {
    ana.text("1 navy L", "change");
    ana.text("drop");
    expect(shop.state.holds.size).toBe(0);
    expect(standing()).toEqual([]);
    expect(ana.text("drop")).toContain("You have no order to cancel.");
  });

  it("asks, if an order stands beside it: the order is not lost in place of the change", () => {
    ana.text("1 navy L", "yes", "1 sand M", "change");
    expect(ana.text("drop")).toMatch(/^What do you want to cancel\?\n1 order 101\n2 /);
    expect(standing()).toEqual([101]);
    ana.text("2");
    expect(standing()).toEqual([101]);
    expect(shop.state.holds.size).toBe(0);
  });

  it("means the order again once the change was left", () => {
    ana.text("1 navy L", "yes", "1 sand M", "change", "drop", "2");
    expect(ana.text("drop")).toContain("Order 101 is canceled");
    expect(standing()).toEqual([]);
  });
});
