/** Orders to the suppliers of blanks and of transfers: every line with its price, and the same as CSV. */
import { csvOf } from "../../../../model/basics/csv.ts";
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import type { SheetPlan } from "../../../../model/planning/sheets.ts";
import { minorDigits } from "../../../../planning/request/given.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import { spelt } from "../../kit/spelling.ts";
import { wordAt } from "../groups/names.ts";

export type BlankLine = {
  readonly blank: string;
  readonly styleNumber: string;
  readonly colour: string;
  readonly size: string;
  readonly pieces: number;
  readonly packOf: number;
  readonly packs: number;
  /** Minor units. */
  readonly each: number;
  readonly total: number;
};

/** The blanks to buy, a line for each colour and size, in the plan's order. */
export function blankLines({ bring }: Plan, request: Json): readonly BlankLine[] {
  const blanks = new Map(rowsAt(request, "#/blanks").map((row) => [wordAt(row, "#/id"), row]));
  const skus = new Map(rowsAt(request, "#/skus").map((row) => [wordAt(row, "#/sku"), row]));
  return bring.shopping
    .filter(({ kind, buy }) => kind === "sku" && buy > 0)
    .map(({ item: sku, buy, cost }) => {
      const [blank = "", colour = "", size = ""] = sku.split(".");
      const row = blanks.get(blank) ?? {};
      const own = valueAt(skus.get(sku) ?? {}, "#/casePack") ?? valueAt(row, "#/casePack");
      const packOf = typeof own === "number" && own > 0 ? own : 1;
      return {
        blank: wordAt(row, "#/name", blank),
        styleNumber: wordAt(row, "#/styleNumber"),
        colour,
        size,
        pieces: buy,
        packOf,
        packs: Math.ceil(buy / packOf),
        each: Math.round(cost / buy),
        total: cost,
      };
    });
}

const money = (minor: number, currency: string): string =>
  (minor / 10 ** minorDigits(currency)).toFixed(minorDigits(currency));

export const blanksCsv = (lines: readonly BlankLine[], currency: string): string =>
  csvOf<BlankLine>(
    [
      ["style number", ({ styleNumber }) => styleNumber],
      ["blank", ({ blank }) => blank],
      [spelt("colour"), ({ colour }) => colour],
      ["size", ({ size }) => size],
      ["pieces", ({ pieces }) => pieces],
      ["packs", ({ packs }) => packs],
      ["pieces a pack", ({ packOf }) => packOf],
      [`each, ${currency}`, ({ each }) => money(each, currency)],
      [`total, ${currency}`, ({ total }) => money(total, currency)],
    ],
    lines,
  );

export type TransferLine = {
  readonly design: string;
  readonly file: string;
  readonly size: string;
  readonly pieces: number;
};

/** The designs to print, with the size of their art and the file it is in. */
export function transferLines(sheets: SheetPlan, request: Json, plan: Json): readonly TransferLine[] {
  const designs = new Map(rowsAt(plan, "#/designs").map((row) => [wordAt(row, "#/id"), row]));
  const unit = wordAt(request, "#/unit", "in");
  return sheets.transfers.map(({ design, made }) => {
    const art = rowsAt(request, "#/designs").find((row) => wordAt(row, "#/id") === design) ?? {};
    const row = designs.get(design) ?? art;
    return {
      design: wordAt(row, "#/name", design),
      file: wordAt(row, "#/file"),
      size: `${wordAt(art, "#/width")} × ${wordAt(art, "#/height")} ${unit}`,
      pieces: made,
    };
  });
}

/** A layout of the order, or the price of layouts after the first. Sums in minor units. */
type LayoutLine = {
  readonly name: string;
  readonly size: string;
  /** The pieces of each design on one sheet. */
  readonly on: readonly { readonly design: string; readonly pieces: number }[];
  readonly copies: number | null;
  readonly each: number | null;
  readonly total: number;
};

/** What the print house charges for, line by line: it adds up to the plan's cost. */
export function layoutLines(
  { layouts, cost }: SheetPlan,
  request: Json,
  names: ReadonlyMap<string, string>,
): readonly LayoutLine[] {
  const sizes = new Map(rowsAt(request, "#/sheets").map((row) => [wordAt(row, "#/id"), row]));
  const unit = wordAt(request, "#/unit", "in");
  const lines = layouts.map(({ layout, sheet, pieces, copies, pricePerSheet }): LayoutLine => {
    const row = sizes.get(sheet) ?? {};
    const designs = [...new Set(pieces.map(({ design }) => design))];
    return {
      name: `Layout ${layout}`,
      size: `${wordAt(row, "#/width")} × ${wordAt(row, "#/height")} ${unit}`,
      on: designs.map((design) => ({
        design: names.get(design) ?? design,
        pieces: pieces.filter((piece) => piece.design === design).length,
      })),
      copies,
      each: pricePerSheet,
      total: pricePerSheet * copies,
    };
  });
  if (cost.extraLayouts === 0) return lines;
  const extra = { name: "Layouts after the first", size: "", on: [], copies: null, each: null };
  return [...lines, { ...extra, total: cost.extraLayouts }];
}

type OrderRow = {
  readonly line: string;
  readonly name: string;
  readonly file?: string;
  readonly size?: string;
  readonly pieces?: number;
  readonly copies?: number | null;
  readonly inAll?: number;
  /** Minor units. */
  readonly each?: number | null;
  readonly total?: number;
};

/** The order for transfers: each layout, what is on one sheet of it, then all designs with their art and pieces in all. */
export function transfersCsv(
  layouts: readonly LayoutLine[],
  lines: readonly TransferLine[],
  currency: string,
): string {
  const sum = (minor: number | null = null) => (minor === null ? null : money(minor, currency));
  const rows: readonly OrderRow[] = [
    ...layouts.flatMap(({ name, size, on, copies, each, total }): OrderRow[] => [
      { line: "layout", name, size, copies, each, total },
      ...on.map(({ design, pieces }): OrderRow => {
        const { file = "", size: art = "" } = lines.find((line) => line.design === design) ?? {};
        const inAll = pieces * (copies ?? 0);
        return { line: `on ${name.toLowerCase()}`, name: design, file, size: art, pieces, copies, inAll };
      }),
    ]),
    ...lines.map(
      ({ design, pieces, ...art }): OrderRow => ({ line: "design", name: design, inAll: pieces, ...art }),
    ),
  ];
  return csvOf<OrderRow>(
    [
      ["line", ({ line }) => line],
      ["name", ({ name }) => name],
      ["file", ({ file = "" }) => file],
      ["size", ({ size = "" }) => size],
      ["pieces on a sheet", ({ pieces = null }) => pieces],
      ["copies", ({ copies = null }) => copies],
      ["pieces in all", ({ inAll = null }) => inAll],
      [`each, ${currency}`, ({ each }) => sum(each)],
      [`total, ${currency}`, ({ total }) => sum(total)],
    ],
    rows,
  );
}
