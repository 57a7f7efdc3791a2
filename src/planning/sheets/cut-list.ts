/** The cut list of a plan as RFC 4180 csv: each layout's pieces, then its cuts in cutting order. */
import { csvOf } from "../../model/basics/csv.ts";
import type { SheetPlan } from "../../model/planning/sheets.ts";

type Point = { readonly x: number; readonly y: number };
type Row = {
  readonly layout: SheetPlan["layouts"][number];
  readonly row: string;
  readonly order: number;
  readonly design?: string;
  readonly turned?: string;
  readonly from: Point;
  readonly to: Point;
  /** Of a piece, in inches. */
  readonly size?: { readonly width: number; readonly height: number };
};

const inch = (length: number | undefined) => (length === undefined ? "" : Number(length.toFixed(3)));
const centimetre = (length: number | undefined) =>
  length === undefined ? "" : Number((length * 2.54).toFixed(2));

/** `names` gives each design's name by its id. */
export function cutList(plan: SheetPlan, names: ReadonlyMap<string, string>): string {
  const rows = plan.layouts.flatMap((layout): Row[] => [
    ...layout.pieces.map(({ design, turned, x, y, width, height }, at) => ({
      layout,
      row: "piece",
      order: at + 1,
      design: names.get(design) ?? design,
      turned: turned ? "yes" : "no",
      from: { x, y },
      to: { x: x + width, y: y + height },
      size: { width, height },
    })),
    ...(layout.cuts ?? []).map(({ direction, order, from, to }) => ({
      ...{ layout, row: `cut ${direction}`, order, from, to },
    })),
  ]);
  return csvOf<Row>(
    [
      ["layout", ({ layout }) => layout.layout],
      ["copies", ({ layout }) => layout.copies],
      ["sheet", ({ layout }) => layout.sheet],
      ["row", ({ row }) => row],
      ["order", ({ order }) => order],
      ["design", ({ design = "" }) => design],
      ["turned", ({ turned = "" }) => turned],
      ["from_x_in", ({ from }) => inch(from.x)],
      ["from_y_in", ({ from }) => inch(from.y)],
      ["to_x_in", ({ to }) => inch(to.x)],
      ["to_y_in", ({ to }) => inch(to.y)],
      ["width_in", ({ size }) => inch(size?.width)],
      ["height_in", ({ size }) => inch(size?.height)],
      ["width_cm", ({ size }) => centimetre(size?.width)],
      ["height_cm", ({ size }) => centimetre(size?.height)],
    ],
    rows,
  );
}
