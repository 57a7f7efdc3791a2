/**
 * Packs pieces in a given order onto a given number of sheets, each piece in the place where it wastes least below it.
 * In niches.ts the niche chooses its piece; here the piece chooses its place, which is better if a sheet holds only a
 * few large pieces.
 */
import type { Filling, Orientations, PackSteps, Placement, Sheet } from "./shapes.ts";

type Skyline = { starts: number[]; tops: number[]; free: number };

/**
 * Packs what it can of `order` onto `count` sheets; four steps for every corner tried, which costs more than trying a
 * niche.
 */
export function spreadOver(
  orientations: Orientations,
  order: readonly number[],
  sheet: Sheet,
  count: number,
  steps: PackSteps,
): Filling {
  const lines: Skyline[] = [];
  const sheets: Placement[][] = [];
  const left: number[] = [];
  for (const piece of order) {
    let bestLine: Skyline | null = null;
    let bestSheet = 0;
    let bestAt = 0;
    let bestWay = 0;
    let bestTop = 0;
    let bestWaste = Number.POSITIVE_INFINITY;
    let bestReach = Number.POSITIVE_INFINITY;
    for (let s = 0; s < Math.min(count, lines.length + 1); s++) {
      const line = lines[s] ?? emptyLine(sheet);
      // An empty sheet is used only if no other has room for the piece.
      if (s === lines.length) {
        if (bestLine !== null) break;
        lines.push(line);
        sheets.push([]);
      }
      const { starts, tops } = line;
      for (let way = 2 * piece; way < 2 * piece + 2; way++) {
        const width = orientations.widths[way] ?? 0;
        const height = orientations.heights[way] ?? 0;
        if (width === 0 || width * height > line.free) continue;
        for (let at = 0; at < starts.length; at++) {
          const x = starts[at] ?? 0;
          if (x + width > sheet.width) break;
          steps.left -= 4;
          let top = tops[at] ?? 0;
          let end = at + 1;
          for (; end < starts.length && (starts[end] ?? 0) < x + width; end++) {
            const other = tops[end] ?? 0;
            if (other > top) top = other;
          }
          if (top + height > sheet.height) continue;
          let waste = 0;
          for (let under = at; under < end; under++) {
            const until = Math.min(starts[under + 1] ?? sheet.width, x + width);
            waste += (until - (starts[under] ?? 0)) * (top - (tops[under] ?? 0));
          }
          const reach = top + height;
          if (waste < bestWaste || (waste === bestWaste && reach < bestReach)) {
            bestWaste = waste;
            bestReach = reach;
            bestLine = line;
            bestSheet = s;
            bestAt = at;
            bestWay = way;
            bestTop = top;
          }
        }
      }
    }
    if (bestLine === null) {
      left.push(piece);
      continue;
    }
    const width = orientations.widths[bestWay] ?? 0;
    const height = orientations.heights[bestWay] ?? 0;
    const x = bestLine.starts[bestAt] ?? 0;
    const turned = orientations.turned[bestWay] === 1;
    sheets[bestSheet]?.push({ piece, x, y: bestTop, width, height, turned });
    bestLine.free -= width * height + bestWaste;
    cover(bestLine, bestAt, width, bestTop + height, sheet);
  }
  return { sheets, left };
}

function emptyLine(sheet: Sheet): Skyline {
  return { starts: [0], tops: [0], free: sheet.width * sheet.height };
}

/** Lays a piece over the skyline from corner `at` for `width`, its upper edge at `top`. */
function cover(line: Skyline, at: number, width: number, top: number, sheet: Sheet): void {
  const { starts, tops } = line;
  const x = starts[at] ?? 0;
  const right = x + width;
  let end = at;
  while (end < starts.length && (starts[end] ?? 0) < right) end++;
  const lastTop = tops[end - 1] ?? 0;
  const until = starts[end] ?? sheet.width;
  const newStarts = [x];
  const newTops = [top];
  if (right < until) {
    newStarts.push(right);
    newTops.push(lastTop);
  }
  starts.splice(at, end - at, ...newStarts);
  tops.splice(at, end - at, ...newTops);
  for (let seam = Math.min(at + newTops.length, tops.length - 1); seam >= Math.max(1, at); seam--) {
    if (tops[seam] === tops[seam - 1]) {
      starts.splice(seam, 1);
      tops.splice(seam, 1);
    }
  }
}
