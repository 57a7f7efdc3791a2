import { describe, expect, it } from "vitest";
import { luminance } from "../../src/model/garment/luminance.ts";
import { guessedOutline } from "../../src/model/garment/outline.ts";
import { spotOf } from "../../src/model/garment/spot.ts";
import { guessedSwatch, shaded, swatchOf } from "../../src/model/garment/swatch.ts";

describe("a swatch", () => {
  it.each([
    ["Navy", "#1f2a44"],
    ["Azul marino", "#1f2a44"],
    ["marrón", "#59402f"],
    ["Rebecca Purple", "#663399"],
    ["papaya whip", "#ffefd5"],
    ["True Royal", "#21489b"],
    ["somebody's favourite", "#a3a6a8"],
  ])("of %s is guessed as %s", (name, swatch) => {
    expect(guessedSwatch(name)).toBe(swatch);
  });
  it("follows the words around a colour's own", () => {
    const [light, plain, dark] = ["Light teal", "Teal", "Dark teal"].map((name) =>
      luminance(guessedSwatch(name)),
    );
    expect(light).toBeGreaterThan(plain ?? 1);
    expect(plain).toBeGreaterThan(dark ?? 1);
  });
  it("is what the stall typed, if it typed one", () => {
    expect(swatchOf({ name: "Navy", swatch: "#010203" })).toBe("#010203");
  });
  it("is as bright as WCAG 2.2 says: white 1, black 0, and the first grey that passes 4.5 : 1 on white", () => {
    expect(luminance("#ffffff")).toBeCloseTo(1, 6);
    expect(luminance("#000000")).toBe(0);
    const contrast = (grey: string) => 1.05 / (luminance(grey) + 0.05);
    // #767676 on white is 4.54 : 1 and #777777 is 4.48 : 1, as the techniques for success criterion 1.4.3 have it.
    expect(contrast("#767676")).toBeCloseTo(4.54, 2);
    expect(contrast("#777777")).toBeCloseTo(4.48, 2);
  });
  it("reaches white and black", () => {
    expect(shaded("#1f2a44", 1)).toBe("#ffffff");
    expect(shaded("#1f2a44", -1)).toBe("#000000");
  });
});

describe("an outline", () => {
  it.each([
    ["Tee", "tee"],
    ["T-shirt, child's", "tee"],
    ["Camiseta", "tee"],
    ["Long-sleeve tee", "long-sleeve"],
    ["Zip hoodie", "hoodie"],
    ["Tank top", "tank"],
    ["Tote bag", "tote"],
    ["Bolsa", "tote"],
    ["Pañuelo", "bandana"],
    ["Snap cap", "cap"],
    ["Tea towel", "other"],
    ["Cape", "other"],
  ])("of %s is a %s", (name, outline) => {
    expect(guessedOutline(name)).toBe(outline);
  });
  it("of whatever goes on a cap platen is a cap", () => {
    expect(guessedOutline("Trucker", "cap")).toBe("cap");
  });
});

describe("a spot", () => {
  it.each([
    ["centre front, 3 in below the collar", { at: "centre-front", inches: 3 }],
    ["Left chest, 3.5 inches down", { at: "left-chest", inches: 3.5 }],
    ['full back, 4" from the collar', { at: "back", inches: 4 }],
    ["Manga izquierda", { at: "left-sleeve" }],
    ["where it looks good", { at: "centre-front" }],
  ])("is read from %s", (placement, spot) => {
    expect(spotOf({ placement }, "tee")).toEqual(spot);
  });
  it("is one that the garment has", () => {
    const placement = "centre front, 3 in below the collar";
    expect(spotOf({ placement }, "tote")).toEqual({ at: "middle" });
    expect(spotOf({ placement }, "cap")).toEqual({ at: "cap-front" });
    expect(spotOf({ placement: "left sleeve" }, "tank")).toEqual({ at: "centre-front" });
  });
  it("is what the stall chose, whatever the words say", () => {
    expect(spotOf({ placement: "3.5 in below the collar", spot: { at: "left-chest" } }, "tee")).toEqual({
      at: "left-chest",
      inches: 3.5,
    });
    expect(spotOf({ placement: "left chest", spot: { at: "back", inches: 5 } }, "tee")).toEqual({
      at: "back",
      inches: 5,
    });
  });
});
