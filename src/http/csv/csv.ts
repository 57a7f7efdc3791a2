/** Stock sheets as RFC 4180 text. */
import Papa from "papaparse";
import type { Fault } from "../../model/basics/faults.ts";
import { ok, type Result, refused } from "../../model/basics/result.ts";
import { StockChange } from "../../model/orders/stock.ts";

const HOW = ["counted", "delivered", "corrected"] as const;

/** A sheet's rows as stock entries, or its faults, row by row. */
export function entriesFromCsv(text: string): Result<StockChange, readonly Fault[]> {
  const { data, errors, meta } = Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/, ""), {
    header: true,
    skipEmptyLines: "greedy",
    transformHeader: (header) => header.trim().toLowerCase(),
  });
  const faults: Fault[] = errors.map(({ row, message }) => ({ pointer: `#/${row ?? 0}`, detail: message }));
  const fields = meta.fields ?? [];
  const how = HOW.filter((column) => fields.includes(column));
  if (!fields.includes("piece") || how.length === 0) {
    faults.unshift({
      pointer: "#/0",
      detail: "the first row must name the columns: piece, and counted, delivered or corrected",
    });
    return refused(faults);
  }
  const entries = data.flatMap((row, index) => {
    const piece = (row["piece"] ?? "").trim();
    const what = piece.includes(".") ? { sku: piece } : { design: piece };
    const cells = how.filter((column) => (row[column] ?? "").trim() !== "");
    return cells.map((column) => {
      const pieces = Number((row[column] ?? "").trim());
      if (!Number.isInteger(pieces)) {
        faults.push({
          pointer: `#/${index + 1}/${column}`,
          detail: `"${row[column]}" is not a whole number`,
        });
      }
      return { ...what, [column]: pieces };
    });
  });
  if (faults.length > 0) return refused(faults);
  const parsed = StockChange.safeParse({ entries });
  if (parsed.success) return ok(parsed.data);
  const faulty = parsed.error.issues.map(({ path, message }) => ({
    pointer: `#/${Number(path[1] ?? -1) + 1}`,
    detail: message,
  }));
  return refused(faulty);
}
