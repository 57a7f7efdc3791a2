import { describe, expect, it } from "vitest";
import { menuAdvice } from "../../src/chat/advice.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import { exampleMenu } from "./example.ts";

/** The example with other names for its offers, repeated as often as names are given. */
function withOffers(names: readonly string[]): Menu {
  const menu = exampleMenu();
  const [offer] = menu.offers;
  if (offer === undefined) throw new Error("the example has offers");
  const offers = names.map((name, n) => ({ ...offer, id: `offer-${n}`, name, translations: {} }));
  return { ...menu, offers } as Menu; // brands put on the new ids
}

const about = (menu: Menu, start: string) =>
  menuAdvice(menu).filter(({ pointer }) => pointer.startsWith(start));

describe("advice on a menu", () => {
  it("tells of letters that texts do not have, and what they will say", () => {
    expect(menuAdvice(exampleMenu())).toEqual([
      {
        pointer: "#/offers/3/translations/es",
        detail:
          '"Gorra charrán" has á, which the alphabet of texts lacks: texts will say "Gorra charran", the web keeps it',
      },
      {
        pointer: "#/offers/4/translations/es",
        detail:
          '"Bolsa charrán" has á, which the alphabet of texts lacks: texts will say "Bolsa charran", the web keeps it',
      },
      expect.objectContaining({ pointer: "#/blanks/1/sizes/0/translations/es" }),
      expect.objectContaining({ pointer: "#/blanks/2/sizes/0/translations/es" }),
    ]);
  });

  it("asks for another name if nothing of it can be written", () => {
    const [first] = about(withOffers(["鶴 tee", "Plain tee"]), "#/offers/0/name");
    expect(first?.detail).toContain('texts will say "? tee"');
    expect(first?.detail).toContain("give it a name in plain letters");
  });

  it("counts what a list of long names takes", () => {
    const long = Array.from({ length: 9 }, (_, n) => `The long tailed duck of the north ${n}`);
    const [first] = about(withOffers(long), "#/offers");
    expect(first).toMatchObject({ pointer: "#/offers" });
    expect(first?.detail).toMatch(
      /^the list of offers takes 2 messages in texts \(\d{3} characters where one holds 160\)/,
    );
    const plain = Array.from({ length: 6 }, (_, n) => `Fourteen lett${n}`);
    expect(about(withOffers(plain), "#/offers")).toEqual([]);
  });

  it("tells of lists that go on to a further page", () => {
    const many = Array.from({ length: 12 }, (_, n) => `Tee ${n}`);
    expect(about(withOffers(many), "#/offers").map(({ detail }) => detail)).toContain(
      "12 offers: a text lists 9 at a time and the others only after MORE; fewer are chosen sooner",
    );
  });
});
