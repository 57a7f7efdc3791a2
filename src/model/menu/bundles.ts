/** Bundles: garments that cost less together, "any 2 tees $40" or "tee and cap $38". */
import { z } from "zod";
import { BundleId, OfferId } from "../basics/ids.ts";
import { minorUnits } from "../basics/money.ts";
import { Language, plainText } from "../basics/words.ts";

export const Bundle = z
  .strictObject({
    id: BundleId,
    name: plainText(40).describe("As the slip and the texts say it: Any 2 tees, Tee and cap"),
    translations: z.partialRecord(Language, plainText(40)).optional(),
    offered: z.boolean().default(true),
    price: minorUnits().describe(
      "Of all its garments together; the surcharge of a size or a wish comes on top",
    ),
    takes: z
      .array(
        z.strictObject({
          offers: z.array(OfferId).min(1).max(40).describe("Any of these"),
          quantity: z.int().min(1).max(12),
        }),
      )
      .min(1)
      .max(4),
  })
  .meta({
    id: "Bundle",
    description: "Garments that cost less together; the best for the customer is found",
  });
export type Bundle = z.infer<typeof Bundle>;
