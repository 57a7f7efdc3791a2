import { describe, expect, it } from "vitest";
import { honestly, lossWords } from "../../src/planning/words/summary.ts";

describe("figures rounded to what is known", () => {
  it.each([
    [161_781, 3_100, "$1,600"],
    [161_781, 600, "$1,620"],
    [161_781, 0, "$1,618"],
    [-4_900, 2_000, "−\u2060$40"],
    [-400, 2_000, "$0"],
    [123_456_789, 90_000, "$1,235,000"],
  ])("%i with an error of %i is %s", (minor, error, words) => {
    expect(honestly(minor, error, "USD")).toBe(words);
  });

  it("speaks of whole units if a currency has no smaller ones", () => {
    expect(honestly(16_178, 30, "JPY")).toBe("¥16,200");
  });

  it.each([
    [0.001, "hardly any day loses money"],
    [0.11, "1 day in 9 loses money"],
    [0.72, "7 days in 10 lose money"],
  ])("a chance of %f: %s", (chance, words) => {
    expect(lossWords(chance)).toBe(words);
  });
});
