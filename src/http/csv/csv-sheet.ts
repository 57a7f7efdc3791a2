/** Sheets we send: RFC 4180 text with a header row, in which no cell can start a formula. */
import Papa from "papaparse";

export type Cell = string | number | null;
export type SheetColumn<Row> = { readonly heading: string; readonly cell: (row: Row) => Cell };

/** A sheet of rows. A text that a spreadsheet would read as a formula gets an apostrophe before it. */
export function csvSheet<Row>(columns: readonly SheetColumn<Row>[], rows: readonly Row[]): string {
  const fields = columns.map(({ heading }) => heading);
  const data = rows.map((row) => columns.map(({ cell }) => cell(row)));
  return `${Papa.unparse({ fields, data }, { newline: "\r\n", escapeFormulae: true })}\r\n`;
}

/** The headers of a sheet that a browser saves under a name. */
export const csvHeaders = (name: string) => ({
  "Content-Type": "text/csv; charset=utf-8; header=present",
  "Content-Disposition": `attachment; filename="${name}.csv"`,
});
