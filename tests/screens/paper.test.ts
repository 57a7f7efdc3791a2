import { describe, expect, it } from "vitest";
import { PAPER_NUMBERS } from "../../src/model/orders/place-order.ts";
import { nextPaperNumber, paperFrom } from "../../src/screens/client/counter/take/paper.ts";

const NOW = new Date(2027, 5, 12, 14, 30);

describe("a slip written on paper", () => {
  it("has its own number and the time of day it was written", () => {
    expect(paperFrom(" 900 ", "13:05", NOW)).toEqual({
      number: 900,
      takenAt: new Date(2027, 5, 12, 13, 5).toISOString(),
    });
    expect(paperFrom("999", "14:30", NOW)).toMatchObject({ number: 999 });
  });

  it("is refused outside its block, without a time, and from the future", () => {
    for (const number of ["", "899", "1000", "9e2x", "931.5"])
      expect(paperFrom(number, "13:05", NOW)).toContain("must be from 900 to 999");
    expect(paperFrom("931", "", NOW)).toBe("Give the time on the slip.");
    expect(paperFrom("931", "14:31", NOW)).toContain("has not come yet");
  });

  it("counts on to the end of the block that the stall keeps for paper", () => {
    expect(nextPaperNumber(PAPER_NUMBERS.first)).toBe(String(PAPER_NUMBERS.first + 1));
    expect(nextPaperNumber(PAPER_NUMBERS.last - 1)).toBe(String(PAPER_NUMBERS.last));
    expect(nextPaperNumber(PAPER_NUMBERS.last)).toBe("");
  });
});
