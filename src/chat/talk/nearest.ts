/** The nearest choices to a sold-out garment. */

import { garmentOf, roomFor } from "./free-stock.ts";
import type { Garment, OrderingPort } from "./ordering-port.ts";
import { type Range, rangesOf } from "./range.ts";
import type { BasketLine } from "./talk.ts";

const MOST = 5;

/**
 * Garments with stock, nearest first: the same offer and size in another colour; the same colour in the next sizes up,
 * then down; other designs on the same blank. A child's size is only near a child's.
 */
export function nearest(
  port: OrderingPort,
  basket: readonly BasketLine[],
  gone: Garment,
  quantity: number,
): readonly Garment[] {
  const ranges = rangesOf(port.menu);
  const range = ranges.get(gone.offer);
  if (range === undefined) return [];
  const found: Garment[] = [];
  const seen = new Set<string>();
  const consider = (place: Range, colour: string, size: string): void => {
    const inColour = place.colours.find(({ id }) => id === colour);
    const inSize = place.sizes.find(({ id }) => id === size);
    if (inColour === undefined || inSize === undefined || found.length >= MOST) return;
    const garment = garmentOf(place, inColour, inSize);
    const key = `${garment.offer} ${colour} ${size}`;
    if (seen.has(key)) return;
    seen.add(key);
    if (roomFor(port, basket, garment) >= quantity) found.push(garment);
  };
  for (const { id } of range.colours) consider(range, id, gone.size);
  for (const size of sizesByNearness(range, gone.size)) consider(range, gone.colour, size);
  for (const place of ranges.values()) {
    if (place.blank === range.blank) consider(place, gone.colour, gone.size);
  }
  return found;
}

/** The sizes of the same people: the next ones up, then the next ones down. */
function sizesByNearness(range: Range, size: string): readonly string[] {
  const child = range.sizes.find(({ id }) => id === size)?.child ?? false;
  const sizes = range.sizes.filter((other) => other.child === child).map(({ id }) => id as string);
  const at = sizes.indexOf(size);
  return [...sizes.slice(at + 1), ...sizes.slice(0, Math.max(at, 0)).reverse()];
}
