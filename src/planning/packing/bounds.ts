/**
 * How few sheets could ever do: bounds from dual feasible functions. Such a function maps a length to a
 * share of the sheet's side so that lengths which fit side by side never add up to more than one whole side;
 * the product of one function per side then bounds two-dimensional packing (Fekete and Schepers 2001,
 * Mathematical Programming 91, 11-31; Carlier, Clautiaux and Moukrim 2007, Computers & Operations Research
 * 34, 2223-2250). With the identity on both sides it is the continuous (area) bound.
 */
import { type Piece, type Sheet, waysToLie } from "./shapes.ts";

export type SheetBound = {
  /** Sheets needed at least, as a fraction: whole sheets are this rounded up. */
  readonly sheets: number;
  /** Each piece's share of one sheet under the best pair of functions; no sheet can hold more than 1 of them. */
  readonly weights: readonly number[];
};

type Share = (length: number) => number;

/** Cuts what is under `small` to nothing and what leaves less than `small` to a whole side. */
const cutOff =
  (side: number, small: number): Share =>
  (length) =>
    length > side - small ? 1 : length < small ? 0 : length / side;

/** Counts how many lengths `unit` the piece takes away from the side. */
const counting = (side: number, unit: number): Share => {
  const whole = Math.floor(side / unit);
  return (length) => {
    if (length * 2 > side) return 1 - Math.floor((side - length) / unit) / whole;
    return length * 2 === side ? 0.5 : Math.floor(length / unit) / whole;
  };
};

/** Rounds to k-ths, downwards, except where the length is an exact multiple of the (k+1)-th part. */
const rounding =
  (side: number, parts: number): Share =>
  (length) => {
    const scaled = (length * (parts + 1)) / side;
    return Number.isInteger(scaled) ? length / side : Math.floor(scaled) / parts;
  };

/** At most `limit` of the values, evenly spread over their order. */
function spread(values: readonly number[], limit: number): number[] {
  if (values.length <= limit) return [...values];
  return Array.from({ length: limit }, (_, at) => values[Math.floor((at * values.length) / limit)] ?? 0);
}

function shares(side: number, lengths: readonly number[], most: number): Share[] {
  const all = new Set<number>();
  for (const length of lengths) {
    if (length * 2 <= side) all.add(length);
    else if (length < side) all.add(side - length);
  }
  const small = spread(
    [...all].filter((length) => length > 0).sort((a, b) => a - b),
    most,
  );
  const identity: Share = (length) => length / side;
  const above = small.map((length) => length + 1).filter((length) => length * 2 <= side);
  return [
    identity,
    ...[...new Set([...small, ...above])].map((length) => cutOff(side, length)),
    ...[...new Set([...small, ...above])].map((length) => counting(side, length)),
    ...[1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12].map((parts) => rounding(side, parts)),
  ];
}

/**
 * The best bound over pairs of dual feasible functions, for `counts[i]` copies of each piece.
 * A piece that may turn takes the cheaper of its two ways, which keeps the bound valid.
 * Every piece must fit the sheet in some way.
 */
export function sheetBound(pieces: readonly Piece[], counts: readonly number[], sheet: Sheet): SheetBound {
  const ways = pieces.map((piece) => waysToLie(piece, sheet));
  const most = Math.max(4, Math.min(30, Math.floor(600 / Math.max(1, pieces.length))));
  const across = shares(
    sheet.width,
    ways.flatMap((list) => list.map((way) => way.width)),
    most,
  );
  const upward = shares(
    sheet.height,
    ways.flatMap((list) => list.map((way) => way.height)),
    most,
  );
  const values = (list: readonly Share[], side: "width" | "height") =>
    list.map((share) => Float64Array.from(ways, (lie) => share(lie[0]?.[side] ?? 0)));
  const turned = (list: readonly Share[], side: "width" | "height") =>
    list.map((share) => Float64Array.from(ways, (lie) => share((lie[1] ?? lie[0])?.[side] ?? 0)));
  const widths = values(across, "width");
  const widthsTurned = turned(across, "width");
  const heights = values(upward, "height");
  const heightsTurned = turned(upward, "height");

  let best = -1;
  let bestPair: readonly [number, number] = [0, 0];
  for (let f = 0; f < widths.length; f++) {
    const w = widths[f] ?? new Float64Array();
    const wt = widthsTurned[f] ?? w;
    for (let g = 0; g < heights.length; g++) {
      const h = heights[g] ?? new Float64Array();
      const ht = heightsTurned[g] ?? h;
      let sum = 0;
      for (let i = 0; i < pieces.length; i++) {
        const plain = (w[i] ?? 0) * (h[i] ?? 0);
        const other = (wt[i] ?? 0) * (ht[i] ?? 0);
        sum += Math.min(plain, other) * (counts[i] ?? 0);
      }
      if (sum > best) {
        best = sum;
        bestPair = [f, g];
      }
    }
  }
  const [f, g] = bestPair;
  const weights = pieces.map((_, i) =>
    Math.min(
      (widths[f]?.[i] ?? 0) * (heights[g]?.[i] ?? 0),
      (widthsTurned[f]?.[i] ?? 0) * (heightsTurned[g]?.[i] ?? 0),
    ),
  );
  return { sheets: Math.max(0, best), weights };
}

/** Whole sheets from a fractional bound, forgiving the last bits of floating-point sums. */
export function wholeSheets(bound: number): number {
  return Math.ceil(bound - 1e-7);
}
