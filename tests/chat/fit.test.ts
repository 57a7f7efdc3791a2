import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { converse } from "../../src/chat/converse.ts";
import { fitted, pageSize } from "../../src/chat/fitting/fit.ts";
import { segments } from "../../src/chat/fitting/segments.ts";
import { newTalk } from "../../src/chat/talk/talk.ts";
import { notify } from "../../src/chat/wording/notices.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import { anyMenu, anyText } from "./menus.ts";
import { customer, openShop } from "./stall.ts";

const plain = fc.constantFrom(..."abcdefghijklmnopqrstuvwxyzABCDEFGH ");

/** Every reply of a conversation, and the notices of its orders. */
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
      notify(port, talk, { type: "ready", order, owed: order.total }).text,
      notify(port, talk, { type: "late", order }).text,
      notify(port, talk, { type: "short", order: short, paid: false }).text,
      notify(port, talk, { type: "dropped", order, why: "unpaid" }).text,
      notify(port, talk, { type: "closing-soon", order, closes: shop.now }).text,
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

/** Letters of names that no sentence uses, so that every run of them in a text is from a name. */
const NAME_LETTERS = [..."ΔΦΓΛΩΠΨΣΘΞ"];
const nameUnit = fc.oneof({ weight: 5, arbitrary: fc.constantFrom(...NAME_LETTERS) }, fc.constant(" "));

describe("no phrase is cut", () => {
  it("every name in a text is whole, and the text takes two messages at most, in both languages", () => {
    const menus = anyMenu({
      offers: { min: 1, max: 40 },
      letters: { min: 1, max: 40 },
      unit: nameUnit,
      colours: 40,
      sizes: 8,
    });
    fc.assert(
      fc.property(
        menus,
        fc.array(anyText, { minLength: 4, maxLength: 12 }),
        fc.constantFrom(0, 1, 20),
        fc.constantFrom(0, 72_500),
        fc.boolean(),
        (menu, texts, pieces, taxPartsPerMillion, taxInPrice) => {
          const taxed = { ...menu, rules: { ...menu.rules, taxPartsPerMillion, taxInPrice } };
          const names = [...menu.offers, ...menu.blanks.flatMap(({ colours }) => colours)].map(
            ({ name }) => name,
          );
          const runs = names
            .flatMap((name) => [name, name.toLowerCase()])
            .sort((one, two) => two.length - one.length);
          for (const reply of replies(taxed, texts, pieces)) {
            expect(segments(reply), reply).toMatchObject({ alphabet: "GSM-7" });
            expect(segments(reply).parts, reply).toBeLessThanOrEqual(2);
            for (const [run] of reply.matchAll(
              new RegExp(
                `[${NAME_LETTERS.join("")} ]*[${NAME_LETTERS.join("")}][${NAME_LETTERS.join("")} ]*`,
                "g",
              ),
            ))
              expect(
                runs.some((name) => run.trim() === name.replace(/ +/g, " ") || run.trim() === name),
                reply,
              ).toBe(true);
            expect(reply, "no ellipsis").not.toContain("...");
          }
        },
      ),
      { numRuns: 150, seed: 20270501 },
    );
  });
});

describe("shortening", () => {
  it("takes the fullest wording that fits one message, else two", () => {
    const wordings = (lengths: readonly number[], small: boolean): number =>
      fitted((brevity) => "x".repeat(lengths[brevity] ?? 0), small).length;
    expect(wordings([200, 161, 160, 10, 10, 10], false)).toBe(160);
    expect(wordings([400, 306, 200, 200, 200, 100], false)).toBe(306);
    expect(wordings([400, 306, 200, 200, 200, 100], true)).toBe(100);
  });

  it("lists nine choices, and fewer where their names are too long for two messages", () => {
    expect(pageSize(Array.from({ length: 40 }, (_, n) => `Fourteen lett${n}`))).toBe(9);
    expect(pageSize(Array.from({ length: 40 }, () => "x".repeat(40)))).toBe(4);
    expect(pageSize(["€".repeat(200)])).toBe(1);
  });
});
