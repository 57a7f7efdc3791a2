import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { greatestFitting, newlyReady, rowsOf } from "../../src/screens/client/board/rows.ts";

describe("the board's rows", () => {
  it("are one list in number order, each number once with its state", () => {
    const board = {
      version: 1,
      asOf: "",
      stall: "Tern",
      ready: [107, 101],
      pressing: [104],
      waiting: [102, 110],
      more: 0,
    };
    expect(rowsOf(board).map(({ number, state }) => `${number} ${state}`)).toEqual([
      "101 ready",
      "102 waiting",
      "104 pressing",
      "107 ready",
      "110 waiting",
    ]);
  });

  it("tell a number that has become ready from one that was", () => {
    expect(newlyReady([101, 107], [101, 103])).toEqual([103]);
    expect(newlyReady([101], [])).toEqual([]);
  });

  it("grow to the greatest size that fits, and no further than the least where none does", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 50 }),
        fc.integer({ min: 0, max: 400 }),
        fc.integer({ min: 0, max: 500 }),
        (least, span, edge) => {
          const found = greatestFitting(least, least + span, (pixels) => pixels <= edge);
          expect(found).toBe(Math.max(least, Math.min(edge, least + span)));
        },
      ),
    );
  });
});
