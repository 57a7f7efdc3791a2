import { describe, expect, it } from "vitest";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import { bucketKey } from "../../src/time/bucket.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { ids } from "../ids.ts";
import { texter } from "./customer.ts";
import { exampleMenu } from "./example.ts";
import { openShop, type Shop } from "./stall.ts";

const CONFIRM = "Order it? 1 YES 2 ADD another 3 CHANGE";

const left = (shop: Shop, sku: string, counted: number): void => shop.stock([{ sku: ids.sku(sku), counted }]);
const sellOut = (shop: Shop, ...skus: readonly string[]): void => {
  for (const sku of skus) left(shop, sku, 0);
};
const tally = (shop: Shop) => shop.state.buckets.get(bucketKey(shop.now));
const asks = (shop: Shop) =>
  shop.events.flatMap((event) =>
    event.type === "asked"
      ? [`${event.garments} ${event.offer} ${event.colour} ${event.size} ${event.unmet ?? "met"}`]
      : [],
  );

describe("the numbered steps", () => {
  it("go from offer to colour, size, how many and confirming, one short text each", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    expect(ana.text("hi")).toBe(
      "Tern. Text a number, or all at once: 1 navy L\n1 Longtail tee $24\n2 Red kite tee $24\n3 Otter tee $22\n4 Tern cap $18\n5 Tern tote $15\n6 Heron tote $15",
    );
    expect(ana.text("2")).toBe("Red kite tee, $24. Which color? 1 Navy 2 Sand 3 Forest");
    expect(ana.text("1")).toBe("Red kite tee, Navy, $24. Which size? 1 S 2 M 3 L 4 XL 5 2XL");
    expect(ana.text("3")).toBe("Red kite tee, Navy, L, $24. How many? 1 to 6");
    expect(shop.state.holds.size).toBe(0);
    expect(ana.text("2")).toBe(`2x Red kite tee, Navy, L: $48, ready in about 4 min.\n${CONFIRM}`);
    expect(shop.state.holds.size).toBe(1);
    expect(ana.text("1")).toMatch(
      /^Thank you! Order 101, pickup word \w+\. 1st in line, about 4 min\. \$48\./,
    );
    expect(shop.state.holds.size).toBe(0);
    expect(shop.state.order(101)?.lines).toMatchObject([
      { offer: "red-kite-tee", colour: "navy", size: "L", quantity: 2 },
    ]);
    expect(asks(shop)).toEqual(["2 red-kite-tee navy L met"]);
  });

  it("say what a size costs more, in the list, in the sum and in what is ordered", () => {
    const menu = exampleMenu();
    const [tee, ...others] = menu.blanks;
    if (tee === undefined) throw new Error("the example has a tee");
    const sizes = tee.sizes.map((size) => (String(size.id) === "2XL" ? { ...size, surcharge: 300 } : size));
    const shop = openShop({ ...menu, blanks: [{ ...tee, sizes }, ...others] });
    const ana = texter(shop);
    expect(ana.text("hi")).toContain("1 Longtail tee from $24\n2 Red kite tee from $24");
    expect(ana.text("2")).toBe("Red kite tee, from $24. Which color? 1 Navy 2 Sand 3 Forest");
    expect(ana.text("1")).toContain("Which size? 1 S 2 M 3 L 4 XL 5 2XL +$3");
    expect(ana.text("5")).toBe("Red kite tee, Navy, 2XL, $27. How many? 1 to 6");
    expect(ana.text("2")).toContain("2x Red kite tee, Navy, 2XL: $54,");
    ana.text("1");
    expect(shop.state.order(101)).toMatchObject({ lines: [{ size: "2XL", each: 2700 }], total: 5400 });
    const eva = texter(shop);
    eva.text("hola");
    expect(eva.text("menu")).toContain("1 Camiseta mito desde $24");
  });

  it("skip what has one answer only", () => {
    const ana = texter(openShop(exampleMenu()));
    expect(ana.text("menu", "4")).toContain("Which color? 1 Navy 2 Black");
    expect(ana.text("2")).toContain("How many?");
    expect(ana.text("menu", "6")).toBe("Heron tote, $15. How many? 1 to 6");
  });

  it("keep the customer's place through anything that is not understood", () => {
    const ana = texter(openShop(exampleMenu()));
    ana.text("menu", "1", "2");
    for (const text of ["lol", "👍", "", "u suck", "77"]) {
      expect(ana.text(text)).toContain("Longtail tee, Sand, $24. Which size? 1 S 2 M 3 L 4 XL 5 2XL");
    }
    expect(ana.text("3")).toContain("Longtail tee, Sand, L, $24. How many?");
  });

  it("go back one at a time", () => {
    const ana = texter(openShop(exampleMenu()));
    ana.text("menu", "1", "2", "3", "2");
    expect(ana.text("back")).toContain("How many?");
    expect(ana.text("back")).toContain("Which size?");
    expect(ana.text("back")).toContain("Which color?");
    expect(ana.text("back")).toContain("Text a number");
  });

  it("show choices above nine on a further page, with numbers that stay", () => {
    const base = exampleMenu();
    const [first] = base.offers;
    const [design] = base.designs;
    if (first === undefined || design === undefined) throw new Error("the example has offers");
    const extra = Array.from({ length: 8 }, (_, n) => ({
      ...first,
      id: `extra-${n}`,
      name: `Extra ${n} tee`,
      design: `extra-${n}`,
    }));
    const menu = {
      ...base,
      offers: [...base.offers, ...extra],
      designs: [...base.designs, ...extra.map(({ id }) => ({ ...design, id }))],
    } as Menu; // brands put on the new ids
    const ana = texter(openShop(menu));
    expect(ana.text("menu")).toMatch(/\n9 Extra 2 tee.*\nMORE/s);
    expect(ana.text("menu")).not.toContain("10 ");
    expect(ana.text("more")).toContain("10 Extra 3 tee");
    expect(ana.text("11")).toContain("Extra 4 tee");
    expect(ana.text("menu", "more", "more")).toContain("1 Longtail tee");
  });
});

