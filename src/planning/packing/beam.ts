/**
 * For packings with hardly any waste to spare: builds many half-finished packings side by side, piece by piece,
 * and keeps only the most promising of each length. What no remaining piece can fill is counted as lost at once,
 * and a packing that has lost more than there is to lose is dropped.
 */
import type { Random } from "../../maths/random.ts";
import type { Filling, Orientations, PackSteps, Placement, Sheet } from "./shapes.ts";

type Partial = {
  readonly before: Partial | null;
  readonly placement: Placement | null;
  /** Sheet being filled, and the sheet the last placement went to. */
  readonly sheet: number;
  readonly onto: number;
  readonly starts: number[];
  readonly tops: number[];
  readonly used: Uint32Array;
  /** The sum of the marks of the pieces used: equal sets have equal sums. */
  readonly marks: number;
  readonly lost: number;
  readonly packed: number;
  readonly promise: number;
};

/** Considering one more piece for a partial packing costs this many steps of the plain fillers. */
const STEPS_A_LOOK = 60;
const MOST_FROM_ONE = 3;

/** Packs all pieces onto `count` sheets, `width` partial packings at a time; null when none is left. */
export function beamInto(
  orientations: Orientations,
  sheet: Sheet,
  count: number,
  width: number,
  random: Random,
  steps: PackSteps,
): Filling | null {
  const whole = sheet.width * sheet.height;
  const total = orientations.areas.reduce((sum, area) => sum + area, 0);
  const spare = count * whole - total;
  if (spare < 0) return null;
  const twins = twinsBefore(orientations);
  const marks = Float64Array.from({ length: orientations.count }, () => Math.floor(random.next() * 2 ** 44));
  const empty = new Uint32Array((orientations.count + 31) >> 5);
  let beam: Partial[] = [
    {
      before: null,
      placement: null,
      sheet: 0,
      onto: 0,
      starts: [0],
      tops: [0],
      used: empty,
      marks: 0,
      lost: 0,
      packed: 0,
      promise: 0,
    },
  ];
  for (let length = 1; length <= orientations.count; length++) {
    const next: Partial[] = [];
    for (const partial of beam) {
      if (steps.left <= 0) return null;
      for (let piece = 0; piece < orientations.count; piece++) {
        if (isUsed(partial.used, piece)) continue;
        const twin = twins[piece] ?? -1;
        if (twin >= 0 && !isUsed(partial.used, twin)) continue;
        for (let way = 2 * piece; way < 2 * piece + 2; way++) {
          const grown = grow(orientations, partial, piece, way, sheet, length, random, marks[piece] ?? 0);
          if (grown === null) continue;
          steps.left -= STEPS_A_LOOK;
          const settled = settle(orientations, grown, sheet, count, spare, length === orientations.count);
          if (settled) next.push(settled);
        }
      }
    }
    beam = mostPromising(next, width);
  }
  return beam[0] ? fillingOf(beam[0], count) : null;
}

function isUsed(used: Uint32Array, piece: number): boolean {
  return (((used[piece >> 5] ?? 0) >>> (piece & 31)) & 1) === 1;
}

/** For each piece an equal one before it, or -1: of equal pieces the first is used first. */
function twinsBefore(orientations: Orientations): Int32Array {
  const last = new Map<string, number>();
  return Int32Array.from({ length: orientations.count }, (_, piece) => {
    const ways = [0, 1].map(
      (way) => `${orientations.widths[2 * piece + way]}x${orientations.heights[2 * piece + way]}`,
    );
    const key = ways.sort().join(" ");
    const twin = last.get(key) ?? -1;
    last.set(key, piece);
    return twin;
  });
}

