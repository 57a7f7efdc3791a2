/** Wishes for a garment beyond the menu, which the stall offers at its counter. */
import { z } from "zod";
import { DesignId, WishId } from "../basics/ids.ts";
import { Language, plainText } from "../basics/words.ts";

export const GarmentWish = z
  .strictObject({
    id: WishId,
    name: plainText(24).describe("As the chip, the tag and the texts say it: back print, left chest, gift"),
    translations: z.partialRecord(Language, plainText(24)).optional(),
    offered: z.boolean().default(true),
    surcharge: z
      .int()
      .min(-100_000)
      .max(100_000)
      .default(0)
      .describe("On top of the garment's price, in minor units; negative: cheaper"),
    seconds: z.int().min(0).max(900).default(0).describe("How much longer the garment takes at the press"),
    ownGarment: z
      .boolean()
      .default(false)
      .describe("The customer brings the garment: it takes no blank of the stall's"),
    second: z
      .strictObject({ design: DesignId.optional().describe("Without it, the offer's own design once more") })
      .optional()
      .describe("A second transfer on the garment, pressed on its own"),
    asked: z
      .array(plainText(40))
      .max(12)
      .optional()
      .describe("Words in a text that mean this wish: “on the back”, “both sides”"),
  })
  .meta({ id: "GarmentWish", description: "A wish on a garment that the counter can take" });
export type GarmentWish = z.infer<typeof GarmentWish>;
