/** The rack: garments that are pressed and not taken, as the counter lists and sells them. */
import { z } from "zod";
import { BlankId, ColourId, DesignId, JobId, OfferId, SizeId, WishId } from "../basics/ids.ts";
import { Money } from "../basics/money.ts";
import { instant } from "../basics/words.ts";
import { Platen, TransferKind } from "../menu/catalogue.ts";
import { PickupNumber } from "./order.ts";

export const RackGarment = z
  .strictObject({
    key: JobId.describe("The garment of the order it was made for"),
    offer: OfferId,
    name: z.string(),
    blank: BlankId,
    design: DesignId,
    colour: ColourId,
    colourName: z.string(),
    size: SizeId,
    sizeName: z.string(),
    wishes: z.array(z.string()).optional().describe("Additions to it beyond the menu"),
    why: z.enum([
      "dropped",
      "uncollected",
      "returned",
      "exchanged",
      "wrong-size",
      "misprint",
      "brought",
      "ahead",
    ]),
    second: z.boolean().describe("It is not as it should be, and is sold as a second"),
    keptFor: PickupNumber.nullable().describe("Paid and not fetched: not for sale before it is released"),
    since: instant(),
  })
  .meta({ id: "RackGarment", description: "A garment that is pressed and not taken" });
export type RackGarment = z.infer<typeof RackGarment>;

/** The most garments that come to a rack at once. */
export const MOST_ON_RACK = 500;

/** A garment of the rack as it goes to another fair: how it was made, and never for whom. */
export const CarriedGarment = z
  .strictObject({
    offer: OfferId,
    blank: BlankId,
    design: DesignId,
    colour: ColourId,
    size: SizeId,
    platen: Platen,
    kind: TransferKind,
    wishes: z.array(WishId).min(1).max(6).optional(),
    second: z.array(DesignId).min(1).max(8).optional().describe("Further transfers on it"),
    effort: z.number().positive().optional().describe("Times as long at the press as a plain one"),
    misprint: z.boolean().default(false).describe("It is sold as a second"),
  })
  .meta({ id: "CarriedGarment" });
export type CarriedGarment = z.infer<typeof CarriedGarment>;

export const RackView = z
  .strictObject({
    garments: z.array(RackGarment),
    owed: z
      .array(z.strictObject({ number: PickupNumber, amount: Money }))
      .describe("Money that is to be given back on orders that are over"),
  })
  .meta({
    id: "Rack",
    description: "Pressed garments that nobody took, and money owed on orders that are over",
  });
export type RackView = z.infer<typeof RackView>;
