import { describe, expect, it } from "vitest";
import { cautionsFor } from "../../src/model/menu/cautions.ts";
import { exampleMenu } from "./test-stall.ts";

const menu = exampleMenu();
const [blank] = menu.blanks;
const [design] = menu.designs;
if (blank === undefined || design === undefined) throw new Error("the example has a blank and a design");
const at = (fabric: typeof blank.fabric, temperatureFahrenheit: number): string =>
  cautionsFor(
    { ...blank, fabric },
    { ...design, settings: { ...design.settings, temperatureFahrenheit } },
  ).join(" ");

describe("cautions beside the settings", () => {
  it("always name the hot platen, and polyester if it is pressed hot", () => {
    for (const fabric of ["cotton", "polyester", "blend", "other"] as const)
      expect(at(fabric, 365)).toContain("Hot platen: burns on touch.");
    // Polyester yellows and marks at the heat that cotton takes (common practice, no source).
    expect(at("polyester", 365)).toContain("Polyester at 365 °F can scorch");
    expect(at("blend", 365)).toContain("Polyester blend at 365 °F can scorch");
    expect(at("cotton", 365)).not.toContain("Polyester");
    expect(at("polyester", 250)).not.toContain("Polyester");
  });
});
