import { describe, expect, it } from "vitest";
import { EMPTY_DRAFT } from "../../src/chat/talk/talk.ts";
import { FRESH, read } from "../../src/chat/understand/read.ts";
import { exampleMenu } from "./example.ts";
import { isWhole, written } from "./notation.ts";
import { READINGS } from "./readings.ts";
import { UNSEEN } from "./unseen.ts";

const menu = exampleMenu();

describe("reading what people type", () => {
  it("has at least 150 rows, each once", () => {
    expect(READINGS.length).toBeGreaterThanOrEqual(150);
    const texts = READINGS.map(([text, language]) => `${language} ${text}`);
    expect(new Set(texts).size).toBe(texts.length);
  });

  it.each([
    // At "Longtail tee, which colour?" a text continues that garment, unless it names another offer.
    ["sand", "1 longtail-tee sand -"],
    ["sand M", "1 longtail-tee sand M"],
    ["M", "1 longtail-tee - M"],
    ["2 3", "1 longtail-tee sand L"],
    ["sand M x2", "2 longtail-tee sand M"],
    ["black cap", "1 tern-cap black one"],
    ["2 sand M", "2 longtail-tee sand M or 1 red-kite-tee sand M"],
    ["2", "#2"],
  ])("while the longtail tee's colour is asked for, %j is %s", (text, reading) => {
    const [longtail] = menu.offers;
    const draft = { ...EMPTY_DRAFT, offer: longtail?.id ?? null };
    expect(written(read(menu, "en", { draft }, text))).toBe(reading);
  });

  it.each(READINGS)("%j (%s) is %s", (text, language, reading) => {
    expect(written(read(menu, language, FRESH, text))).toBe(reading);
  });

  it("reads nine in ten whole orders of people who wrote from the menu alone, and misreads none", () => {
    const rows = UNSEEN.filter(({ reading }) => isWhole(reading)).map(({ text, language, reading }) => ({
      text,
      reading,
      got: written(read(menu, language, FRESH, text)),
    }));
    expect(rows.length).toBeGreaterThanOrEqual(40);
    expect(rows.filter(({ reading, got }) => got !== reading && isWhole(got))).toEqual([]);
    const understood = rows.filter(({ reading, got }) => got === reading).length;
    expect(understood / rows.length).toBeGreaterThanOrEqual(0.9);
  });
});
