/** The cut list of a plan as RFC 4180 csv: each layout's pieces, then its cuts in cutting order. */
import Papa from "papaparse";
import type { SheetPlan } from "../../model/planning/sheets.ts";

const inch = (length: number) => Number(length.toFixed(3));
const centimetre = (length: number) => Number((length * 2.54).toFixed(2));

/** `names` gives each design's name by its id. */
export function cutList(plan: SheetPlan, names: ReadonlyMap<string, string>): string {
  const rows = plan.layouts.flatMap((layout) => {
    const head = { layout: layout.layout, copies: layout.copies, sheet: layout.sheet };
    const pieces = layout.pieces.map((piece, at) => ({
      ...head,
      row: "piece",
      order: at + 1,
      design: names.get(piece.design) ?? piece.design,
      turned: piece.turned ? "yes" : "no",
      from_x_in: inch(piece.x),
      from_y_in: inch(piece.y),
      to_x_in: inch(piece.x + piece.width),
      to_y_in: inch(piece.y + piece.height),
      width_in: inch(piece.width),
      height_in: inch(piece.height),
      width_cm: centimetre(piece.width),
      height_cm: centimetre(piece.height),
    }));
    const cuts = (layout.cuts ?? []).map((cut) => ({
      ...head,
      row: `cut ${cut.direction}`,
      order: cut.order,
      design: "",
      turned: "",
      from_x_in: inch(cut.from.x),
      from_y_in: inch(cut.from.y),
      to_x_in: inch(cut.to.x),
      to_y_in: inch(cut.to.y),
      width_in: "",
      height_in: "",
      width_cm: "",
      height_cm: "",
    }));
    return [...pieces, ...cuts];
  });
  return `${Papa.unparse(rows, { escapeFormulae: true, newline: "\r\n" })}\r\n`;
}
