/**
 * How few sheets could ever do: bounds from dual feasible functions. Such a function maps a length to a
 * share of the sheet's side so that lengths which fit side by side never add up to more than one whole side;
 * the product of one function per side then bounds two-dimensional packing (Fekete and Schepers 2001,
 * Mathematical Programming 91, 11-31; Carlier, Clautiaux and Moukrim 2007, Computers & Operations Research
 * 34, 2223-2250). With the identity on both sides it is the continuous (area) bound.
 */
import { type PackPiece, type Sheet, waysToLie } from "./shapes.ts";

export type SheetBound = {
  /** Sheets needed at least, as a fraction: whole sheets are this rounded up. */
  readonly sheets: number;
  /** Each piece's share of one sheet under the best pair of functions; no sheet can hold more than 1 of them. */
  readonly weights: readonly number[];
};

type Share = (length: number) => number;

/** Reduces lengths under `small` to 0, and extends lengths that leave less than `small` to a whole side. */
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

/** Rounds down to k-ths, except for an exact multiple of the (k+1)-th part. */
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
export function sheetBound(
  pieces: readonly PackPiece[],
  counts: readonly number[],
  sheet: Sheet,
): SheetBound {
  const most = Math.max(4, Math.min(30, Math.floor(600 / Math.max(1, pieces.length))));
  const weights = heaviest(allWeights(pieces, sheet, most), counts);
  return { sheets: Math.max(0, loadOf(weights, counts)), weights: [...weights] };
}

/**
 * Several such lists of weights, each the heaviest for some mix of pieces: the first for `counts`, the others for
 * single pieces and pairs. A piece that fits the sheet in no way weighs more than a sheet.
 */
export function sheetWeights(
  pieces: readonly PackPiece[],
  counts: readonly number[],
  sheet: Sheet,
): readonly (readonly number[])[] {
  const lists = allWeights(pieces, sheet, Math.max(2, Math.min(10, Math.floor(120 / pieces.length))));
  const mixes: number[][] = [[...counts]];
  for (let one = 0; one < pieces.length && mixes.length < MOST_MIXES; one++) {
    for (let other = one; other < pieces.length && mixes.length < MOST_MIXES; other++) {
      const share = (at: number) => (pieces[at] ? sheet.width / (pieces[at].width * pieces[at].height) : 0);
      mixes.push(pieces.map((_, at) => (at === one || at === other ? share(at) : 0)));
    }
  }
  const chosen = new Set(mixes.map((mix) => heaviest(lists, mix)));
  const loose = pieces.map((piece) => waysToLie(piece, sheet).length === 0);
  return [...chosen].map((weights) => Array.from(weights, (weight, at) => (loose[at] ? 2 : weight)));
}

/** More mixes than this find hardly any other weights. */
const MOST_MIXES = 60;

/** The total weight of `counts`; a total over 1 never fits one sheet. */
export function loadOf(weights: ArrayLike<number>, counts: readonly number[]): number {
  let sum = 0;
  for (let at = 0; at < counts.length; at++) sum += (weights[at] ?? 0) * (counts[at] ?? 0);
  return sum;
}

function heaviest(lists: readonly Float64Array[], counts: readonly number[]): Float64Array {
  let best = lists[0] ?? new Float64Array();
  let most = -1;
  for (const weights of lists) {
    const load = loadOf(weights, counts);
    if (load > most) {
      most = load;
      best = weights;
    }
  }
  return best;
}

/** The weights under every pair of functions, one for each side. */
function allWeights(pieces: readonly PackPiece[], sheet: Sheet, most: number): Float64Array[] {
  const ways = pieces.map((piece) => waysToLie(piece, sheet));
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
  const values = (list: readonly Share[], side: "width" | "height", way: 0 | 1) =>
    list.map((share) => Float64Array.from(ways, (lie) => share((lie[way] ?? lie[0])?.[side] ?? 0)));
  const [widths, widthsTurned] = [values(across, "width", 0), values(across, "width", 1)];
  const [heights, heightsTurned] = [values(upward, "height", 0), values(upward, "height", 1)];
  return widths.flatMap((w, f) =>
    heights.map((h, g) => {
      const [wt, ht] = [widthsTurned[f] ?? w, heightsTurned[g] ?? h];
      return Float64Array.from(pieces, (_, i) =>
        Math.min((w[i] ?? 0) * (h[i] ?? 0), (wt[i] ?? 0) * (ht[i] ?? 0)),
      );
    }),
  );
}

/** Whole sheets from a fractional bound, forgiving the last bits of floating-point sums. */
export function wholeSheets(bound: number): number {
  return Math.ceil(bound - 1e-7);
}
