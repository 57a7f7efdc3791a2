/**
 * A layout drawn to scale as SVG: printed at 100 % an inch is an inch, which the bar below proves. Meaning is never in
 * colour alone: names and sizes are inside the pieces, turned art has an arrow, cuts are numbered in cutting order.
 */
import type { SheetLayout, SheetPiece } from "../../model/planning/sheets.ts";

export type DrawingWords = {
  readonly copies: (layout: SheetLayout) => string;
  readonly checkBar: string;
  readonly turned: string;
};

const ENGLISH: DrawingWords = {
  copies: ({ layout, copies }) => `Layout ${layout}: ${copies} ${copies === 1 ? "copy" : "copies"}`,
  checkBar: "1 in: measure this bar before cutting",
  turned: "turned",
};

/** Room around the sheet for dimensions, in inches. */
const LEFT = 0.75;
const TOP = 0.6;
const RIGHT = 0.35;
const BOTTOM = 1.1;

/** Tints that differ in lightness as well as in hue, light enough for black text. */
const TINTS = ["#ffffff", "#d9ecfa", "#fde9c4", "#d5efe4", "#f9f3b0", "#ece0ee", "#e6e6e6", "#fadfd2"];

/** One layout as a whole SVG document; `names` gives each design's name by its id. */
export function drawLayout(
  layout: SheetLayout,
  names: ReadonlyMap<string, string>,
  words: DrawingWords = ENGLISH,
): string {
  const width = LEFT + layout.width + RIGHT;
  const height = TOP + layout.height + BOTTOM;
  const designs = [...names.keys()];
  const parts = [
    text(LEFT, 0.25, 0.18, words.copies(layout), "start"),
    `<rect x="${n(LEFT)}" y="${n(TOP)}" width="${n(layout.width)}" height="${n(layout.height)}" fill="#fff" stroke="#000" stroke-width="0.02"/>`,
    ...layout.pieces.map((piece) =>
      drawPiece(
        layout,
        piece,
        names.get(piece.design) ?? piece.design,
        TINTS[designs.indexOf(piece.design) % TINTS.length] ?? "#fff",
        words,
      ),
    ),
    ...(layout.cuts ?? []).map((cut) => drawCut(layout, cut)),
    ...dimensions(layout),
    checkBar(layout, words),
  ];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${escaped(words.copies(layout))}" width="${n(width)}in" height="${n(height)}in" viewBox="0 0 ${n(width)} ${n(height)}" font-family="sans-serif" fill="#000">`,
    ...parts,
    "</svg>",
  ].join("\n");
}

/** Paper coordinates: x to the right, y down, from the upper left corner of the drawing. */
function onPaper(
  layout: SheetLayout,
  point: { readonly x: number; readonly y: number },
): { x: number; y: number } {
  return { x: LEFT + point.x, y: TOP + layout.height - point.y };
}

function drawPiece(
  layout: SheetLayout,
  piece: SheetPiece,
  name: string,
  tint: string,
  words: DrawingWords,
): string {
  const { x, y } = onPaper(layout, { x: piece.x, y: piece.y + piece.height });
  const middle = { x: x + piece.width / 2, y: y + piece.height / 2 };
  const size = `${n(piece.width)} x ${n(piece.height)} in`;
  const metric = `${centimetres(piece.width)} x ${centimetres(piece.height)} cm`;
  const upright = piece.width >= piece.height || piece.width > 1.8;
  const along = upright ? piece.width : piece.height;
  const across = upright ? piece.height : piece.width;
  const lines = [name, ...(piece.turned ? [words.turned] : []), size, metric];
  const longest = Math.max(...lines.map((line) => line.length));
  // A letter is about 0.58 of its size wide; the lines must stay inside the piece.
  const letter = Math.min(0.18, (along * 0.92) / (longest * 0.58), (across * 0.9) / (lines.length * 1.25));
  const spin = upright ? "" : ` transform="rotate(-90 ${n(middle.x)} ${n(middle.y)})"`;
  const start = middle.y - ((lines.length - 1) / 2) * letter * 1.25 + letter * 0.35;
  return [
    `<rect x="${n(x)}" y="${n(y)}" width="${n(piece.width)}" height="${n(piece.height)}" fill="${tint}" stroke="#000" stroke-width="0.012"/>`,
    `<g${spin}>`,
    ...lines.map((line, at) => text(middle.x, start + at * letter * 1.25, letter, line, "middle")),
    "</g>",
    ...(piece.turned ? [turnMark(x, y, Math.min(0.3, piece.width / 4, piece.height / 4))] : []),
  ].join("\n");
}

/** An arrow round a corner, in the piece's upper left corner: the art lies turned. */
function turnMark(x: number, y: number, size: number): string {
  const s = size;
  const d = `M${n(x + 0.3 * s)} ${n(y + 1.1 * s)} A${n(0.8 * s)} ${n(0.8 * s)} 0 0 1 ${n(x + 1.1 * s)} ${n(y + 0.3 * s)} m${n(-0.25 * s)} ${n(-0.2 * s)} l${n(0.25 * s)} ${n(0.2 * s)} l${n(-0.25 * s)} ${n(0.2 * s)}`;
  return `<path d="${d}" fill="none" stroke="#000" stroke-width="0.02"/>`;
}

function drawCut(layout: SheetLayout, cut: NonNullable<SheetLayout["cuts"]>[number]): string {
  const from = onPaper(layout, cut.from);
  const to = onPaper(layout, cut.to);
  const label =
    cut.direction === "upward" ? { x: from.x, y: from.y - 0.12 } : { x: from.x + 0.12, y: from.y };
  return [
    `<line x1="${n(from.x)}" y1="${n(from.y)}" x2="${n(to.x)}" y2="${n(to.y)}" stroke="#000" stroke-width="0.015" stroke-dasharray="0.12 0.06"/>`,
    `<circle cx="${n(label.x)}" cy="${n(label.y)}" r="0.11" fill="#fff" stroke="#000" stroke-width="0.01"/>`,
    text(label.x, label.y + 0.045, 0.13, String(cut.order), "middle"),
  ].join("\n");
}

function dimensions(layout: SheetLayout): string[] {
  const across = `${n(layout.width)} in (${centimetres(layout.width)} cm)`;
  const upward = `${n(layout.height)} in (${centimetres(layout.height)} cm)`;
  const middle = TOP + layout.height / 2;
  return [
    text(LEFT + layout.width / 2, TOP - 0.12, 0.16, across, "middle"),
    `<g transform="rotate(-90 ${n(LEFT - 0.18)} ${n(middle)})">${text(LEFT - 0.18, middle, 0.16, upward, "middle")}</g>`,
  ];
}

function checkBar(layout: SheetLayout, words: DrawingWords): string {
  const y = TOP + layout.height + 0.45;
  return [
    `<path d="M${n(LEFT)} ${n(y - 0.1)} v0.2 m0 -0.1 h1 m0 -0.1 v0.2" fill="none" stroke="#000" stroke-width="0.02"/>`,
    text(LEFT + 1.15, y + 0.06, 0.16, words.checkBar, "start"),
  ].join("\n");
}

function text(x: number, y: number, size: number, content: string, anchor: "start" | "middle"): string {
  return `<text x="${n(x)}" y="${n(y)}" font-size="${n(size)}" text-anchor="${anchor}">${escaped(content)}</text>`;
}

const n = (length: number) => String(Number(length.toFixed(4)));
const centimetres = (length: number) => (length * 2.54).toFixed(1);

const ESCAPES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};
const escaped = (words: string) => words.replace(/[&<>"']/g, (letter) => ESCAPES[letter] ?? letter);
