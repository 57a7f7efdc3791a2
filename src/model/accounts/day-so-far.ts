/** A day so far against its plan: orders, expected leftovers, and what runs out. */
import { z } from "zod";
import { instant } from "../basics/words.ts";

const garments = () => z.number().min(0);
const range = () =>
  z
    .strictObject({ likely: garments(), low: garments(), high: garments() })
    .describe("9 days in 10 from low to high");

export const DaySoFar = z
  .strictObject({
    asOf: instant(),
    plan: z.string().describe("Its name"),
    closes: instant().nullable().describe("Null if the fair is not open on this day"),
    dayGone: z.number().min(0).max(1).describe("Of the opening hours"),
    planDay: z
      .strictObject({ day: z.int().min(1), of: z.int().min(2) })
      .optional()
      .describe("Which day of a plan of several it is; leftovers are those after the last"),
    ordered: z.int().describe("Garments sold or on open orders"),
    plannedByNow: range(),
    pace: z
      .enum(["below", "within", "above"])
      .describe("Of the orders so far, beside the plan's range for now"),
    wholeDay: range().describe("Garments by closing, as the day goes"),
    runsOut: z
      .array(z.strictObject({ name: z.string(), free: z.int(), at: instant() }))
      .describe("Blanks and transfers that will not last, the first to go at the front"),
    comesHome: z
      .array(
        z.strictObject({
          name: z.string(),
          free: z.int(),
          left: z.int().describe("At closing, on the last day of several"),
          loses: z.int().nullable().describe("Loss in worth, minor units; null if its cost is unknown"),
        }),
      )
      .describe("Blanks and transfers of which much will be left, the dearest loss first"),
    stopPressing: z
      .array(z.strictObject({ name: z.string(), onRack: z.int(), stillToSell: z.number() }))
      .describe("Garments of which as many hang on the rack as will still be sold"),
  })
  .meta({
    id: "DaySoFar",
    description: "Orders so far against the plan, expected leftovers, and what runs out",
  });
export type DaySoFar = z.infer<typeof DaySoFar>;
