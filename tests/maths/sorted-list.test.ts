import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SortedList } from "../../src/maths/sorted-list.ts";

describe("a sorted list", () => {
  it("does what a set that is sorted afresh each time would do", () => {
    const step = fc.tuple(fc.constantFrom("add", "remove"), fc.integer({ min: 0, max: 30 }));
    fc.assert(
      fc.property(fc.array(step, { maxLength: 200 }), (steps) => {
        const list = new SortedList<number>((one, other) => one - other);
        const plain = new Set<number>();
        for (const [what, value] of steps) {
          if (what === "add" && !plain.has(value)) {
            plain.add(value);
            list.add(value);
          } else if (what === "remove" && plain.has(value)) {
            plain.delete(value);
            list.remove(value);
          } else if (what === "remove") {
            expect(() => list.remove(value)).toThrow("no such item");
          }
          const sorted = [...plain].sort((one, other) => one - other);
          expect([...list]).toEqual(sorted);
          expect(list.countBefore(value)).toBe(sorted.filter((other) => other < value).length);
        }
        const sorted = [...plain].sort((one, other) => one - other);
        expect([list.first(3), list.last(3), list.at(-1), list.length]).toEqual([
          sorted.slice(0, 3),
          sorted.slice(-3),
          sorted.at(-1),
          sorted.length,
        ]);
      }),
    );
  });
});
