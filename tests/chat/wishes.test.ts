import { describe, expect, it } from "vitest";
import { lexiconOf } from "../../src/chat/understand/lexicon.ts";
import { shortWish, wishIn } from "../../src/chat/understand/wishes.ts";
import { GarmentWish } from "../../src/model/menu/wishes.ts";
import { exampleMenu as smallMenu } from "../stall/test-stall.ts";
import { texter } from "./customer.ts";
import { exampleMenu } from "./example.ts";
import { openShop } from "./stall.ts";
import { WISHES } from "./wishes.ts";

const lexicon = lexiconOf(exampleMenu());

describe("a wish that is not on the menu", () => {
  it.each(WISHES)("%j: %s", (text, wishes) => {
    expect(wishIn(lexicon, text) !== null).toBe(wishes);
  });

  it("keeps the customer's own words apart from the garment's", () => {
    expect(wishIn(lexicon, "longtail tee navy L, add my name JAKE and a black cap")).toEqual({
      words: "add my name JAKE",
      rest: "longtail tee navy L,         and a black cap",
    });
    expect(wishIn(lexicon, "1 navy L print on the back")?.words).toBe("print on the back");
    expect(wishIn(lexicon, "heron tote with initials SM")?.words).toBe("with initials SM");
  });

  it("is cut to 80 characters at a word", () => {
    const long = shortWish("on the back", "with my name ".repeat(20).trim());
    expect(long.length).toBeLessThanOrEqual(80);
    expect(long).toMatch(/^on the back; .*(with|my|name)$/);
  });

  it("is confirmed as shown, and the crew gets the words with the order", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    expect(ana.text("1 navy L print on the back")).toBe(
      'Pressed as shown, without "print on the back", or come to the counter.\nLongtail tee, Navy, L: $24, ready in about 2 min.\nOrder as shown? 1 YES 2 ADD 3 CHANGE',
    );
    expect(ana.text("yes")).toContain("Order 101");
    expect(shop.wish(101)).toBe("print on the back");
    expect(JSON.stringify(shop.events)).not.toContain("print on the back");
    ana.text("1 navy L", "yes");
    expect(shop.wish(102)).toBeUndefined();
  });

  it("said with a yes asks again instead of ordering", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L");
    expect(ana.text("yes but with my name JAKE")).toContain("Order as shown?");
    expect(shop.state.order(101)).toBeUndefined();
  });

  it("said alone is answered, also if an order is in line already", () => {
    const ana = texter(openShop(exampleMenu()));
    expect(ana.text("do you gift wrap?")).toContain("For anything else, come to the counter.");
    ana.text("1 navy L", "yes");
    expect(ana.text("please print my name on it")).toBe(
      'We press garments as shown, without "please print my name on it". For anything else, come to the counter.',
    );
  });

  it("that the counter takes is answered with its price, by the stall's own words for it", () => {
    const menu = exampleMenu();
    const wishes = [
      GarmentWish.parse({
        id: "back-print",
        name: "Back print",
        translations: { es: "Estampado atrás" },
        surcharge: 500,
        asked: ["on the back", "por detrás", "behind"],
      }),
      GarmentWish.parse({ id: "gift", name: "Gift" }),
    ];
    const ana = texter(openShop({ ...menu, wishes }));
    expect(ana.text("can you print on the back?")).toContain(
      "Back print costs $5 more: ask for it at the counter.",
    );
    expect(ana.text("¿se puede por detrás?")).toContain("$5");
    expect(ana.text("is it a gift thing")).toContain("Gift: ask for it at the counter.");
    // Where one message must hold the reply.
    const short = texter(openShop({ ...smallMenu(), wishes }));
    expect(short.text("longtail tee navy L with a print on the back please")).toContain(
      "Back print, $5 more: only at the counter.",
    );
    expect(ana.text("1 navy L with something behind")).toContain(
      "Back print, $5 more, is done at the counter only: come there for it.",
    );
  });
});
