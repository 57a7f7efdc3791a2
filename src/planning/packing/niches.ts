/**
 * Fills sheets from the bottom up: always the lowest, leftmost niche of the skyline, always the piece that
 * fits that niche best, the given order breaking ties. After the best-fit rule of Burke, Kendall and Whitwell
 * 2004 (Operations Research 52, 655-671) with a wall-matching score as in Wei, Oon, Zhu and Lim 2011
 * (European Journal of Operational Research 215, 337-346).
 */
import type { Filling, Orientations, PackSteps, Placement, Sheet } from "./shapes.ts";

export type Filler = {
  /**
   * Packs what it can of `order` onto `count` sheets, one after another. Returns the unplaced area, or Infinity once
   * more than `mostWaste` of the sheets is lost under niches that nothing fits. One step for each piece considered.
   */
  readonly fill: (order: readonly number[], count: number, mostWaste: number, steps: PackSteps) => number;
  /** The result of the last `fill`. */
  readonly filling: () => Filling;
};

/** A filler for these pieces; it keeps its working arrays, since every search calls it thousands of times. */
export function nicheFiller(orientations: Orientations, sheet: Sheet): Filler {
  const most = orientations.count + 2;
  const starts = new Int32Array(most);
  const tops = new Int32Array(most);
  const open = new Int32Array(most);
  const ways = new Int32Array(most);
  const xs = new Int32Array(most);
  const ys = new Int32Array(most);
  const on = new Int32Array(most);
  let segments = 0;
  let placed = 0;
  let waiting = 0;
  let sheets = 0;

  const insert = (at: number, start: number, top: number): void => {
    starts.copyWithin(at + 1, at, segments);
    tops.copyWithin(at + 1, at, segments);
    starts[at] = start;
    tops[at] = top;
    segments += 1;
  };
  const remove = (at: number): void => {
    starts.copyWithin(at, at + 1, segments);
    tops.copyWithin(at, at + 1, segments);
    segments -= 1;
  };
  /** Joins segment `at` with its right, then its left neighbour if they are level. */
  const level = (at: number): void => {
    if (at + 1 < segments && tops[at + 1] === tops[at]) remove(at + 1);
    if (at > 0 && tops[at - 1] === tops[at]) remove(at);
  };

  const fill: Filler["fill"] = (order, count, mostWaste, steps) => {
    let wasteLeft = mostWaste;
    placed = 0;
    waiting = order.length;
    for (let at = 0; at < waiting; at++) open[at] = order[at] ?? 0;
    for (sheets = 0; sheets < count && waiting > 0; sheets++) {
      segments = 1;
      starts[0] = 0;
      tops[0] = 0;
      while (waiting > 0) {
        let low = 0;
        for (let at = 1; at < segments; at++) if ((tops[at] ?? 0) < (tops[low] ?? 0)) low = at;
        const x = starts[low] ?? 0;
        const y = tops[low] ?? 0;
        const room = sheet.height - y;
        if (room <= 0) break;
        const gap = (low + 1 < segments ? (starts[low + 1] ?? 0) : sheet.width) - x;
        const leftWall = low > 0 ? (tops[low - 1] ?? 0) - y : room;
        const rightWall = low + 1 < segments ? (tops[low + 1] ?? 0) - y : room;
        let best = -1;
        let bestWay = 0;
        let bestScore = -1;
        for (let at = 0; at < waiting && bestScore < 4; at++) {
          const first = 2 * (open[at] ?? 0);
          for (let way = first; way < first + 2; way++) {
            const width = orientations.widths[way] ?? 0;
            const height = orientations.heights[way] ?? 0;
            if (width === 0 || width > gap || height > room) continue;
            const score =
              (width === gap ? 2 : 0) + (height === leftWall ? 1 : 0) + (height === rightWall ? 1 : 0);
            if (score > bestScore) {
              bestScore = score;
              best = at;
              bestWay = way;
            }
          }
        }
        steps.left -= waiting;
        if (best < 0) {
          const rise = Math.min(leftWall, rightWall);
          wasteLeft -= rise * gap;
          if (wasteLeft < 0) return Number.POSITIVE_INFINITY;
          tops[low] = y + rise;
          level(low);
          continue;
        }
        const width = orientations.widths[bestWay] ?? 0;
        const top = y + (orientations.heights[bestWay] ?? 0);
        // Beside the taller inner wall, so that the rest of the niche stays open to its lower side.
        const onRight = rightWall > leftWall && width < gap;
        const left = onRight ? x + gap - width : x;
        ways[placed] = bestWay;
        xs[placed] = left;
        ys[placed] = y;
        on[placed] = sheets;
        placed += 1;
        open.copyWithin(best, best + 1, waiting);
        waiting -= 1;
        if (width === gap) {
          tops[low] = top;
          level(low);
        } else if (onRight) {
          insert(low + 1, left, top);
          level(low + 1);
        } else {
          insert(low, x, top);
          starts[low + 1] = x + width;
          level(low);
        }
      }
    }
    let left = 0;
    for (let at = 0; at < waiting; at++) left += orientations.areas[open[at] ?? 0] ?? 0;
    return left;
  };

  const filling = (): Filling => {
    const result: Placement[][] = Array.from({ length: sheets }, () => []);
    for (let at = 0; at < placed; at++) {
      const way = ways[at] ?? 0;
      result[on[at] ?? 0]?.push({
        piece: way >> 1,
        x: xs[at] ?? 0,
        y: ys[at] ?? 0,
        width: orientations.widths[way] ?? 0,
        height: orientations.heights[way] ?? 0,
        turned: orientations.turned[way] === 1,
      });
    }
    return { sheets: result, left: Array.from(open.subarray(0, waiting)) };
  };
  return { fill, filling };
}
