import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Currency, MINOR_DIGITS } from "../../src/model/basics/money.ts";
import { minorUnitsTyped, moneyWords } from "../../src/screens/client/crew/words/money.ts";

describe("sums on the counter", () => {
  it("are typed with a point or a comma, in whole minor units, or are no sums", () => {
    expect(minorUnitsTyped("30", "USD")).toBe(3000);
    expect(minorUnitsTyped("25.8", "USD")).toBe(2580);
    expect(minorUnitsTyped(" 25,80 ", "EUR")).toBe(2580);
    expect(minorUnitsTyped("2500", "JPY")).toBe(2500);
    for (const text of ["", "25.801", "-5", "1e3", "a", "25."])
      expect(minorUnitsTyped(text, "USD")).toBeNull();
    expect(minorUnitsTyped("2500.5", "JPY")).toBeNull();
  });

  it("are read back as they were typed, to the last minor unit of each currency", () => {
    const currencies = Object.keys(MINOR_DIGITS) as Currency[]; // the keys of a literal
    fc.assert(
      fc.property(fc.constantFrom(...currencies), fc.nat({ max: 9_999_999 }), (currency, units) => {
        const typed = (units / 10 ** MINOR_DIGITS[currency]).toFixed(MINOR_DIGITS[currency]);
        expect(minorUnitsTyped(typed, currency)).toBe(units);
        expect(moneyWords(units, currency).replace(/[^0-9]/g, "")).toBe(typed.replace(".", ""));
      }),
    );
  });
});
