import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { looksLikeCardNumber, withoutCardNumbers } from "../../src/model/basics/card-number.ts";

/** The check digit by the standard's own table: what a digit counts when it is doubled. */
const DOUBLED = [0, 2, 4, 6, 8, 1, 3, 5, 7, 9];
function withCheckDigit(digits: readonly number[]): string {
  const sum = [...digits]
    .reverse()
    .reduce((total, digit, place) => total + (place % 2 === 0 ? (DOUBLED[digit] ?? 0) : digit), 0);
  return `${digits.join("")}${(10 - (sum % 10)) % 10}`;
}
const digit = fc.integer({ min: 0, max: 9 });
const card = fc.array(digit, { minLength: 12, maxLength: 18 }).map(withCheckDigit);

describe("what looks like a card number", () => {
  it("is any 13 to 19 digits whose check digit holds, however they are grouped", () => {
    fc.assert(
      fc.property(
        card,
        fc.constantFrom("", " ", "-", "."),
        fc.integer({ min: 1, max: 6 }),
        (number, gap, size) => {
          const grouped = (number.match(new RegExp(`.{1,${size}}`, "g")) ?? []).join(gap);
          expect(looksLikeCardNumber(grouped)).toBe(true);
          expect(looksLikeCardNumber(`paid with ${grouped}, thanks`)).toBe(true);
        },
      ),
    );
  });

  it("is no longer one when one of its digits is wrong", () => {
    fc.assert(
      fc.property(card, fc.nat(), fc.integer({ min: 1, max: 9 }), (number, at, change) => {
        const place = at % number.length;
        const wrong = (Number(number[place]) + change) % 10;
        expect(looksLikeCardNumber(number.slice(0, place) + wrong + number.slice(place + 1))).toBe(false);
      }),
    );
  });

  it("is never a name, a sum, a pickup number or a phone number", () => {
    for (const text of ["Wren", "64.35", "931", "+1 212 555 0100", "2027-06-12 10:00", "00000000"])
      expect(looksLikeCardNumber(text)).toBe(false);
  });

  it("is found among other groups of digits", () => {
    const number = withCheckDigit([1, 2, 3, 4, 5, 6, 7, 8, 9, 1, 2, 3, 4, 5, 6]);
    expect(looksLikeCardNumber(`${number} 12`)).toBe(true);
    expect(looksLikeCardNumber(`7 ${number}`)).toBe(true);
  });

  it("is left out of a text, and nothing else is", () => {
    fc.assert(
      fc.property(card, fc.integer({ min: 1, max: 99 }), (number, quantity) => {
        const text = `${quantity} navy L, call +1 212 555 0142`;
        expect(withoutCardNumbers(text)).toBe(text);
        expect(withoutCardNumbers(`${text}, card ${number}.`)).toBe(`${text}, card ….`);
      }),
    );
  });
});
