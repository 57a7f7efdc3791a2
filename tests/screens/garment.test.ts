import { describe, expect, it } from "vitest";
import { Look } from "../../src/model/garment/look.ts";
import { compose, type Drawn } from "../../src/screens/garment/compose.ts";
import { SHAPES } from "../../src/screens/garment/shapes.ts";

const HASH = "ab".repeat(32);
const look = (more: Partial<Record<keyof Look, unknown>> = {}): Look =>
  Look.parse({
    blankName: "Tee",
    outline: "tee",
    design: "otter",
    designName: "Otter",
    widthInches: 8,
    heightInches: 6,
    spot: { at: "centre-front", inches: 3 },
    picture: HASH,
    colours: [
      { colour: "sand", name: "Sand", swatch: "#dcc9a3" },
      { colour: "black", name: "Black", swatch: "#000000" },
    ],
    chestInches: { S: 16, XL: 24 },
    ...more,
  });
const address = (hash: string): string => `/pictures/${hash}`;
const draw = (of: Look, more = {}): Drawn => compose({ look: of, address, ...more });
const find = (drawn: Drawn, tag: Drawn["tag"]): Drawn | undefined =>
  drawn.children
    .flatMap((child) => (typeof child === "string" ? [] : [child]))
    .find((one) => one.tag === tag);
const figure = (drawn: Drawn | undefined, name: string): number => Number(drawn?.attributes[name]);

describe("the picture of a garment", () => {
  it("says in words what it is", () => {
    expect(draw(look()).attributes["aria-label"]).toBe("Otter on sand tee");
    expect(draw(look(), { colour: "black" }).attributes["aria-label"]).toBe("Otter on black tee");
  });
  it("has the design at true scale: its inches over the chest's", () => {
    for (const [size, chest] of [
      ["S", 16],
      ["XL", 24],
    ] as const) {
      const image = find(draw(look(), { size }), "image");
      expect(figure(image, "width") / SHAPES.tee.width.units).toBeCloseTo(8 / chest, 2);
      expect(figure(image, "height") / SHAPES.tee.width.units).toBeCloseTo(6 / chest, 2);
    }
  });
  it("has it where it goes: in the middle below the collar, on the wearer's left, or on the back", () => {
    const image = (spot: unknown) => find(draw(look({ spot, widthInches: 3 })), "image");
    const middle = (drawn: Drawn | undefined) => figure(drawn, "x") + figure(drawn, "width") / 2;
    expect(middle(image({ at: "centre-front" }))).toBeCloseTo(120, 0);
    expect(middle(image({ at: "left-chest" }))).toBeGreaterThan(130);
    expect(middle(image({ at: "right-chest" }))).toBeLessThan(110);
    const scale = SHAPES.tee.width.units / SHAPES.tee.width.inches;
    const below = figure(image({ at: "back", inches: 5 }), "y") - SHAPES.tee.collar;
    expect(below).toBeCloseTo(5 * scale, 0);
  });
  it("has an edge in the page's own ink, so that black shows on dark", () => {
    expect(find(draw(look(), { colour: "black" }), "path")?.attributes).toMatchObject({
      fill: "#000000",
      stroke: "currentColor",
    });
  });
  it("has initials in a perforated box if there is no picture, in an ink that shows on the colour", () => {
    const bare = draw(look({ picture: null, designName: "Red kite" }), { colour: "black" });
    expect(find(bare, "image")).toBeUndefined();
    expect(find(bare, "rect")?.attributes).toMatchObject({ stroke: "#ffffff", "stroke-dasharray": "5 4" });
    expect(find(bare, "text")?.children).toEqual(["RK"]);
    expect(find(draw(look({ picture: null })), "text")?.attributes["fill"]).toBe("#14181d");
  });
  it("holds no style and no script, whatever a design is called", () => {
    const walk = (drawn: Drawn): void => {
      expect(
        Object.keys(drawn.attributes).filter((name) => name === "style" || name.startsWith("on")),
      ).toEqual([]);
      for (const child of drawn.children) if (typeof child !== "string") walk(child);
    };
    walk(draw(look({ picture: null, designName: '<script>"' })));
  });
  it("fits the square in every outline and place", () => {
    for (const outline of Object.keys(SHAPES))
      for (const at of ["centre-front", "left-chest", "back", "left-sleeve", "cap-front", "middle"]) {
        const image = find(draw(look({ outline, spot: { at }, widthInches: 3, heightInches: 2 })), "image");
        expect(figure(image, "x"), `${outline} ${at}`).toBeGreaterThanOrEqual(0);
        expect(figure(image, "y") + figure(image, "height"), `${outline} ${at}`).toBeLessThanOrEqual(240);
      }
  });
});
