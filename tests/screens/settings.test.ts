import { describe, expect, it } from "vitest";
import type { Settings } from "../../src/model/menu/catalogue.ts";
import { dwells, temperature } from "../../src/screens/client/crew/words/settings.ts";

const FILM: Settings = {
  temperatureFahrenheit: 310,
  dwellSeconds: 12,
  pressure: "medium",
  peel: "warm",
  presses: 2,
  secondDwellSeconds: 6,
};

describe("settings on the bench", () => {
  // NIST SP 811, appendix B.8: t/°C = (t/°F - 32) / 1.8. 365 °F is 185 °C exactly.
  it.each([
    [212, 100],
    [365, 185],
    [310, 154],
    [400, 204],
  ])("%i °F is %i °C to the nearest degree", (fahrenheit, celsius) => {
    expect(temperature(fahrenheit)).toBe(`${fahrenheit} °F (${celsius} °C)`);
  });

  it("has one dwell for each time the platen comes down", () => {
    expect(dwells(FILM)).toEqual([12, 6]);
    const { secondDwellSeconds: _second, ...same } = FILM;
    expect(dwells({ ...same, presses: 3 })).toEqual([12, 12, 12]);
    expect(dwells({ ...FILM, presses: 1 })).toEqual([12]);
  });
});