describe("one-text orders", () => {
  it.each([
    ["1 2 L", "Longtail tee, Sand, L: $24"],
    ["1 navy L x2", "2x Longtail tee, Navy, L: $48"],
    ["navy large longtail tee", "Longtail tee, Navy, L: $24"],
    ["2 longtail tees L navy please", "2x Longtail tee, Navy, L: $48"],
    ["L navy 1", "Longtail tee, Navy, L: $24"],
    ["1-2-3", "Longtail tee, Sand, L: $24"],
    ["1,2,3", "Longtail tee, Sand, L: $24"],
    ["2 red kite L sand + 1 black cap", "2x Red kite tee, Sand, L; Tern cap, Black: $66"],
  ])("%j is answered with the confirming question", (text, asked) => {
    const ana = texter(openShop(exampleMenu()));
    const reply = ana.text(text);
    expect(reply.startsWith(asked)).toBe(true);
    expect(reply.endsWith(CONFIRM)).toBe(true);
    expect(ana.text("yes")).toContain("Order 101");
  });

  it("keep what is clear and ask only for the rest", () => {
    const ana = texter(openShop(exampleMenu()));
    expect(ana.text("longtail L")).toBe("Longtail tee, L, $24. Which color? 1 Navy 2 Sand 3 Forest");
    expect(ana.text("sand")).toContain("Longtail tee, Sand, L: $24");
    const ben = texter(openShop(exampleMenu()));
    expect(ben.text("2 red kite L sand + 1 cap")).toBe("Tern cap, $18. Which color? 1 Navy 2 Black");
    expect(ben.text("1")).toContain("2x Red kite tee, Sand, L; Tern cap, Navy: $66");
  });

  it("ask which of two things was meant, numbered", () => {
    const ana = texter(openShop(exampleMenu()));
    expect(ana.text("tee navy L")).toBe(
      "Navy, L. Which do you mean?\n1 Longtail tee\n2 Red kite tee\n3 Otter tee",
    );
    expect(ana.text("3")).toContain("Otter tee, Navy, L: $22");
    const ben = texter(openShop(exampleMenu()));
    expect(ben.text("2x longtail navy")).toContain("Which do you mean?");
    expect(ben.text("2")).toContain("Longtail tee, Navy, 2XL: $24");
  });

  it("say what an offer does not come in", () => {
    const ana = texter(openShop(exampleMenu()));
    expect(ana.text("longtail black L")).toBe(
      "Longtail tee does not come in that color. Longtail tee, L, $24. Which color? 1 Navy 2 Sand 3 Forest",
    );
  });

  it("are not doubled when they are sent twice", () => {
    const ana = texter(openShop(exampleMenu()));
    const once = ana.text("1 navy L");
    expect(ana.text("1 navy L")).toBe(once);
    expect(ana.text("2 sand M")).toContain("Longtail tee, Navy, L; Red kite tee, Sand, M: $48");
  });

  it("change the one line that is to be confirmed by a word", () => {
    const ana = texter(openShop(exampleMenu()));
    ana.text("1 navy L");
    expect(ana.text("M")).toContain("Longtail tee, Navy, M: $24");
    expect(ana.text("sand")).toContain("Longtail tee, Sand, M: $24");
    expect(ana.text("make it 3")).toContain("3x Longtail tee, Sand, M: $72");
    expect(ana.text("make it two please")).toContain("2x Longtail tee, Sand, M: $48");
  });
});