/** The partial packing with one more piece in its lowest niche, beside the taller wall; null if it does not fit. */
function grow(
  orientations: Orientations,
  partial: Partial,
  piece: number,
  way: number,
  sheet: Sheet,
  length: number,
  random: Random,
  mark: number,
): Partial | null {
  const width = orientations.widths[way] ?? 0;
  const height = orientations.heights[way] ?? 0;
  if (width === 0) return null;
  const low = lowest(partial.tops);
  const x = partial.starts[low] ?? 0;
  const y = partial.tops[low] ?? 0;
  const gap = (partial.starts[low + 1] ?? sheet.width) - x;
  if (width > gap || y + height > sheet.height) return null;
  const leftWall = low > 0 ? (partial.tops[low - 1] ?? 0) : sheet.height;
  const rightWall = low + 1 < partial.tops.length ? (partial.tops[low + 1] ?? 0) : sheet.height;
  const starts = partial.starts.slice();
  const tops = partial.tops.slice();
  const onRight = width < gap && rightWall > leftWall;
  const left = onRight ? x + gap - width : x;
  if (width === gap) tops[low] = y + height;
  else if (onRight) {
    starts.splice(low + 1, 0, left);
    tops.splice(low + 1, 0, y + height);
  } else {
    starts.splice(low, 1, x, x + width);
    tops.splice(low, 1, y + height, y);
  }
  level(starts, tops);
  const used = partial.used.slice();
  used[piece >> 5] = (used[piece >> 5] ?? 0) | (1 << (piece & 31));
  return {
    before: partial,
    placement: { piece, x: left, y, width, height, turned: orientations.turned[way] === 1 },
    sheet: partial.sheet,
    onto: partial.sheet,
    starts,
    tops,
    used,
    marks: partial.marks + mark,
    lost: partial.lost,
    packed: partial.packed + width * height,
    promise: length * (1 + 0.1 * random.next()),
  };
}

/** Gives up niches that nothing left can fill, and sheets with it; null when too much is lost. */
function settle(
  orientations: Orientations,
  grown: Partial,
  sheet: Sheet,
  count: number,
  spare: number,
  done: boolean,
): Partial | null {
  let { starts, tops, lost, sheet: onSheet } = grown;
  while (!done) {
    const low = lowest(tops);
    const y = tops[low] ?? 0;
    const gap = (starts[low + 1] ?? sheet.width) - (starts[low] ?? 0);
    const room = sheet.height - y;
    if (room <= 0) {
      onSheet += 1;
      if (onSheet >= count) return null;
      starts = [0];
      tops = [0];
      continue;
    }
    if (somethingFits(orientations, grown.used, gap, room)) break;
    const leftWall = low > 0 ? (tops[low - 1] ?? 0) : sheet.height;
    const rightWall = low + 1 < tops.length ? (tops[low + 1] ?? 0) : sheet.height;
    const rise = Math.min(leftWall, rightWall) - y;
    lost += rise * gap;
    if (lost > spare) return null;
    tops[low] = y + rise;
    level(starts, tops);
  }
  // Little lost for much packed, large pieces first, and a skyline without steps.
  let steps = 0;
  for (let at = 1; at < tops.length; at++) steps += Math.abs((tops[at] ?? 0) - (tops[at - 1] ?? 0));
  const whole = sheet.width * sheet.height;
  const burden = lost + 0.05 * whole + 0.004 * steps * (sheet.width + sheet.height);
  const promise = (burden * grown.promise) / (grown.packed * grown.packed);
  return { ...grown, starts, tops, lost, sheet: onSheet, promise };
}

function somethingFits(orientations: Orientations, used: Uint32Array, gap: number, room: number): boolean {
  for (let way = 0; way < 2 * orientations.count; way++) {
    const width = orientations.widths[way] ?? 0;
    if (width > 0 && width <= gap && (orientations.heights[way] ?? 0) <= room && !isUsed(used, way >> 1))
      return true;
  }
  return false;
}

/** The best by promise; few from any one forerunner, and one for any set of pieces, to keep them different. */
function mostPromising(partials: Partial[], width: number): Partial[] {
  partials.sort((a, b) => a.promise - b.promise);
  const kept: Partial[] = [];
  const sets = new Set<number>();
  const offspring = new Map<Partial | null, number>();
  for (const partial of partials) {
    const many = offspring.get(partial.before) ?? 0;
    if (many >= MOST_FROM_ONE) continue;
    if (sets.has(partial.marks)) continue;
    sets.add(partial.marks);
    offspring.set(partial.before, many + 1);
    kept.push(partial);
    if (kept.length >= width) break;
  }
  return kept;
}

function fillingOf(last: Partial, count: number): Filling {
  const sheets: Placement[][] = Array.from({ length: count }, () => []);
  for (let at: Partial | null = last; at !== null; at = at.before) {
    if (at.placement) sheets[at.onto]?.push(at.placement);
  }
  return { sheets: sheets.filter((placed) => placed.length > 0), left: [] };
}

function lowest(tops: readonly number[]): number {
  let low = 0;
  for (let at = 1; at < tops.length; at++) if ((tops[at] ?? 0) < (tops[low] ?? 0)) low = at;
  return low;
}

function level(starts: number[], tops: number[]): void {
  for (let at = tops.length - 1; at > 0; at--) {
    if (tops[at] !== tops[at - 1]) continue;
    tops.splice(at, 1);
    starts.splice(at, 1);
  }
}
