import { describe, expect, it } from "vitest";
import { taughtBy } from "../../src/planning/taught.ts";
import { inventedFair, request } from "./invented.ts";

const fair = inventedFair({
  seed: 3,
  blanks: 1,
  colours: 2,
  sizes: 2,
  designs: 2,
  passersBy: 2000,
  scenarios: 100,
});
const taught = (lessons: object) =>
  taughtBy(request({ ...fair, lessons: [{ id: "a", fair: "Low Meadow", day: "2027-04-10", ...lessons }] }));

describe("what lessons change", () => {
  it("is nothing without lessons, or with lessons that counted nothing", () => {
    expect(taughtBy(request(fair))).toEqual([]);
    expect(taught({})).toEqual([]);
  });

  it("adds asks to the sixty that a guess of shares is worth, fewer the more of them one fair had", () => {
    const sizes = [
      { blank: "blank-1", size: "S", asks: 30 },
      { blank: "blank-1", size: "M", asks: 90 },
    ];
    const [small, medium, ...rest] = taught({ sizes });
    expect(rest).toEqual([]);
    const before = small?.before ?? 0;
    expect(before + (medium?.before ?? 0)).toBeCloseTo(1);
    // By hand: fairs differ as sixty asks do, so 120 asks of one fair are worth 1 / (1 / 120 + 1 / 60) = 40, a quarter of
    // them for S. Dirichlet: (60 p + 10) of 60 + 40.
    expect(small?.after).toBeCloseTo((60 * before + 10) / 100);
    expect(small).toMatchObject({ part: "sizes", of: "blank-1, S", sample: 120 });
  });

  it("moves the share who buy towards what was counted, and spoilage by a hundred garments' worth of guess", () => {
    const [buying, spoilage] = taught({
      buying: { orders: 200, passersBy: 2000, passersByUncertainty: 0 },
      spoilage: { pressed: 100, spoiled: 10 },
    });
    expect(buying?.before).toBeCloseTo(0.04);
    // By hand, were the guess a gamma: it is worth 1 / 0.2 ** 2 = 25 orders, the fair 1 / (1 / 200 + 0.2 ** 2) = 22.
    const byHand = (25 + 22) / (25 / 0.04 + 22 / 0.1);
    expect(Math.abs((buying?.after ?? 0) / byHand - 1)).toBeLessThan(0.1);
    expect(spoilage).toMatchObject({ before: 0, after: 0.05, sample: 100 });
  });
});