describe("an order's number with a word", () => {
  it.each(["101 turnipp", "#101 zzzz", "101 WRONG"])(
    "that is none of the pickup words is a slip, and no order: %s",
    (text) => {
      const shop = openShop(exampleMenu());
      expect(texter(shop).text(text)).toContain("That number and word don't match.");
      expect(shop.events.slice(-1).some(({ type }) => type === "held")).toBe(false);
    },
  );

  it("of the menu is an order", () => {
    expect(texter(openShop(exampleMenu())).text("101 navy")).not.toContain("match");
  });
});

describe("confirming", () => {
  it("adds another and changes a part", () => {
    const ana = texter(openShop(exampleMenu()));
    ana.text("1 navy L", "2");
    expect(ana.text("4 black")).toContain("Longtail tee, Navy, L; Tern cap, Black: $42");
    expect(ana.text("3")).toBe("Change which one?\n1 Longtail tee, Navy, L\n2 Tern cap, Black");
    expect(ana.text("1")).toContain("1 color 2 size 3 how many 4 garment 5 remove it");
    expect(ana.text("5")).toContain("Tern cap, Black: $18");
    expect(ana.text("yes")).toContain("Order 101");
  });

  it("fixes the price when it asks, even if the menu changes before the yes", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L");
    raise(shop);
    expect(ana.text("yes")).toContain("$24.");
  });

  it.each([
    ["1 navy L", "$48"], // the same garment keeps the price it is held at
    ["1 sand M", "$54"], // another one is new, at today's price
  ])("charges what it showed when the price went up in between: %s", (another, total) => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L");
    raise(shop);
    ana.text("2");
    expect(ana.text(another)).toContain(total);
    expect(ana.text("yes")).toContain(`${total}.`);
    expect([...shop.state.orders.values()][0]?.total).toBe(Number(total.slice(1)) * 100);
  });

  it("takes an expired hold again, or asks again if the price changed meanwhile", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    const ben = texter(shop);
    ana.text("1 navy L");
    ben.text("1 sand L");
    shop.now += 4 * MINUTE;
    shop.do({ type: "tick" });
    expect(shop.state.holds.size).toBe(0);
    expect(ana.text("yes")).toContain("Order 101");
    raise(shop);
    expect(ben.text("yes")).toContain("The price has changed. Longtail tee, Sand, L: $30");
    expect(ben.text("yes")).toContain("$30.");
  });

  it("offers what is left if an expired hold's stock is gone", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L");
    shop.now += 4 * MINUTE;
    shop.do({ type: "tick" });
    sellOut(shop, "tee.navy.L");
    expect(ana.text("yes")).toMatch(
      /^Sorry, Longtail tee, Navy, L is sold out\. Still available:\n1 Sand, L\n2 Forest, L\n3 Navy, XL/,
    );
    expect(ana.text("1")).toContain("Longtail tee, Sand, L: $24");
  });

  it("does not order twice on a second yes", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L", "yes");
    expect(ana.text("yes")).toContain("101: 1st in line");
    expect(ana.text("1")).toContain("101: ");
    expect(shop.state.orders.size).toBe(1);
  });
});

