/** The luminance of a colour, in a file without its schema, so that pages can draw without the schema library. */

/** Red, green and blue of a colour written #rrggbb, each from 0 to 255. */
export const channels = (swatch: string): readonly number[] =>
  [1, 3, 5].map((at) => Number.parseInt(swatch.slice(at, at + 2), 16));

/** Relative luminance from 0 (black) to 1 (white), by the formula of WCAG 2.2. */
export function luminance(swatch: string): number {
  const [red = 0, green = 0, blue = 0] = channels(swatch).map((value) => {
    const share = value / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
