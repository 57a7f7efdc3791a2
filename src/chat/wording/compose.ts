/** Builds sentences: the part that is alike in every language. */
import type { Brevity } from "../fitting/fit.ts";
import type { Item, KnownGarment } from "./shape.ts";

/** Parts that are there, joined. */
export const joined = (parts: readonly (string | null | false | undefined)[], by = " "): string =>
  parts.filter((part) => part !== null && part !== false && part !== undefined && part !== "").join(by);

// Lines of an order that are named, by brevity.
const LINES: readonly number[] = [12, 12, 12, 6, 3, 1];
// Orders, or sizes, that one text goes through, by brevity.
const ROWS: readonly number[] = [20, 12, 8, 8, 6, 4];

/** "2x Longtail tee, Navy, L": the known parts of a garment. */
export function known({ quantity, offer, colour, size }: KnownGarment): string {
  const count = quantity === null || quantity === 1 ? null : `${quantity}x`;
  return joined([count, joined([offer, colour, size], ", ")]);
}

/** The known parts of a garment and its price, with a full stop; if room is short only its name, then nothing. */
export function lead(what: KnownGarment, brevity: Brevity): string {
  const price = brevity < 1 && what.offer !== null ? what.price : undefined;
  const text = brevity < 4 ? joined([known(what), price], ", ") : brevity < 5 ? (what.offer ?? "") : "";
  return text === "" ? "" : `${text}.`;
}

/** A numbered list: one line each, or run together. */
export function listed(items: readonly Item[], gone: string, brevity: Brevity, by = " "): string {
  return items
    .map((item) => {
      const name = brevity < 3 ? item.name : (item.brief ?? item.name);
      const price = brevity < 3 && item.gone !== true ? item.price : undefined;
      return joined([String(item.number), name, price, item.gone === true && gone]);
    })
    .join(by);
}

/** The lines of an order, the last ones only counted if there is no room. */
export function orderLines(
  lines: readonly KnownGarment[],
  brevity: Brevity,
  more: (n: number) => string,
): string {
  const named = lines.map((line) => known({ ...line, quantity: line.quantity ?? 1 }));
  return shown(named, LINES[brevity] ?? 1, more).join("; ");
}

/** As many rows as there is room for, and how many more there are. */
export const rows = (
  all: readonly string[],
  brevity: Brevity,
  more: (n: number) => string,
): readonly string[] => shown(all, ROWS[brevity] ?? 1, more);

function shown(all: readonly string[], most: number, more: (n: number) => string): readonly string[] {
  // One row more is as short as saying that there is one more.
  if (all.length <= most + 1) return all;
  return [...all.slice(0, most), more(all.length - most)];
}
