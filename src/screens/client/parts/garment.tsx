/** @jsxImportSource preact */
/** A garment's picture in a view. */
import { h, type VNode } from "preact";
import { compose, type Drawn, drawSwatch, type GarmentWish } from "../../garment/compose.ts";
import { pictureAddress } from "../garment/garments.ts";

const node = ({ tag, attributes, children }: Drawn): VNode =>
  h(tag, attributes, ...children.map((child) => (typeof child === "string" ? child : node(child))));

type Wish = Omit<GarmentWish, "address" | "look"> & {
  readonly look: GarmentWish["look"] | undefined;
  /** The words beside it name it. */
  readonly named?: true;
};

/** The garment of a look; nothing if there is no look. `named`: the words beside it name it already. */
export function Garment({ look, named, ...wish }: Wish) {
  if (look === undefined) return null;
  const { tag, attributes, children } = compose({ ...wish, look, address: pictureAddress });
  const quiet = { ...attributes, role: "presentation", "aria-label": "", "aria-hidden": "true" };
  return node({ tag, attributes: named ? quiet : attributes, children });
}

/** A colour of a garment as a patch of cloth, with its name beside it. */
export const Swatch = ({ look, colour }: { readonly look: GarmentWish["look"]; readonly colour: string }) =>
  node(drawSwatch(look, colour));
