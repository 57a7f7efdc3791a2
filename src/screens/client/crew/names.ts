/** The menu's names for what the stall counts. */
import type { Menu } from "../../../model/catalogue.ts";

const nameIn = (list: readonly { readonly id: string; readonly name: string }[] | undefined, id: string) =>
  list?.find((entry) => entry.id === id)?.name ?? id;

/** A piece as a person calls it: "Tee, Navy, L" for `tee.navy.L`, "Otter transfer" for `transfer:otter`. */
export function pieceName(menu: Menu | null, piece: string): string {
  const design = piece.startsWith("transfer:") ? piece.slice("transfer:".length) : null;
  if (design !== null) return `${nameIn(menu?.designs, design)} transfer`;
  const [blankId = piece, colour = "", size = ""] = piece.split(".");
  const blank = menu?.blanks.find(({ id }) => id === blankId);
  return [blank?.name ?? blankId, nameIn(blank?.colours, colour), nameIn(blank?.sizes, size)].join(", ");
}
