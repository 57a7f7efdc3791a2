/** @jsxImportSource preact */
/** A garment's picture, and the picture it stands on, in a view. */
import { h, type VNode } from "preact";
import { compose, type Drawn, drawSwatch, type GarmentWish } from "../../garment/compose.ts";
import { pictureAddress } from "../garment/garments.ts";

const node = ({ tag, attributes, children }: Drawn): VNode =>
  h(tag, attributes, ...children.map((child) => (typeof child === "string" ? child : node(child))));

type Wish = Omit<GarmentWish, "address" | "look"> & {
  readonly look: GarmentWish["look"] | undefined;
  /** The words beside it say what it is. */
  readonly named?: true;
};

/** The garment of a look; nothing where it is not known. `named`: what stands beside it says it already. */
export function Garment({ look, named, ...wish }: Wish) {
  if (look === undefined) return null;
  const { tag, attributes, children } = compose({ ...wish, look, address: pictureAddress });
  const quiet = { ...attributes, role: "presentation", "aria-label": "", "aria-hidden": "true" };
  return node({ tag, attributes: named ? quiet : attributes, children });
}

/** A colour of a garment as a patch of cloth. Its name stands beside it. */
export const Swatch = ({ look, colour }: { readonly look: GarmentWish["look"]; readonly colour: string }) =>
  node(drawSwatch(look, colour));
