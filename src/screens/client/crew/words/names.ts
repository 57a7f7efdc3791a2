/** The menu's names for what the stall counts. */
import type { Menu } from "../../../../model/menu/catalogue.ts";

const nameIn = (list: readonly { readonly id: string; readonly name: string }[] | undefined, id: string) =>
  list?.find((entry) => entry.id === id)?.name ?? id;

/** A colour and size of a blank as a person calls them: "Navy, L". */
export function choiceName(menu: Menu | null, blankId: string, colour: string, size: string): string {
  const blank = menu?.blanks.find(({ id }) => id === blankId);
  return `${nameIn(blank?.colours, colour)}, ${nameIn(blank?.sizes, size)}`;
}

/** A piece as a person calls it: "Tee, Navy, L" for `tee.navy.L`, "Otter transfer" for `transfer:otter`. */
export function pieceName(menu: Menu | null, piece: string): string {
  const design = piece.startsWith("transfer:") ? piece.slice("transfer:".length) : null;
  if (design !== null) return `${nameIn(menu?.designs, design)} transfer`;
  const [blankId = piece, colour = "", size = ""] = piece.split(".");
  const blank = menu?.blanks.find(({ id }) => id === blankId);
  return `${blank?.name ?? blankId}, ${choiceName(menu, blankId, colour, size)}`;
}
