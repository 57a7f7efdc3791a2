import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { BoardView } from "../../src/model/orders/queue.ts";
import { greatestFitting, heightOf, lineFitting, readyPixels } from "../../src/screens/client/board/fit.ts";
import { FIRST, heard, measured, shownOf, unchanged } from "../../src/screens/client/board/state.ts";

const board = (more: Partial<BoardView>): BoardView => ({
  version: 1,
  asOf: "",
  stall: "Tern",
  ready: [],
  pressing: [],
  waiting: [],
  more: 0,
  ...more,
});
const side = fc.integer({ min: 120, max: 4000 });
const box = fc.record({ width: side, height: side });
const numbers = (most: number) =>
  fc.uniqueArray(fc.integer({ min: 100, max: 9999 }), { maxLength: most, minLength: 0 });

describe("the board", () => {
  it("shows each number once, in number order, under its state", () => {
    const state = heard(FIRST, board({ ready: [107, 101], pressing: [104], waiting: [110, 102], more: 3 }));
    expect(shownOf(state)).toMatchObject({
      ready: [101, 107],
      making: [104],
      waiting: [102, 110],
      more: 3,
    });
    expect(shownOf(heard(FIRST, board({})))).toBe(null);
    expect(shownOf(FIRST)).toBe(null);
  });

  it("tells a number that has become ready from one that was, once", () => {
    const first = heard(FIRST, board({ ready: [101, 107] }));
    expect(first.fresh).toEqual([]);
    const second = heard(first, board({ ready: [101, 103] }));
    expect(second.fresh).toEqual([103]);
    expect(unchanged(second).fresh).toEqual([]);
    expect(heard(second, board({ ready: [103] })).fresh).toEqual([]);
  });

  it("leaves out no number without counting it, whatever room there is", () => {
    fc.assert(
      fc.property(
        fc.record({ window: box, ready: box, line: box }),
        numbers(20),
        numbers(6),
        numbers(40),
        fc.nat(50),
        (room, ready, pressing, waiting, more) => {
          const state = measured(heard(FIRST, board({ ready, pressing, waiting, more })), room);
          const shown = shownOf(state);
          if (ready.length + pressing.length + waiting.length + more === 0) return expect(shown).toBe(null);
          expect(shown?.ready).toHaveLength(ready.length);
          expect(shown?.making).toHaveLength(pressing.length);
          expect((shown?.waiting.length ?? 0) + (shown?.more ?? 0)).toBe(waiting.length + more);
        },
      ),
    );
  });

  it("has numbers as large as fit: one more pixel would not", () => {
    fc.assert(
      fc.property(numbers(20), box, box, (ready, room, window) => {
        const pixels = readyPixels(ready, room, window);
        const most = Math.round(Math.min(420, Math.max(120, window.width * 0.22)));
        if (pixels > 24) expect(heightOf(ready, pixels, room.width)).toBeLessThanOrEqual(room.height);
        if (pixels < most) expect(heightOf(ready, pixels + 1, room.width)).toBeGreaterThan(room.height);
      }),
    );
  });

  it("lets numbers in line give way before any on a press", () => {
    const line = lineFitting([101, 102], [103, 104, 105, 106], { width: 100, height: 145 }, 200);
    expect(line.pixels).toBe(24);
    expect(line.waiting).toEqual([103, 104]);
  });

  it("finds the greatest size that fits, and no less than the least if none does", () => {
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
