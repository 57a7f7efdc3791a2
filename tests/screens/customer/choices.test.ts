import { describe, expect, it } from "vitest";
import { en } from "../../../src/chat/wording/en.ts";
import { es } from "../../../src/chat/wording/es.ts";
import { askedIn, gistOf } from "../../../src/screens/client/customer/choices.ts";

const NOTHING = { quantity: null, offer: null, colour: null, size: null };
const items = ["Navy", "Sand", "Forest green"].map((name, index) => ({ number: index + 1, name }));
const said = (reply: string): readonly (readonly [string, string])[] =>
  askedIn(reply).choices.map(({ say, label }) => [say, label] as const);

describe("the choices of a reply", () => {
  it.each([
    ["en", en, "MORE", "sold out"],
    ["es", es, "MÁS", "agotado"],
  ] as const)("are found in the stall's own wording (%s)", (_, { sentences }, more, gone) => {
    const menu = sentences.menu({
      stall: "Tern & Tide",
      items: [
        { number: 1, name: "Longtail tee", price: "$24" },
        { number: 2, name: "Tern cap", gone: true },
      ],
      example: "1 navy XL",
      more: true,
      basket: 0,
    })(0);
    expect(askedIn(menu).choices.map(({ say, gone: isGone }) => [say, isGone])).toEqual([
      ["1", false],
      ["2", true],
      [more, false],
    ]);
    expect(said(menu)[1]).toEqual(["2", `Tern cap ${gone}`]);
    expect(askedIn(menu).lead).not.toContain("Longtail");

    const colour = sentences.askColour({ known: { ...NOTHING, offer: "Longtail tee" }, items, more: true })(
      0,
    );
    expect(said(colour)).toEqual([
      ["1", "Navy"],
      ["2", "Sand"],
      ["3", "Forest green"],
      [more, more],
    ]);
    expect(askedIn(colour).lead).toMatch(/\?$/);

    const many = sentences.askQuantity({ known: NOTHING, most: 4 })(0);
    expect(said(many)).toEqual([1, 2, 3, 4].map((number) => [String(number), ""]));
    expect(said(sentences.askQuantity({ known: NOTHING, most: 1 })(0))).toEqual([["1", ""]]);

    const confirm = sentences.confirm({
      lines: [{ ...NOTHING, quantity: 2 }],
      bill: { net: "$48", tax: "$3.48", total: "$51.48", taxInPrice: false },
      minutes: 3,
      wish: null,
      taken: null,
    })(0);
    expect(said(confirm).map(([say]) => say)).toEqual(["1", "2", "3"]);
    expect(askedIn(confirm).lead).toContain("$51.48");

    const short = sentences.short({
      order: { number: 101, word: "heron", stage: "waiting", place: 1, minutes: 4, short: 1, paused: false },
      what: null,
      items,
      paid: false,
      instead: true,
    })(0);
    expect(said(short)).toHaveLength(3);
  });

  it("keeps numbers that are part of a name with the name", () => {
    expect(said("Tee. Which size? 1 S 2 M 3 2XL 4 3XL")).toEqual([
      ["1", "S"],
      ["2", "M"],
      ["3", "2XL"],
      ["4", "3XL"],
    ]);
    expect(said("Which size? 1 Youth 2 2 Youth 4 3 Youth 6")).toEqual([
      ["1", "Youth 2"],
      ["2", "Youth 4"],
      ["3", "Youth 6"],
    ]);
  });

  it("finds none if nothing is asked", () => {
    for (const reply of [
      "101: 1st in line, about 3 min.",
      "Thank you! Order 101, pickup word granite.",
      "",
    ]) {
      expect(askedIn(reply)).toEqual({ lead: reply, choices: [] });
    }
  });
});

describe("the gist of an answered step", () => {
  it.each([
    ["Tern & Tide. Text a number, or all at once: 1 navy XL", "Tern & Tide."],
    ["Longtail tee, $24.50. Which color?", "Which color?"],
    ["Otter tee, Sand, L: $26 + $1.89 tax = $27.89, ready in about 9 min.\nOrder it?", 0],
    ["¿Qué color?", "¿Qué color?"],
    ["Choose", "Choose"],
  ] as const)("is one sentence of it, and all parts are the whole: %s", (lead, gist) => {
    const parts = gistOf(lead);
    expect(parts.join("")).toBe(lead);
    expect(parts[1]).toBe(gist === 0 ? lead.split("\n")[0] : gist);
  });
});
