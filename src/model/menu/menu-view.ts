/** The menu as customers see it. */
import { z } from "zod";
import { BundleId, ColourId, OfferId, SizeId } from "../basics/ids.ts";
import { Currency, minorUnits } from "../basics/money.ts";
import { Language } from "../basics/words.ts";
import { Look } from "../garment/look.ts";

export const MenuView = z
  .strictObject({
    stall: z.string(),
    currency: Currency,
    open: z.boolean(),
    paused: z.boolean(),
    lastOrders: z.boolean().describe("The line is nearly too long to press before closing time"),
    waitMinutes: z.int().min(0).describe("For one garment ordered now"),
    offers: z.array(
      z.strictObject({
        number: z.int().min(1).describe("Fixed all day"),
        offer: OfferId,
        name: z.string(),
        price: minorUnits().describe("Without the surcharge of a size"),
        left: z.array(
          z.strictObject({
            colour: ColourId,
            colourName: z.string(),
            size: SizeId,
            sizeName: z.string(),
            free: z.int().min(0),
            price: minorUnits().describe("Of one in this size: the offer's price and the size's surcharge"),
          }),
        ),
      }),
    ),
    bundles: z
      .array(
        z.strictObject({
          bundle: BundleId,
          name: z.string(),
          translations: z
            .partialRecord(Language, z.string())
            .optional()
            .describe("Its name in other languages"),
          price: minorUnits().describe("Of its garments together, surcharges apart"),
          takes: z.array(z.strictObject({ offers: z.array(OfferId), quantity: z.int() })),
        }),
      )
      .optional()
      .describe("Garments that cost less together"),
    tax: z
      .strictObject({
        partsPerMillion: z.int().min(1).describe("7.25 % is 72500"),
        inPrice: z.boolean().describe("Whether the prices include it; if not, it is added to them"),
      })
      .optional()
      .describe("Sales tax, if the stall charges any"),
    looks: z
      .partialRecord(OfferId, Look)
      .describe("How every offer looks, also those that are no longer on sale: open orders may hold them"),
  })
  .meta({ id: "MenuView", description: "What can be had right now" });
export type MenuView = z.infer<typeof MenuView>;
