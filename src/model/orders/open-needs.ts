/** What open orders need of the menu and the stock. */
import { z } from "zod";
import { BlankId, ColourId, DesignId, OfferId, SizeId } from "../basics/ids.ts";
import { PickupNumber } from "./order.ts";

export const OpenNeeds = z
  .strictObject({
    orders: z.array(
      z.strictObject({
        number: PickupNumber,
        lines: z.array(
          z.strictObject({
            offer: OfferId,
            blank: BlankId,
            design: DesignId,
            colour: ColourId,
            size: SizeId,
            quantity: z.int().min(1),
            promised: z.int().min(0).describe("Garments of it that a blank and a transfer are promised to"),
          }),
        ),
      }),
    ),
  })
  .meta({
    id: "OpenNeeds",
    description: "What open orders need, those to be pressed first before the others, those to be paid last",
  });
export type OpenNeeds = z.infer<typeof OpenNeeds>;