function raise(shop: Shop): void {
  const { menu } = shop.state;
  if (menu === null) throw new Error("no menu");
  const offers = menu.offers.map((offer) => ({ ...offer, price: 3000 }));
  expect(shop.do({ type: "set-menu", menu: { ...menu, offers } }).refusal).toBeNull();
}

describe("a sold-out choice", () => {
  it("stays on the list in its place, records the ask when chosen and offers what is nearest", () => {
    const shop = openShop(exampleMenu());
    sellOut(shop, "tee.sand.L");
    const ana = texter(shop);
    expect(ana.text("menu", "1", "2")).toContain("3 L sold out 4 XL");
    expect(ana.text("3")).toBe(
      "Sorry, Longtail tee, Sand, L is sold out. Still available:\n1 Navy, L\n2 Forest, L\n3 Sand, XL\n4 Sand, 2XL\n5 Sand, M",
    );
    expect(asks(shop)).toEqual(["1 longtail-tee sand L sold-out"]);
    expect(ana.text("3")).toContain("Longtail tee, Sand, XL, $24. How many?");
  });

  it("offers other designs on the same blank if only the transfer ran out", () => {
    const shop = openShop(exampleMenu());
    shop.stock([{ design: exampleMenu().designs[0]?.id as never, counted: 0 }]); // the example's first design
    const ana = texter(shop);
    expect(ana.text("menu")).toContain("1 Longtail tee sold out");
    expect(ana.text("1 navy L")).toContain("Still available:\n1 Red kite tee, Navy, L\n2 Otter tee, Navy, L");
  });

  it("counts a colour that is gone in every size as an ask for the middle one", () => {
    const shop = openShop(exampleMenu());
    sellOut(shop, ...["S", "M", "L", "XL", "2XL"].map((size) => `tee.navy.${size}`));
    const ana = texter(shop);
    expect(ana.text("1")).toContain("1 Navy sold out 2 Sand");
    expect(ana.text("1")).toBe("Sorry, Longtail tee, Navy is sold out. Still available:\n1 Sand\n2 Forest");
    expect(asks(shop)).toEqual(["1 longtail-tee navy L sold-out"]);
    expect(ana.text("1")).toContain("Longtail tee, Sand, $24. Which size?");
  });

  it("offers what there is of it if there are too few", () => {
    const shop = openShop(exampleMenu());
    left(shop, "tee.navy.L", 2);
    const ana = texter(shop);
    expect(ana.text("1 navy L x3")).toMatch(/^Only 2 left: Longtail tee, Navy, L\.\n1 2x Navy, L\n2 Sand, L/);
    expect(ana.text("1")).toContain("2x Longtail tee, Navy, L: $48");
    expect(tally(shop)).toMatchObject({ asked: 3, unmet: 1, unmetSoldOut: 1 });
  });

  it("counts an ask once in 30 minutes", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L", "drop", "1 navy L", "drop");
    expect(asks(shop)).toEqual(["1 longtail-tee navy L met"]);
    shop.now += 31 * MINUTE;
    ana.text("1 navy L");
    expect(asks(shop)).toHaveLength(2);
  });

  it("says so when everything is", () => {
    const ana = texter(openShop(exampleMenu(), 0));
    expect(ana.text("1 navy L")).toBe("Everything is sold out right now. Ask at the stall.");
  });
});
