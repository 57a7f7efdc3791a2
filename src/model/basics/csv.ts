/** Tables as RFC 4180 text. */
import Papa from "papaparse";

export type Cell = string | number | null;
export type Column<Row> = readonly [heading: string, cell: (row: Row) => Cell];

const FORMULA = /^[=+\-@\t\r\n]/;
const FIGURE = /^-?\d+(?:\.\d+)?$/;

/** Words may hold anything: one that a spreadsheet would run as a formula is kept a word by an apostrophe. */
const safe = (words: string): string => (FORMULA.test(words) && !FIGURE.test(words) ? `'${words}` : words);

/** The rows under their headings. */
export function csvOf<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string {
  const fields = columns.map(([heading]) => safe(heading));
  const data = rows.map((row) =>
    columns.map(([, cell]) => cell(row)).map((cell) => (typeof cell === "string" ? safe(cell) : cell)),
  );
  return `${Papa.unparse({ fields, data }, { newline: "\r\n" })}\r\n`;
}
