import { describe, expect, it } from "vitest";
import { FRESH, read } from "../../src/chat/read.ts";
import { exampleMenu } from "./example.ts";
import { written } from "./notation.ts";
import { READINGS } from "./readings.ts";

const menu = exampleMenu();

describe("reading what people type", () => {
  it("has at least 150 rows, each once", () => {
    expect(READINGS.length).toBeGreaterThanOrEqual(150);
    const texts = READINGS.map(([text, language]) => `${language} ${text}`);
    expect(new Set(texts).size).toBe(texts.length);
  });

  it.each(READINGS)("%j (%s) is %s", (text, language, reading) => {
    expect(written(read(menu, language, FRESH, text))).toBe(reading);
  });
});
