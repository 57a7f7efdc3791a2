import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitsExactly } from "../../src/planning/packing/corners.ts";
import { guillotineBoxes } from "../../src/planning/packing/guillotine.ts";
import { packSheets } from "../../src/planning/packing/packing.ts";
import type { PackPiece, Sheet } from "../../src/planning/packing/shapes.ts";
import { packingFaults } from "./packing-faults.ts";

const anyPiece = (most: number) =>
  fc.record({
    width: fc.integer({ min: 1, max: most }),
    height: fc.integer({ min: 1, max: most }),
    mayTurn: fc.boolean(),
  });

/** Whether pieces fit, by trying every whole position: slow, but obviously right. */
function fitsByTrying(pieces: readonly PackPiece[], sheet: Sheet): boolean {
  const taken = new Uint8Array(sheet.width * sheet.height);
  const mark = (x: number, y: number, w: number, h: number, value: number) => {
    for (let i = x; i < x + w; i++) for (let j = y; j < y + h; j++) taken[j * sheet.width + i] = value;
  };
  const free = (x: number, y: number, w: number, h: number) => {
    for (let i = x; i < x + w; i++)
      for (let j = y; j < y + h; j++) if (taken[j * sheet.width + i] === 1) return false;
    return true;
  };
  const place = (at: number): boolean => {
    const piece = pieces[at];
    if (!piece) return true;
    for (const [w, h] of piece.mayTurn
      ? [
          [piece.width, piece.height],
          [piece.height, piece.width],
        ]
      : [[piece.width, piece.height]]) {
      if (w === undefined || h === undefined) continue;
      for (let x = 0; x + w <= sheet.width; x++) {
        for (let y = 0; y + h <= sheet.height; y++) {
          if (!free(x, y, w, h)) continue;
          mark(x, y, w, h, 1);
          const done = place(at + 1);
          mark(x, y, w, h, 0);
          if (done) return true;
        }
      }
    }
    return false;
  };
  return place(0);
}

describe("one sheet", () => {
  test("the exact answer is the one found by trying every position", () => {
    let yes = 0;
    let no = 0;
    fc.assert(
      fc.property(fc.array(anyPiece(4), { minLength: 3, maxLength: 6 }), (pieces) => {
        const sheet = { width: 6, height: 5 };
        const area = pieces.reduce((sum, { width, height }) => sum + width * height, 0);
        fc.pre(area > 18 && area <= 30);
        const verdict = fitsExactly(pieces, sheet, { left: 1e9 });
        if (verdict.fits === "yes") {
          yes += 1;
          expect(packingFaults({ pieces, sheet }, [verdict.placed], "free")).toEqual([]);
        } else no += 1;
        expect(verdict.fits).toBe(fitsByTrying(pieces, sheet) ? "yes" : "no");
      }),
      { numRuns: 400, seed: 3 },
    );
    // Both answers must come up often, or the comparison says little.
    expect(Math.min(yes, no)).toBeGreaterThan(50);
  });

  test("a pinwheel fits freely and cannot be cut straight", () => {
    const sheet = { width: 5, height: 5 };
    const pieces: PackPiece[] = [
      [3, 2],
      [2, 3],
      [3, 2],
      [2, 3],
      [1, 1],
    ].map(([width = 0, height = 0]) => ({ width, height, mayTurn: false }));
    expect(fitsExactly(pieces, sheet, { left: 1e6 }).fits).toBe("yes");
    expect(guillotineBoxes(pieces, sheet).place([1, 1, 1, 1, 1], { left: 1e6 })).toBe("no");
    const straight = packSheets(pieces, sheet, { cuts: "guillotine", steps: 1e6, seed: 1 });
    expect(straight.kind === "packed" && straight.sheets.length).toBe(2);
  });

  test("running out of steps is said, never answered with no", () => {
    const pieces = Array.from({ length: 9 }, (_, at) => ({ width: 20 + at, height: 33 - at, mayTurn: true }));
    expect(fitsExactly(pieces, { width: 85, height: 86 }, { left: 8 }).fits).toBe("unknown");
    expect(
      guillotineBoxes(pieces, { width: 85, height: 86 }).place(
        pieces.map(() => 1),
        { left: 8 },
      ),
    ).toBeNull();
  });
});

describe("many sheets", () => {
  for (const cuts of ["free", "guillotine"] as const) {
    test(`every ${cuts} packing is sound and not under its bound`, () => {
      fc.assert(
        fc.property(
          fc.array(anyPiece(40), { minLength: 1, maxLength: 30 }),
          fc.integer({ min: 1, max: 1000 }),
          (pieces, seed) => {
            const sheet = { width: 50, height: 45 };
            const packing = packSheets(pieces, sheet, { cuts, steps: 300_000, seed });
            if (packing.kind !== "packed") throw new Error("a piece is larger than the sheet");
            expect(packingFaults({ pieces, sheet }, packing.sheets, cuts)).toEqual([]);
            expect(packing.sheets.length).toBeGreaterThanOrEqual(packing.lowerBound);
          },
        ),
        { numRuns: 60, seed: 5 },
      );
    });
  }

  test("more steps never need more sheets", () => {
    const pieces = Array.from({ length: 40 }, (_, at) => ({
      width: 7 + ((at * 13) % 31),
      height: 5 + ((at * 17) % 29),
      mayTurn: false,
    }));
    const sheets = [20_000, 2_000_000].map((steps) => {
      const packing = packSheets(pieces, { width: 60, height: 60 }, { cuts: "free", steps, seed: 1 });
      return packing.kind === "packed" ? packing.sheets.length : Number.NaN;
    });
    expect(sheets[1]).toBeLessThanOrEqual(sheets[0] ?? 0);
  });

  test("pieces larger than the sheet are named", () => {
    const pieces = [
      { width: 4, height: 9, mayTurn: false },
      { width: 4, height: 9, mayTurn: true },
    ];
    expect(packSheets(pieces, { width: 10, height: 5 }, { cuts: "free", steps: 1000, seed: 1 })).toEqual({
      kind: "too-large",
      pieces: [0],
    });
  });
});
