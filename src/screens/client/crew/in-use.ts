/** Which open orders need a part of the menu: what they need is taken off sale, never taken out. */
import type { OpenNeeds } from "../../../model/orders/open-needs.ts";

export type Part =
  | { readonly list: "blanks" | "designs" | "offers"; readonly id: string }
  | { readonly list: "colours" | "sizes"; readonly blank: string; readonly id: string };

type Line = OpenNeeds["orders"][number]["lines"][number];

function needs(line: Line, part: Part): boolean {
  switch (part.list) {
    case "blanks":
      return line.blank === part.id;
    case "designs":
      return line.design === part.id;
    case "offers":
      return line.offer === part.id;
    case "colours":
      return line.blank === part.blank && line.colour === part.id;
    case "sizes":
      return line.blank === part.blank && line.size === part.id;
    default:
      return part satisfies never;
  }
}

/** The numbers of the open orders that need a part. */
export const ordersNeeding = ({ orders }: OpenNeeds, part: Part): readonly number[] =>
  orders.filter(({ lines }) => lines.some((line) => needs(line, part))).map(({ number }) => number);

/** "order 127", "orders 127, 128 and 3 more". */
export function ordersWords(numbers: readonly number[], most = 4): string {
  const shown = numbers.slice(0, most).join(", ");
  const more = numbers.length - most;
  return `${numbers.length === 1 ? "order" : "orders"} ${shown}${more > 0 ? ` and ${more} more` : ""}`;
}
