import highsLoader from "highs";
import { describe, expect, test } from "vitest";
import { SheetRequest } from "../../src/model/planning/sheets.ts";
import { packSheets } from "../../src/planning/packing/packing.ts";
import { planSheets } from "../../src/planning/sheets/sheets.ts";
import { COMMON_SHEET } from "../planning/ganging.ts";
import { packingFaults } from "../planning/packing-faults.ts";
import { continuousBound, l2Bound } from "./bounds.ts";
import { drawn, type Instance } from "./instances.ts";

const STEPS = 2_000_000;

function packed(instance: Instance, cuts: "free" | "guillotine" = "free") {
  const packing = packSheets(instance.pieces, instance.sheet, { cuts, steps: STEPS, seed: 1 });
  if (packing.kind !== "packed") throw new Error("a drawn piece is larger than its sheet");
  expect(packingFaults(instance, packing.sheets, cuts)).toEqual([]);
  return packing;
}

/**
 * The fewest sheets by an integer program over whole positions (HiGHS, registry package `highs` 1.15.3, MIT):
 * every unit square of every sheet is covered at most once.
 */
async function fewestByHighs({ pieces, sheet }: Instance, most: number): Promise<number> {
  const highs = await highsLoader();
  const squares = new Map<string, string[]>();
  const rows: string[] = [];
  const binaries: string[] = [];
  pieces.forEach((piece, at) => {
    const places: string[] = [];
    const ways = piece.mayTurn && piece.width !== piece.height ? [false, true] : [false];
    for (let bin = 0; bin < most; bin++) {
      const here: string[] = [];
      for (const turned of ways) {
        const [w, h] = turned ? [piece.height, piece.width] : [piece.width, piece.height];
        for (let x = 0; x + w <= sheet.width; x++) {
          for (let y = 0; y + h <= sheet.height; y++) {
            const name = `p${at}_${bin}_${x}_${y}_${turned ? 1 : 0}`;
            here.push(name);
            for (let i = x; i < x + w; i++) {
              for (let j = y; j < y + h; j++) {
                const key = `${bin} ${i} ${j}`;
                squares.set(key, [...(squares.get(key) ?? []), name]);
              }
            }
          }
        }
      }
      places.push(...here);
    }
    binaries.push(...places);
    rows.push(`${places.join(" + ")} = 1`);
  });
  for (const [key, names] of squares) rows.push(`${names.join(" + ")} - u${key.split(" ")[0]} <= 0`);
  const used = Array.from({ length: most }, (_, bin) => `u${bin}`);
  for (let bin = 1; bin < most; bin++) rows.push(`u${bin} - u${bin - 1} <= 0`);
  const program = `Minimize\n ${used.join(" + ")}\nSubject To\n ${rows.join("\n ")}\nBinary\n ${[...binaries, ...used].join("\n ")}\nEnd\n`;
  const solution = highs.solve(program);
  expect(solution.Status).toBe("Optimal");
  return Math.round(solution.ObjectiveValue);
}

describe("published classes of bin-packing instances", () => {
  // Berkey and Wang 1987; Martello and Vigo 1998: see instances.ts.
  for (const klass of [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]) {
    test(`class ${klass}: never under the continuous bound or L2, and at most one sheet above`, () => {
      for (const seed of [1, 2, 3]) {
        const instance = drawn(klass, 12, seed, false);
        const packing = packed(instance);
        const least = Math.max(continuousBound(instance), l2Bound(instance));
        expect(packing.sheets.length).toBeGreaterThanOrEqual(least);
        expect(packing.sheets.length).toBeLessThanOrEqual(least + 1);

        const turning = packed(drawn(klass, 12, seed, true));
        expect(turning.sheets.length).toBeGreaterThanOrEqual(continuousBound(instance));
        expect(turning.sheets.length).toBeLessThanOrEqual(packing.sheets.length);

        const straight = packed(instance, "guillotine");
        expect(straight.sheets.length).toBeGreaterThanOrEqual(packing.lowerBound);
      }
    });
  }

  test("tiny instances of class 1: the same number as an integer program", async () => {
    for (const [seed, mayTurn] of [
      [1, false],
      [2, false],
      [3, true],
      [4, false],
    ] as const) {
      const instance = drawn(1, 4, seed, mayTurn);
      const packing = packed(instance);
      expect(await fewestByHighs(instance, packing.sheets.length)).toBe(packing.sheets.length);
    }
  });
});

describe("published cutting problems, pieces of one height on a roll", () => {
  const onRoll = (roll: number, widths: readonly number[], counts: readonly number[]) => {
    const answer = planSheets(
      SheetRequest.parse({
        designs: widths.map((width, at) => ({
          id: `${width}`,
          name: `${width}`,
          width,
          height: 1,
          count: counts[at],
          mayTurn: false,
        })),
        sheets: [
          {
            id: "roll",
            name: "roll",
            width: roll,
            height: 1,
            margin: 0,
            gap: 0,
            prices: [{ copies: 1, price: 1 }],
          },
        ],
      }),
    );
    if (answer.kind !== "plan") throw new Error("the request was refused");
    return answer;
  };

  test("roll of 100, widths 45 36 31 14: fractional 452.25, whole 453", () => {
    // Data set of a modelling language's gallery of cutting-stock models (Gilmore and Gomory 1961); the whole
    // number was found again by HiGHS over all full patterns.
    const plan = onRoll(100, [45, 36, 31, 14], [97, 610, 395, 211]);
    expect(plan.sheets).toBe(453);
    expect(plan.bound).toMatchObject({ limit: 416 });
  });

  test("roll of 5600, thirteen widths: within 2 % of 73", () => {
    // The worked example of the encyclopaedia article on the cutting-stock problem: 73 rolls, 0.401 % waste.
    // Lengths are given in tenths here.
    const widths = [138, 152, 156, 171, 182, 188, 193, 200, 205, 210, 214, 215, 220];
    const plan = onRoll(560, widths, [22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20]);
    // A plan is held to 2 % of the cheapest: the branch and bound that found the last roll bought nothing in a shop.
    expect(plan.sheets).toBeLessThanOrEqual(Math.floor(1.02 * 73));
    expect(plan.bound.limit).toBe(73);
  });
});

describe("the common sheet", () => {
  test("a full front 10 in wide leaves room for a cap front on 11.25 x 14 in", () => {
    // Common practice, no source: full fronts are 6 to 10 in wide, cap fronts up to 5 x 2.5 in.
    const answer = planSheets(
      SheetRequest.parse({
        designs: [
          { id: "front", name: "heron front", width: 10, height: 11, count: 24 },
          { id: "badge", name: "heron badge", width: 8, height: 4, count: 0 },
        ],
        sheets: [COMMON_SHEET],
      }),
    );
    if (answer.kind !== "plan") throw new Error("the request was refused");
    const [layout] = answer.layouts;
    const cap = layout?.room.find(({ use, design }) => use === "cap-front" && design === "badge");
    expect(cap?.width).toBeGreaterThanOrEqual(4);
    expect(cap?.height).toBeGreaterThanOrEqual(2);
    expect((cap?.width ?? 0) / (cap?.height ?? 1)).toBeCloseTo(2, 1);
  });
});
