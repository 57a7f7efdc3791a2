/** Putting sentences together: what is the same in every language. */
import { type Brevity, cut, named, namedApart } from "../fitting/fit.ts";
import type { Item, KnownGarment } from "./shape.ts";

/** Parts that are there, joined. */
export const joined = (parts: readonly (string | null | false | undefined)[], by = " "): string =>
  parts.filter((part) => part !== null && part !== false && part !== undefined && part !== "").join(by);

// Colours are told apart by their first letters sooner than offers are.
const ROOM_FOR_COLOUR: readonly number[] = [40, 40, 40, 14, 7, 5];
// Lines of an order that are named, by brevity.
const LINES: readonly number[] = [12, 12, 12, 8, 4, 2];

/** "2x Longtail tee, Navy, L": what is known of a garment. */
export function known({ quantity, offer, colour, size }: KnownGarment, brevity: Brevity): string {
  const count = quantity === null || quantity === 1 ? null : `${quantity}x`;
  const shade = colour === null ? null : cut(colour, ROOM_FOR_COLOUR[brevity] ?? 5);
  const parts = [offer && named(offer, brevity), shade, size && named(size, brevity)];
  return joined([count, joined(parts, brevity < 4 ? ", " : " ")]);
}

/** What is known of a garment and its price, followed by a full stop, or nothing. */
export function lead(what: KnownGarment, brevity: Brevity): string {
  const price = brevity < 1 && what.offer !== null ? what.price : undefined;
  const text = joined([known(what, brevity), price], ", ");
  return text === "" ? "" : `${text}.`;
}

/** A numbered list: one line each, or run together. */
export function listed(items: readonly Item[], gone: string, brevity: Brevity, by = " "): string {
  const names = namedApart(
    items.map(({ name }) => name),
    brevity,
  );
  return items
    .map((item, index) => {
      const name = item.known === undefined ? names[index] : known(item.known, brevity);
      const price = brevity < 4 && item.gone !== true ? item.price : undefined;
      return joined([String(item.number), name, price, item.gone === true && gone]);
    })
    .join(by);
}

/** The lines of an order, the last ones only counted where there is no room. */
export function orderLines(
  lines: readonly KnownGarment[],
  brevity: Brevity,
  more: (n: number) => string,
): string {
  const most = LINES[brevity] ?? 2;
  // One line more is as short as saying that there is one more.
  const shown = lines.length <= most + 1 ? lines.length : most;
  const named = lines
    .slice(0, shown)
    .map((line) => known({ ...line, quantity: line.quantity ?? 1 }, brevity));
  return joined([...named, shown < lines.length && more(lines.length - shown)], "; ");
}
