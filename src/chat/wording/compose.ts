/** Putting sentences together: what is the same in every language. */
import { type Brevity, cut, named, type Say } from "../fit.ts";
import type { Item, Known } from "./shape.ts";

/** Parts that are there, joined. */
export const joined = (parts: readonly (string | null | false | undefined)[], by = " "): string =>
  parts.filter((part) => part !== null && part !== false && part !== undefined && part !== "").join(by);

/** The first saying and then the second. */
export const both =
  (first: Say, second: Say): Say =>
  (brevity) =>
    joined([first(brevity), second(brevity)]);

/** "2 Longtail tee, Navy, L": what is known of a garment. */
export function known({ quantity, offer, colour, size }: Known, brevity: Brevity): string {
  const count = quantity === null || quantity === 1 ? null : `${quantity}x`;
  const first = joined([count, offer === null ? null : named(offer, brevity)]);
  const short = brevity < 3 ? 40 : 6;
  return joined([first, colour === null ? null : cut(colour, short), size], brevity < 3 ? ", " : " ");
}

/** What is known followed by a full stop, or nothing. */
export function lead(what: Known, brevity: Brevity): string {
  const text = known(what, brevity);
  return text === "" ? "" : `${text}.`;
}

/** A numbered list: one line each, or run together. */
export function listed(
  items: readonly Item[],
  gone: string,
  brevity: Brevity,
  { by = " ", prices = true }: { readonly by?: string; readonly prices?: boolean } = {},
): string {
  return items
    .map((item) => {
      const price = prices && brevity < 3 && item.gone !== true ? item.price : undefined;
      return joined([String(item.number), named(item.name, brevity), price, item.gone === true && gone]);
    })
    .join(by);
}

/** The lines of an order, the last ones only counted where there is no room. */
export function orderLines(lines: readonly Known[], brevity: Brevity, more: (n: number) => string): string {
  const most = brevity < 4 ? lines.length : Math.min(lines.length, 6);
  const shown = lines.slice(0, most).map((line) => known({ ...line, quantity: line.quantity ?? 1 }, brevity));
  return joined([...shown, most < lines.length && more(lines.length - most)], brevity < 3 ? "; " : "; ");
}
