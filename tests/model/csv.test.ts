import Papa from "papaparse";
import { expect, it } from "vitest";
import { csvOf } from "../../src/model/basics/csv.ts";

const read = (text: string) => Papa.parse<string[]>(text, { skipEmptyLines: true }).data;
const columns = [
  ["word", ({ word }: { readonly word: string | number | null }) => word],
  ["after", () => "x"],
] as const;

it("is a table that every reader takes apart again, whatever its words hold", () => {
  const words = ['a "quoted", word', "two\r\nlines", "22 × 24 in", "", "a;b"];
  const text = csvOf(
    columns,
    words.map((word) => ({ word })),
  );
  expect(read(text)).toEqual([["word", "after"], ...words.map((word) => [word, "x"])]);
  expect(text.endsWith("x\r\n")).toBe(true);
});

/** Beginnings of cells that spreadsheets run: OWASP, "CSV Injection", https://owasp.org/www-community/attacks/CSV_Injection. */
it("keeps whatever a spreadsheet would run a word, and leaves sums as they are", () => {
  const run = ["=1+1", "=1+1\nand more", "+A1", "-A1", "-1+cmd", "@SUM(1)", "\t=1", "\r=1", "\n=1"];
  for (const word of run) expect(read(csvOf(columns, [{ word }]))[1]).toEqual([`'${word}`, "x"]);
  for (const word of ["-12.30", "12.30", -7, 0])
    expect(read(csvOf(columns, [{ word }]))[1]).toEqual([String(word), "x"]);
  expect(read(csvOf(columns, [{ word: null }]))[1]).toEqual(["", "x"]);
});
