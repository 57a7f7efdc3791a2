import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { converse } from "../../src/chat/converse.ts";
import { cut, fitted, namedApart } from "../../src/chat/fitting/fit.ts";
import { segments } from "../../src/chat/fitting/segments.ts";
import { newTalk } from "../../src/chat/talk/talk.ts";
import { notify } from "../../src/chat/wording/notices.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import { anyMenu, anyText } from "./menus.ts";
import { customer, openShop } from "./stall.ts";

const plain = fc.constantFrom(..."abcdefghijklmnopqrstuvwxyzABCDEFGH ");

/** Every reply of a conversation, and of the notices about what was ordered in it. */
function replies(menu: Menu, texts: readonly string[], pieces: number): readonly string[] {
  const shop = openShop(menu, pieces);
  let talk = newTalk(menu.language);
  const said = texts.flatMap((text) => {
    shop.now += 5000;
    const turn = converse(shop.port(customer(1)), talk, { text, channel: "text" });
    talk = turn.talk;
    return turn.replies;
  });
  const port = shop.port(customer(1));
  const told = port.orders().flatMap((order) => {
    const short = { ...order, shortGarments: order.lines.reduce((sum, { quantity }) => sum + quantity, 0) };
    return [
      notify(port, talk, { kind: "ready", order, owed: order.total }).text,
      notify(port, talk, { kind: "late", order }).text,
      notify(port, talk, { kind: "short", order: short, paid: false }).text,
      notify(port, talk, { kind: "dropped", order, why: "unpaid" }).text,
      notify(port, talk, { kind: "closing-soon", order, closes: shop.now }).text,
    ];
  });
  return [...said, ...told];
}

describe("replies fit", () => {
  it("one message for six offers with names up to 14 characters, whatever is asked", () => {
    const menus = anyMenu({
      offers: { min: 6, max: 6 },
      letters: { min: 1, max: 14 },
      unit: plain,
      colours: 6,
      sizes: 8,
    });
    fc.assert(
      fc.property(
        menus,
        fc.array(anyText, { minLength: 4, maxLength: 16 }),
        fc.constantFrom(0, 1, 20),
        (menu, texts, pieces) => {
          for (const reply of replies(menu, texts, pieces)) {
            expect(segments(reply), reply).toMatchObject({ alphabet: "GSM-7", parts: 1 });
          }
        },
      ),
      { numRuns: 200, seed: 20270501 },
    );
  });

  it("two messages at the very most for any menu, in the text alphabet", () => {
    const menus = anyMenu({
      offers: { min: 1, max: 40 },
      letters: { min: 1, max: 40 },
      unit: fc
        .string({ unit: "grapheme", minLength: 1, maxLength: 1 })
        .filter((unit) => !/[\p{Cc}\u2028\u2029\u202A-\u202E\u2066-\u2069]/u.test(unit)),
      colours: 40,
      sizes: 8,
    });
    fc.assert(
      fc.property(
        menus,
        fc.array(anyText, { minLength: 4, maxLength: 12 }),
        fc.constantFrom(0, 1, 20),
        (menu, texts, pieces) => {
          for (const reply of replies(menu, texts, pieces)) {
            const { alphabet, parts } = segments(reply);
            expect(alphabet, reply).toBe("GSM-7");
            expect(parts, reply).toBeLessThanOrEqual(2);
          }
        },
      ),
      { numRuns: 100, seed: 20270501 },
    );
  });
});

describe("shortening", () => {
  it("keeps names of one list apart by the word that tells them apart", () => {
    const names = ["Camiseta mito azul", "Camiseta milano", "Gorra"];
    expect(namedApart(names, 4)).toEqual(["mito azul", "milano", "Gorra"]);
    expect(namedApart(names, 0)).toEqual(names);
    expect(namedApart(["The long duck of the north 1", "The long duck of the north 2"], 3)).toEqual([
      "The long duc 1",
      "The long duc 2",
    ]);
  });

  it("cuts at a space where that costs little", () => {
    expect(cut("Longtail tee", 9)).toBe("Longtail");
    expect(cut("Red kite tee", 14)).toBe("Red kite tee");
    expect(cut("Redkitesandterns", 9)).toBe("Redkitesa");
  });

  it("takes the fullest wording that fits one message, else two, else cuts", () => {
    expect(fitted((brevity) => "x".repeat([200, 161, 160, 10, 10, 10][brevity] ?? 0), false)).toHaveLength(
      160,
    );
    expect(fitted((brevity) => "x".repeat([400, 306, 200, 200, 200, 100][brevity] ?? 0), false)).toHaveLength(
      306,
    );
    expect(fitted((brevity) => "x".repeat([400, 306, 200, 200, 200, 100][brevity] ?? 0), true)).toHaveLength(
      100,
    );
    const cutShort = fitted(() => "€".repeat(400), false);
    expect(segments(cutShort).parts).toBe(2);
    expect(cutShort.endsWith("...")).toBe(true);
  });
});
