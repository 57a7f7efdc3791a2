/** A stall as a file: its menu and stock to carry on with, or all of it. */

import { z } from "zod";
import { instant } from "../basics/words.ts";
import { CarriedPicture, MOST_PICTURES } from "../garment/picture.ts";
import { Menu } from "../menu/catalogue.ts";
import { CarriedGarment, MOST_ON_RACK } from "../orders/rack.ts";
import { StockEntry } from "../orders/stock.ts";
import { KeptPlan } from "../planning/kept-plan.ts";
import { DayCosts } from "./day-costs.ts";
import { Lessons } from "./lessons.ts";

/** The export for another fair: menu, leftovers and lessons. Never a customer. */
export const CarriedStall = z
  .strictObject({
    menu: Menu,
    stock: z.array(StockEntry).max(2000).describe("Pieces on hand, as counted"),
    rack: z.array(CarriedGarment).max(MOST_ON_RACK).default([]).describe("Pressed garments that nobody took"),
    lessons: z.array(Lessons).max(60),
    costs: DayCosts.nullable().describe("The latest that were typed, to begin from"),
    pictures: z.array(CarriedPicture).max(MOST_PICTURES).default([]).describe("Of the menu's designs"),
    plan: KeptPlan.nullable().default(null).describe("The plan that the stall was filled from"),
  })
  .meta({ id: "CarriedStall", description: "A stall as it goes to another fair: menu, stock, lessons" });
export type CarriedStall = z.infer<typeof CarriedStall>;

const Journal = z.array(
  z.strictObject({
    sequence: z.int().min(1),
    at: z.int().describe("Milliseconds since 1970, UTC"),
    events: z
      .array(z.looseObject({ type: z.string().min(1).max(40) }))
      .min(1)
      .describe("What happened, in order"),
  }),
);
const Issued = z.array(z.tuple([z.string().min(1).max(60), z.array(z.string().max(60)).min(1).max(20)]));
const Stops = z.array(
  z.strictObject({ key: z.string().min(1).max(60), numbers: z.array(z.string().max(60)) }),
);

/** A record unchanged, under its own key. */
const Rows = z.array(z.tuple([z.string().min(1).max(400), z.looseObject({})])).max(200_000);

/**
 * Everything a stall owns. Its state is not included, since it follows from the journal. Customers' names, numbers and
 * conversations are separate, so that a copy can be made without them.
 */
export const WholeStall = z
  .strictObject({
    format: z.literal("stallpress-stall"),
    version: z.literal(1),
    exportedAt: instant(),
    journal: Journal.min(1).max(2_000_000),
    people: z
      .strictObject({
        persons: Rows.describe("Names and numbers, by customer id"),
        conversations: Rows.describe("The latest conversations, by customer id"),
        texts: Rows.describe("Texts in and out by the quarter of an hour"),
        orders: Rows.optional().describe("Numbers that confirmed an order, and who took its payment"),
      })
      .describe("Outside the journal; erased by the stall's own rule, in a copy too"),
    issued: Issued.max(400_000)
      .optional()
      .describe("Hashes of customers' tokens and orders' claims, which are taken at the new place as well"),
    stops: Stops.max(2_000)
      .optional()
      .describe(
        "Numbers that said STOP, also those erased since: hashes by the key of the place where they did",
      ),
    pictures: z
      .array(CarriedPicture)
      .max(MOST_PICTURES)
      .default([])
      .describe("Those that the journal says designs have"),
  })
  .meta({ id: "WholeStall", description: "Everything a stall owns, to be taken into an empty one" });
export type WholeStall = z.infer<typeof WholeStall>;

/** Some rows of a whole stall, however large it is: every list is sent from its first row to its last, over the parts. */
export const StallPart = z
  .strictObject({
    journal: Journal.max(20_000).optional(),
    persons: Rows.max(20_000).optional(),
    conversations: Rows.max(20_000).optional(),
    texts: Rows.max(20_000).optional(),
    orders: Rows.max(20_000).optional(),
    issued: Issued.max(40_000).optional(),
    stops: Stops.max(2_000).optional(),
    pictures: z.array(CarriedPicture).max(MOST_PICTURES).optional(),
  })
  .meta({ id: "StallPart", description: "Rows of a WholeStall, to be taken into an empty one part by part" });
export type StallPart = z.infer<typeof StallPart>;

/** A whole stall as one part. */
export const asPart = ({ journal, people, issued, stops, pictures }: WholeStall): StallPart => ({
  journal,
  ...people,
  issued,
  stops,
  pictures,
});

export const PartTaken = z
  .strictObject({ parts: z.int().describe("How many parts of this upload have come") })
  .meta({ id: "PartTaken" });

export const TakenIn = z.strictObject({ version: z.int() }).meta({ id: "TakenIn" });
