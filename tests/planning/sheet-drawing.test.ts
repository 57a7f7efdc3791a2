import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { SheetRequest } from "../../src/model/planning/sheets.ts";
import { cutList } from "../../src/planning/sheets/cut-list.ts";
import { drawLayout } from "../../src/planning/sheets/drawing.ts";
import { planSheets } from "../../src/planning/sheets/sheets.ts";
import { COMMON_SHEET } from "./ganging.ts";

const request = SheetRequest.parse({
  designs: [
    { id: "front", name: 'heron <front> & "co"', width: 11, height: 6, count: 20 },
    { id: "cap", name: "=tern cap", width: 4, height: 2, count: 20 },
  ],
  sheets: [COMMON_SHEET],
  cuts: "guillotine",
});
const plan = planSheets(request);
if (plan.kind !== "plan") throw new Error("refused");
const names = new Map(request.designs.map(({ id, name }) => [id, name]));
const [layout] = plan.layouts;
if (!layout) throw new Error("no layout");
const svg = drawLayout(layout, names);

describe("a drawn layout", () => {
  test("is at true size: drawing units are inches, and the check bar is one of them", () => {
    const [, width, box] = /width="([\d.]+)in"[^>]* viewBox="0 0 ([\d.]+)/.exec(svg) ?? [];
    expect(width).toBe(box);
    expect(svg).toMatch(/h1 m0 -0\.1/);
  });

  test("has every piece to scale, with its name, both sizes, and turned pieces marked", () => {
    for (const piece of layout.pieces)
      expect(svg).toContain(`width="${piece.width}" height="${piece.height}"`);
    expect(svg).toContain("heron &lt;front&gt; &amp; &quot;co&quot;");
    expect(svg).toContain("4 x 2 in");
    expect(svg).toContain("10.2 x 5.1 cm");
    const turned = layout.pieces.filter((piece) => piece.turned).length;
    expect(turned).toBeGreaterThan(0);
    expect(svg.match(/>turned</g)).toHaveLength(turned);
  });

  test("numbers the cuts in cutting order", () => {
    const numbers = [...svg.matchAll(/r="0\.11"[^>]*\/>\n<text[^>]*>(\d+)</g)].map(([, number]) =>
      Number(number),
    );
    expect(numbers).toEqual(layout.cuts?.map((_, at) => at + 1));
    expect(numbers.length).toBe(layout.pieces.length - 1);
  });
});

test("the cut list has every piece and cut, and no cell a spreadsheet would run", () => {
  const csv = cutList(plan, names);
  const { data } = Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true });
  const pieces = plan.layouts.flatMap((each) => each.pieces);
  const cuts = plan.layouts.flatMap((each) => each.cuts ?? []);
  expect(data.filter(({ row }) => row === "piece")).toHaveLength(pieces.length);
  expect(data.filter(({ row }) => row?.startsWith("cut"))).toHaveLength(cuts.length);
  expect(data.some(({ design }) => design?.startsWith("="))).toBe(false);
  expect(csv.endsWith("\r\n")).toBe(true);
});
