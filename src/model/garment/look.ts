/** The look of an offer: everything needed to draw its garment in any colour and size. */
import { z } from "zod";
import { ColourId, DesignId, type OfferId } from "../basics/ids.ts";
import type { Menu } from "../menu/catalogue.ts";
import { Outline, outlineOf } from "./outline.ts";
import { type PictureFacts, PictureHash } from "./picture.ts";
import { Spot, spotOf } from "./spot.ts";
import { Swatch, swatchOf } from "./swatch.ts";

export const Look = z
  .strictObject({
    blankName: z.string(),
    outline: Outline,
    design: DesignId,
    designName: z.string(),
    widthInches: z.number(),
    heightInches: z.number(),
    spot: Spot,
    picture: PictureHash.nullable().describe("GET /at/{fair}/{stall}/pictures/{hash}; null: none"),
    colours: z.array(z.strictObject({ colour: ColourId, name: z.string(), swatch: Swatch })),
    chestInches: z.record(z.string(), z.number()).describe("By size, if the stall has set it"),
  })
  .meta({ id: "Look", description: "How an offer looks in each of its colours" });
export type Look = z.infer<typeof Look>;

type Pictures = (design: DesignId) => PictureFacts | undefined;

/** The look of an offer; undefined if the menu has no such offer. */
export function lookOf(menu: Menu, pictures: Pictures, offer: OfferId): Look | undefined {
  const found = menu.offers.find(({ id }) => id === offer);
  const blank = menu.blanks.find(({ id }) => id === found?.blank);
  const design = menu.designs.find(({ id }) => id === found?.design);
  if (found === undefined || blank === undefined || design === undefined) return undefined;
  const outline = outlineOf(blank);
  return {
    blankName: blank.name,
    outline,
    design: design.id,
    designName: design.name,
    widthInches: design.widthInches,
    heightInches: design.heightInches,
    spot: spotOf(design, outline),
    picture: pictures(design.id)?.hash ?? null,
    colours: blank.colours
      .filter(({ id }) => found.colours?.includes(id) ?? true)
      .map((colour) => ({ colour: colour.id, name: colour.name, swatch: swatchOf(colour) })),
    chestInches: Object.fromEntries(
      blank.sizes.flatMap(({ id, chestInches }) => (chestInches === undefined ? [] : [[id, chestInches]])),
    ),
  };
}
