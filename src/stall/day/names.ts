/** The displayed names of blanks and designs; ids for those that have left the menu. */
import type { Menu } from "../../model/menu/catalogue.ts";
import type { PieceKey } from "../state/shapes/piece.ts";

export const nameIn = (
  list: readonly { readonly id: string; readonly name: string }[] | undefined,
  id: string,
): string => list?.find((entry) => entry.id === id)?.name ?? id;

export function skuName(menu: Menu, sku: string): string {
  const [blankId = "", colour = "", size = ""] = sku.split(".");
  const blank = menu.blanks.find(({ id }) => id === blankId);
  return `${blank?.name ?? blankId}, ${nameIn(blank?.colours, colour)}, ${nameIn(blank?.sizes, size)}`;
}

export const designName = (menu: Menu, design: string): string => nameIn(menu.designs, design);

export const pieceName = (menu: Menu, key: PieceKey): string =>
  key.startsWith("transfer:")
    ? `${designName(menu, key.slice("transfer:".length))} transfer`
    : skuName(menu, key.slice("sku:".length));
