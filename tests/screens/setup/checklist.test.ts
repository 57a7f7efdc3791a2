import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Bundle } from "../../../src/model/menu/bundles.ts";
import { Blank, Colour, Design, Offer, Press, Settings, Size } from "../../../src/model/menu/catalogue.ts";
import { Rules } from "../../../src/model/menu/rules.ts";
import { GarmentWish } from "../../../src/model/menu/wishes.ts";
import type { Json } from "../../../src/screens/client/kit/json-pointer.ts";
import { checklist } from "../../../src/screens/client/setup/checklist.ts";
import { ESSENTIAL_RULES, OTHER_RULES } from "../../../src/screens/client/setup/form/rules.ts";
import { LISTS } from "../../../src/screens/client/setup/form/sections.ts";
import { checkMenu } from "../../../src/screens/client/setup/saving/checking.ts";
import { EMPTY_MENU } from "../../../src/screens/client/setup/saving/keeping.ts";

const said = (menu: Json, unsaved: number): readonly string[] =>
  checklist(menu, checkMenu(menu).faults, unsaved).map(
    ({ name, isDone, says }) => `${isDone ? "✓" : "○"} ${name}: ${says}`,
  );
const example = JSON.parse(
  readFileSync(new URL("../../../examples/tern/menu.json", import.meta.url), "utf8"),
) as { readonly [name: string]: Json; readonly offers: readonly { readonly [name: string]: Json }[] }; // our own file

describe("the steps of a set-up", () => {
  it("say what an empty menu wants first", () => {
    expect(said(EMPTY_MENU, 0)).toEqual([
      "○ Garments: Add one",
      "○ Designs: Add one",
      "○ Products: Add one",
      "✓ Presses: 1",
      "✓ Rules: Set",
      expect.stringMatching(/^○ Check: \d to fix$/),
    ]);
  });

  it("are all done once a whole menu is saved", () => {
    const done = said(example, 0);
    expect(done.every((one) => one.startsWith("✓"))).toBe(true);
    expect(done.at(-1)).toBe("✓ Check: Ready to sell");
    expect(said(example, 2).at(-1)).toBe("○ Check: Save");
  });

  it("say where something is to fix", () => {
    const [first, ...others] = example.offers;
    const wrong = { ...example, offers: [{ ...first, price: "a lot" }, ...others] };
    expect(said(wrong, 1)).toContain("○ Products: 1 to fix");
    expect(said(wrong, 1).at(-1)).toBe("○ Check: 1 to fix");
  });
});

it.each([
  ["blanks", Blank, ["colours", "sizes"]],
  ["colours", Colour, []],
  ["sizes", Size, []],
  // Its settings are fields of their own.
  ["designs", Design, []],
  // The limits are boxes; a surcharge has a field if a size has one.
  ["offers", Offer, ["colours", "sizes", "surcharges"]],
  ["bundles", Bundle, ["takes"]],
  ["wishes", GarmentWish, []],
  ["presses", Press, []],
] as const)("has a field for all that one of the %s has", (list, schema, apart) => {
  const has = LISTS[list].fields(EMPTY_MENU, `#/${list}/0`).map(({ pointer }) => pointer.split("/").slice(3));
  const asked = new Set(has.map(([name]) => name));
  const all = Object.keys(schema.shape).filter((name) => name !== "id" || list === "presses");
  expect(all.filter((name) => !asked.has(name) && !(apart as readonly string[]).includes(name))).toEqual([]);
  if (list === "designs")
    expect(has.flatMap(([name, inner]) => (name === "settings" ? [inner] : []))).toEqual(
      Object.keys(Settings.shape),
    );
});

it("has a field for every rule of a stall, five of them at once", () => {
  const fields = [...ESSENTIAL_RULES, ...OTHER_RULES.flatMap(([, group]) => group)].map(
    ({ pointer }) => pointer,
  );
  const rules = fields.flatMap((pointer) => /^#\/rules\/(.*)$/.exec(pointer)?.[1] ?? []);
  expect(rules.toSorted()).toEqual(Object.keys(Rules.shape).toSorted());
  expect(ESSENTIAL_RULES).toHaveLength(5);
});
