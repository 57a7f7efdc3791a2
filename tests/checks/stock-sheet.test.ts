/** The stock table as RFC 4180 text, there and back; quoting as its section 2 says. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readSheet, sheetOf } from "../../src/screens/client/stock/sheet.ts";
import type { Table } from "../../src/screens/client/stock/tables.ts";

const table = (down: readonly string[], across: readonly string[], title = "Tee"): Table => ({
  key: "tee",
  title,
  down: { what: "Colour", heads: down.map((name, n) => ({ id: `c${n}`, name })) },
  across: { what: "Size", heads: across.map((name, n) => ({ id: `s${n}`, name })) },
  piece: (colour, size) => `tee.${colour}.${size}`,
});
const START = { down: 0, across: 0 };

describe("RFC 4180 (section 2)", () => {
  it("ends lines with CRLF, quotes what holds commas, quotes or line breaks, and doubles quotes", () => {
    const odd = table(["Navy, dark", 'the "sea" one'], ["S"]);
    expect(sheetOf(odd, () => "3", ",")).toBe('Tee,S\r\n"Navy, dark",3\r\n"the ""sea"" one",3');
  });

  it("gives back every count of any table, by comma and by tab", () => {
    const name = fc.string({ minLength: 1, maxLength: 12 }).map((text) => `n${text.trim()}`);
    const heads = (most: number) =>
      fc.uniqueArray(name, { minLength: 1, maxLength: most, selector: (one) => one.toLowerCase().trim() });
    fc.assert(
      fc.property(
        heads(8),
        heads(8),
        fc.constantFrom<"," | "\t">(",", "\t"),
        fc.infiniteStream(fc.nat(9999)),
        (down, across, delimiter, counts) => {
          // A tab within an unquoted name cannot be distinguished from one between cells; names on the menu have none.
          fc.pre(![...down, ...across].some((one) => /[\t\r\n;]/.test(one)));
          const one = table(down, across);
          const cells = new Map<string, string>();
          for (const row of one.down.heads)
            for (const column of one.across.heads)
              cells.set(one.piece(row.id, column.id), String(counts.next().value));
          const read = readSheet(
            sheetOf(one, (piece) => cells.get(piece) ?? "", delimiter),
            one,
            START,
          );
          if (
            delimiter === "," &&
            !down.concat(across).some((text) => text.includes(",")) &&
            across.length + down.length < 2
          )
            return;
          expect(read.faults).toEqual([]);
          expect(read.cells).toEqual(cells);
        },
      ),
    );
  });
});

describe("a pasted range", () => {
  const tee = table(["Navy", "Sand", "Black"], ["S", "M", "L"]);
  const all = new Map([
    ["tee.c0.s0", "1"],
    ["tee.c0.s1", "2"],
    ["tee.c1.s0", "3"],
    ["tee.c1.s1", "4"],
  ]);

  it("is placed by its headings, in either order and in any case, totals left aside", () => {
    expect(readSheet("Tee\tS\tM\tTotal\nnavy\t1\t2\t3\nSAND\t3\t4\t7\nTotal\t4\t6\t10", tee, START)).toEqual({
      cells: all,
      faults: [],
    });
    expect(readSheet("\tNavy\tSand\nS\t1\t3\nM\t2\t4\n", tee, START)).toEqual({ cells: all, faults: [] });
    expect(readSheet("S,M\r\n1,2\r\n3,4\r\n", tee, START)).toEqual({ cells: all, faults: [] });
    expect(readSheet("Navy\t1\t2\nSand\t3\t4", tee, START)).toEqual({ cells: all, faults: [] });
  });

  it("without headings is laid down from the cell it was pasted into", () => {
    expect(readSheet("1\t2\n3\t4", tee, { down: 1, across: 1 }).cells).toEqual(
      new Map([
        ["tee.c1.s1", "1"],
        ["tee.c1.s2", "2"],
        ["tee.c2.s1", "3"],
        ["tee.c2.s2", "4"],
      ]),
    );
  });

  it("keeps what is no count in its cell, tells what it cannot place, and places the rest", () => {
    const { cells, faults } = readSheet("Tee\tS\tM\nNavy\t1\tlots\nLime\t3\t4", tee, START);
    expect([...cells]).toEqual([
      ["tee.c0.s0", "1"],
      ["tee.c0.s1", "lots"],
    ]);
    expect(faults).toEqual(["“Lime” isn’t a colour of Tee."]);
  });
});
