import { describe, expect, it } from "vitest";
import { QUESTIONS } from "./questions.ts";

describe("the table of questions", () => {
  it("has 60 of each language, none twice", () => {
    for (const questions of Object.values(QUESTIONS))
      expect(new Set(questions.map(({ text }) => text.toLowerCase())).size).toBe(60);
  });
});
