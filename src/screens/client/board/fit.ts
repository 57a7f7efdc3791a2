/** The largest size at which all of the board's numbers fit its room. Pure: pixels in, pixels out. */

export type Box = { readonly width: number; readonly height: number };

/** A tag beside its digits' height, as board.css draws it; a digit of the page's font is at most this wide. */
const DIGIT_WIDTH = 0.63;
const TAG_SIDES = 0.5;
const TAG_HEIGHT = 1.42;
const GAP = 0.12;

/** A ready number is 120 to 420 pixels high, by the window's width. */
const LEAST_READY_PX = 120;
const MOST_READY_PX = 420;
const READY_SHARE = 0.22;
/** Others are smaller than ready ones, and at least this: letters 25 mm high are read at 5 m (common practice, no source). */
const LEAST_PX = 24;
const MOST_LINE_SHARE = 0.6;

/**
 * Binary search: the greatest whole number of pixels from `least` to `most` at which everything fits, or `least`. If a
 * size fits, every smaller one must.
 */
export function greatestFitting(least: number, most: number, fits: (pixels: number) => boolean): number {
  let low = least;
  let high = most;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (fits(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The height of tags with these numbers, in rows as wide as the room. */
export function heightOf(numbers: readonly number[], pixels: number, width: number): number {
  if (numbers.length === 0) return 0;
  const digits = Math.max(...numbers.map((number) => String(number).length));
  const tag = pixels * (DIGIT_WIDTH * digits + TAG_SIDES);
  const columns = Math.max(1, Math.floor((width + pixels * GAP) / (tag + pixels * GAP)));
  const isTooWide = tag > width;
  const rows = Math.ceil(numbers.length / columns);
  return isTooWide ? Number.POSITIVE_INFINITY : rows * pixels * TAG_HEIGHT + (rows - 1) * pixels * GAP;
}

/** The height of the digits of ready numbers. */
export const readyPixels = (ready: readonly number[], room: Box, window: Box): number =>
  greatestFitting(
    LEAST_PX,
    Math.round(Math.min(MOST_READY_PX, Math.max(LEAST_READY_PX, window.width * READY_SHARE))),
    (pixels) => heightOf(ready, pixels, room.width) <= room.height,
  );

export type Line = {
  readonly pixels: number;
  /** Those in line that there is room for. */
  readonly waiting: readonly number[];
};

/**
 * The numbers on the presses and in line, in one size below the ready ones'. `room` is without the headings. If even the
 * least size is too large, the last in line are left out.
 */
export function lineFitting(
  making: readonly number[],
  waiting: readonly number[],
  room: Box,
  ready: number,
): Line {
  const fits = (pixels: number, kept: number): boolean =>
    heightOf(making, pixels, room.width) + heightOf(waiting.slice(0, kept), pixels, room.width) <=
    room.height;
  const most = Math.max(LEAST_PX, Math.round(ready * MOST_LINE_SHARE));
  const pixels = greatestFitting(LEAST_PX, most, (size) => fits(size, waiting.length));
  if (fits(pixels, waiting.length)) return { pixels, waiting };
  let kept = waiting.length;
  while (kept > 0 && !fits(pixels, kept)) kept -= 1;
  return { pixels, waiting: waiting.slice(0, kept) };
}
