/** Pictures of garments on a page: how offers look, asked for once, and drawn as elements. */
import type { Look } from "../../../model/garment/look.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import { compose, type Drawn, type GarmentWish } from "../../garment/compose.ts";
import { pageData } from "../kit/dom.ts";

const SVG = "http://www.w3.org/2000/svg";

function elementOf({ tag, attributes, children }: Drawn): SVGElement {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  made.append(...children.map((child) => (typeof child === "string" ? child : elementOf(child))));
  return made;
}

/** Where this stall's pictures are read from. */
export const pictureAddress: GarmentWish["address"] = (hash) =>
  `/at/${pageData("fair")}/${pageData("stall")}/pictures/${hash}`;

/** A garment as an element of the page. */
export const garmentOf = (wish: Omit<GarmentWish, "address">): SVGElement =>
  elementOf(compose({ ...wish, address: pictureAddress }));

export type Looks = ReadonlyMap<string, Look>;
export const NO_LOOKS: Looks = new Map();

/** The look of each offer of a menu, by id. */
export const looksIn = ({ looks }: MenuView): Looks =>
  new Map(Object.entries(looks).flatMap(([id, look]) => (look === undefined ? [] : [[id, look] as const])));

/** The first garments on sale of a menu, each design once, each in the next of its colours so that they differ. */
export function onSale(
  view: MenuView,
  most: number,
): readonly {
  readonly look: Look;
  readonly colour: string | undefined;
  readonly offer: MenuView["offers"][number];
}[] {
  const looks = looksIn(view);
  const designs = new Set<string>();
  return view.offers.flatMap((offer) => {
    const look = looks.get(offer.offer);
    if (look === undefined || designs.has(look.design) || designs.size === most) return [];
    const colour = look.colours[designs.size % Math.max(1, look.colours.length)]?.colour;
    designs.add(look.design);
    return [{ look, colour, offer }];
  });
}
