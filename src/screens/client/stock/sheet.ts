/** A table as a spreadsheet has it: RFC 4180 text, or tabs as a copied range is given. */
import Papa from "papaparse";
import type { Table } from "./tables.ts";

/** The table with its headings; a comma between cells for a file, a tab for the clipboard. */
export function sheetOf(table: Table, value: (piece: string) => string, delimiter: "," | "\t"): string {
  const { down, across, piece } = table;
  const head = [table.title, ...across.heads.map(({ name }) => name)];
  const rows = down.heads.map((row) => [
    row.name,
    ...across.heads.map((column) => value(piece(row.id, column.id))),
  ]);
  return Papa.unparse([head, ...rows], { delimiter, newline: "\r\n" });
}

export type Pasted = {
  readonly cells: ReadonlyMap<string, string>;
  /** Cells that could not be placed, and why. */
  readonly faults: readonly string[];
};

type Heads = Table["down"]["heads"];
const plain = (text: string): string => text.trim().toLowerCase();
const find = (heads: Heads, text: string): number =>
  heads.findIndex(({ id, name }) => plain(name) === plain(text) || plain(id) === plain(text));
const isTotal = (text: string): boolean => /^(?:total|sum)s?$/i.test(text.trim());
/** The most characters kept of a pasted cell that is not a count. */
const MOST_SHOWN = 20;
export const isCount = (text: string): boolean => /^\d{1,5}$/.test(text.trim());

/** Whether most of these cells name heads of a list: this identifies a heading. */
function names(cells: readonly string[], heads: Heads): boolean {
  const filled = cells.filter((cell) => cell.trim() !== "" && !isTotal(cell));
  const known = filled.filter((cell) => find(heads, cell) >= 0);
  // A size may be a bare number, so numbers count as names only if all of them are.
  return (
    known.length > 0 &&
    known.length * 2 >= filled.length &&
    !(known.every(isCount) && known.length < filled.length)
  );
}

const transposed = (rows: readonly (readonly string[])[]): string[][] => {
  const width = Math.max(...rows.map((row) => row.length));
  return Array.from({ length: width }, (_, column) => rows.map((row) => row[column] ?? ""));
};

/**
 * Reads a copied range or a csv file into a table. Headings are recognised in either order, colours down or
 * across; without any, the range is laid down from the cell it was pasted into.
 */
export function readSheet(
  text: string,
  table: Table,
  from: { readonly down: number; readonly across: number },
): Pasted {
  const trimmed = text.replace(/^\uFEFF/, "").replace(/[\r\n]+$/, "");
  const delimiter = trimmed.includes("\t")
    ? "\t"
    : trimmed.includes(";") && !trimmed.includes(",")
      ? ";"
      : ",";
  const { data } = Papa.parse<string[]>(trimmed, { delimiter, skipEmptyLines: "greedy" });
  const { down, across } = table;
  const first = (rows: readonly string[][]) => ({
    top: (rows[0] ?? []).slice(1),
    side: rows.slice(1).map((row) => row[0] ?? ""),
  });
  let rows = data;
  const seen = first(rows);
  if (names(seen.top, down.heads) || names(seen.side, across.heads)) {
    if (!names(seen.top, across.heads) && !names(seen.side, down.heads)) rows = transposed(rows);
  }
  const { top, side } = first(rows);
  const hasSide = names(side, down.heads);
  // A row of headings over bare counts begins at the corner itself.
  const bareTop =
    !hasSide && find(across.heads, rows[0]?.[0] ?? "") >= 0 && names(rows[0] ?? [], across.heads);
  const hasTop = !bareTop && names(top, across.heads);
  const bareSide =
    !hasTop &&
    !hasSide &&
    !bareTop &&
    names(
      rows.map((row) => row[0] ?? ""),
      down.heads,
    );
  const topRow = hasTop || bareTop ? (rows[0] ?? []) : null;
  const withSide = hasSide || bareSide;

  const cells = new Map<string, string>();
  const faults = new Set<string>();
  rows.slice(topRow === null ? 0 : 1).forEach((row, n) => {
    const label = withSide ? (row[0] ?? "") : null;
    if (label !== null && isTotal(label)) return;
    const rowAt = label === null ? n + (topRow === null ? from.down : 0) : find(down.heads, label);
    const line = down.heads[rowAt];
    if (line === undefined) {
      faults.add(
        label === null
          ? "There are more rows than the table has."
          : `“${label}” isn’t a ${plain(down.what)} of ${table.title}.`,
      );
      return;
    }
    row.forEach((cell, column) => {
      if ((withSide && column === 0) || cell.trim() === "") return;
      const heading = topRow === null ? null : (topRow[column] ?? "");
      if (heading !== null && (isTotal(heading) || (hasTop && !withSide && column === 0))) return;
      const start = withSide ? -1 : from.across;
      const columnAt =
        heading === null ? column + (withSide ? start : from.across) : find(across.heads, heading);
      const head = across.heads[columnAt];
      if (head === undefined)
        faults.add(
          heading === null
            ? "There are more columns than the table has."
            : `“${heading}” isn’t a ${plain(across.what)} of ${table.title}.`,
        );
      // What is no count comes along: its cell is marked, and nothing of the copied range is lost.
      else
        cells.set(
          table.piece(line.id, head.id),
          isCount(cell) ? String(Number(cell)) : cell.trim().slice(0, MOST_SHOWN),
        );
    });
  });
  return { cells, faults: [...faults] };
}
