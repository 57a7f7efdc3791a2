/** Two edits of one menu: what does not collide is kept of both, and nothing is lost. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Json } from "../../../src/screens/client/kit/json-pointer.ts";
import { merge, same } from "../../../src/screens/client/kit/merging.ts";

const base = {
  currency: "USD",
  offers: [
    { id: "a", name: "A", price: 100, offered: true },
    { id: "b", name: "B", price: 200, offered: true },
  ],
  rules: { holdMinutes: 3, lowStock: 3 },
};
const [a, b] = base.offers;
if (a === undefined || b === undefined) throw new Error("two offers");

describe("a merge", () => {
  it("keeps both edits of one entry if they touch different fields", () => {
    const mine = { ...base, offers: [{ ...a, price: 150 }, b], rules: { ...base.rules, holdMinutes: 5 } };
    const theirs = { ...base, offers: [{ ...a, name: "Ay" }, b], rules: { ...base.rules, lowStock: 9 } };
    const { menu, collisions } = merge(base, mine, theirs);
    expect(collisions).toEqual([]);
    expect(menu).toEqual({
      currency: "USD",
      offers: [{ ...a, name: "Ay", price: 150 }, b],
      rules: { holdMinutes: 5, lowStock: 9 },
    });
  });

  it("keeps what both added, theirs in its place, and tells a collision with mine standing", () => {
    const mine = { ...base, offers: [{ ...a, price: 150 }, b, { id: "m", name: "M" }] };
    const theirs = { ...base, offers: [{ ...a, price: 160 }, b, { id: "t", name: "T" }] };
    const { menu, collisions } = merge(base, mine, theirs);
    expect(menu).toMatchObject({ offers: [{ price: 150 }, b, { id: "t" }, { id: "m" }] });
    expect(collisions).toEqual([{ pointer: "#/offers/0/price", mine: 150, theirs: 160 }]);
  });

  it("takes out what one took out untouched by the other, and keeps what the other changed", () => {
    const without = { ...base, offers: [a] };
    expect(merge(base, without, { ...base, currency: "EUR" }).menu).toEqual({ ...without, currency: "EUR" });
    const changed = { ...base, offers: [a, { ...b, price: 1 }] };
    for (const { menu, collisions } of [merge(base, without, changed), merge(base, changed, without)]) {
      expect(menu).toEqual(changed);
      expect(collisions).toHaveLength(1);
    }
  });

  it("of any three menus: gives back the edited one if the other is untouched, and is the same for equals", () => {
    const value = fc.oneof(fc.integer(), fc.string(), fc.boolean());
    const entries = fc.uniqueArray(
      fc.record({ id: fc.constantFrom("a", "b", "c", "d"), name: value, price: value }),
      {
        selector: ({ id }) => id,
      },
    );
    const menus = fc.record({
      currency: value,
      offers: entries,
      rules: fc.dictionary(fc.constantFrom("x", "y"), value),
    });
    fc.assert(
      fc.property(menus, menus, (one: Json, other: Json) => {
        expect(same(merge(one, other, one).menu, other)).toBe(true);
        expect(same(merge(one, one, other).menu, other)).toBe(true);
        expect(same(merge(one, other, other).menu, other)).toBe(true);
      }),
    );
  });
});
