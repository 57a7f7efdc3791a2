/**
 * Lower bounds written from the papers, sharing no code with the planner: the continuous bound, and L2 of
 * Martello and Vigo 1998 (Management Science 44, 388-399), for pieces that may not turn.
 */
import type { Instance } from "./instances.ts";

export function continuousBound({ pieces, sheet }: Instance): number {
  const area = pieces.reduce((sum, { width, height }) => sum + width * height, 0);
  return Math.ceil(area / (sheet.width * sheet.height));
}

type Box = { readonly w: number; readonly h: number };

export function l2Bound({ pieces, sheet }: Instance): number {
  const plain = pieces.map(({ width, height }) => ({ w: width, h: height }));
  const flipped = plain.map(({ w, h }) => ({ w: h, h: w }));
  return Math.max(byWidth(plain, sheet.width, sheet.height), byWidth(flipped, sheet.height, sheet.width));
}

/** L2 with the pieces wider than half a sheet leading: no two of them lie side by side. */
function byWidth(boxes: readonly Box[], W: number, H: number): number {
  const first = oneDimensional(
    boxes.filter(({ w }) => 2 * w > W).map(({ h }) => h),
    H,
  );
  let best = first;
  for (let q = 1; 2 * q <= W; q++) {
    const whole = boxes.filter(({ w }) => w > W - q);
    const parts = boxes.filter(({ w }) => w <= W - q && w >= q);
    const area = parts.reduce((sum, { w, h }) => sum + w * h, 0);
    const free = (H * first - whole.reduce((sum, { h }) => sum + h, 0)) * W;
    best = Math.max(best, first + Math.max(0, Math.ceil((area - free) / (H * W))));
  }
  return best;
}

/** Heights stacked in columns of height H, two forms of the one-dimensional bound. */
function oneDimensional(heights: readonly number[], H: number): number {
  const tall = heights.filter((h) => 2 * h > H).length;
  let best = Math.max(tall, Math.ceil(heights.reduce((sum, h) => sum + h, 0) / H));
  for (let p = 1; 2 * p <= H; p++) {
    const large = heights.filter((h) => 2 * h > H && h <= H - p);
    const small = heights.filter((h) => 2 * h <= H && h >= p);
    const spareLength = large.length * H - large.reduce((sum, h) => sum + h, 0);
    const byLength = Math.ceil((small.reduce((sum, h) => sum + h, 0) - spareLength) / H);
    const sparePlaces = large.reduce((sum, h) => sum + Math.floor((H - h) / p), 0);
    const byPlaces = Math.ceil((small.length - sparePlaces) / Math.floor(H / p));
    best = Math.max(best, tall + Math.max(0, byLength, byPlaces));
  }
  return best;
}
