/**
 * Packs pieces in a given order so that straight cuts from edge to edge separate them: each piece goes to the
 * lower-left corner of a free rectangle, and the rest of that rectangle is split in two.
 */
import type { Filling, Orientations, PackSteps, Placement, Sheet } from "./shapes.ts";

type Free = {
  readonly sheet: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
};

/** Which way the rest of a rectangle is cut: along the shorter or along the longer of the two remainders. */
export type SliceRule = "shorter" | "longer";

/** Packs what it can of `order` onto `count` sheets; four steps for every free rectangle tried. */
export function sliceOver(
  orientations: Orientations,
  order: readonly number[],
  sheet: Sheet,
  count: number,
  rule: SliceRule,
  steps: PackSteps,
): Filling {
  const sheets: Placement[][] = [];
  const left: number[] = [];
  const free: Free[] = [];
  for (const piece of order) {
    let best = bestPlace(orientations, piece, free, steps);
    if (!best && sheets.length < count) {
      free.push({ sheet: sheets.length, x: 0, y: 0, ...sheet });
      sheets.push([]);
      best = bestPlace(orientations, piece, free, steps);
    }
    const taken = best ? free[best.at] : undefined;
    if (!best || !taken) {
      left.push(piece);
      continue;
    }
    const width = orientations.widths[best.way] ?? 0;
    const height = orientations.heights[best.way] ?? 0;
    const turned = orientations.turned[best.way] === 1;
    sheets[taken.sheet]?.push({ piece, x: taken.x, y: taken.y, width, height, turned });
    free.splice(best.at, 1, ...rests(taken, width, height, rule));
  }
  return { sheets, left };
}

/** The free rectangle and orientation with the least to spare on the tighter side; null if the piece fits nowhere. */
function bestPlace(
  orientations: Orientations,
  piece: number,
  free: readonly Free[],
  steps: PackSteps,
): { at: number; way: number } | null {
  let found: { at: number; way: number } | null = null;
  let bestSpare = Number.POSITIVE_INFINITY;
  for (let at = 0; at < free.length; at++) {
    const rectangle = free[at];
    if (!rectangle) continue;
    steps.left -= 4;
    for (let way = 2 * piece; way < 2 * piece + 2; way++) {
      const width = orientations.widths[way] ?? 0;
      const height = orientations.heights[way] ?? 0;
      if (width === 0 || width > rectangle.width || height > rectangle.height) continue;
      const spare = Math.min(rectangle.width - width, rectangle.height - height);
      if (spare < bestSpare) {
        bestSpare = spare;
        found = { at, way };
      }
    }
  }
  return found;
}

function rests(from: Free, width: number, height: number, rule: SliceRule): Free[] {
  const across = from.width - width;
  const upward = from.height - height;
  const cutUpward = rule === "shorter" ? across <= upward : across > upward;
  // cutUpward keeps the strip above at full width; otherwise the strip beside keeps full height.
  const beside = { ...from, x: from.x + width, width: across, height: cutUpward ? height : from.height };
  const above = { ...from, y: from.y + height, height: upward, width: cutUpward ? from.width : width };
  return [beside, above].filter((rest) => rest.width > 0 && rest.height > 0);
}
