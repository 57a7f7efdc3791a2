/** The evidence of one fair: counts of people, asks, garments and seconds. */

import { z } from "zod";

const tally = (what: string) => z.int().min(0).max(1_000_000).describe(what);
const named = z.string().min(1).max(40);

/**
 * The evidence of one day at one fair: counts, no priors. A reader of several adds them to its own prior, and counts
 * each `id` once.
 */
export const Lessons = z
  .strictObject({
    id: z.string().min(1).max(80).describe("Names this evidence: a file read twice counts once"),
    fair: named,
    day: z.iso.date(),
    kind: named.optional().describe("Kind of fair, in your own word: music, food, school"),
    sizes: z
      .array(z.strictObject({ blank: named, size: named, asks: tally("Garments asked for, met or not") }))
      .max(500)
      .default([]),
    colours: z
      .array(z.strictObject({ blank: named, colour: named, asks: tally("Garments asked for, met or not") }))
      .max(500)
      .default([]),
    offers: z
      .array(z.strictObject({ offer: named, asks: tally("Orders that asked for it, met or not") }))
      .max(200)
      .default([]),
    buying: z
      .strictObject({
        orders: tally("Orders asked for, met or not"),
        passersBy: z.int().min(1).max(10_000_000),
        passersByUncertainty: z
          .number()
          .min(0)
          .max(2)
          .default(0.2)
          .describe("Standard deviation of the count of passers-by, as a share of it"),
      })
      .optional(),
    hours: z
      .array(
        z.strictObject({
          hour: z.string().regex(/^[0-2][0-9]:00$/, "must be an hour such as 14:00"),
          orders: tally("Orders asked for, met or not"),
          passersBy: z.int().min(0).max(10_000_000).nullable().describe("Null if nobody counted"),
        }),
      )
      .max(24)
      .default([])
      .describe("The same by the hour of the fair's clock"),
    spoilage: z.strictObject({ pressed: tally("Garments"), spoiled: tally("Garments") }).optional(),
    handling: z
      .array(
        z.strictObject({
          platen: z.enum(["flat", "cap"]),
          garments: tally("Garments timed"),
          seconds: z.number().min(5).max(3600).describe("Mean time from one pull to the next"),
        }),
      )
      .max(2)
      .default([]),
  })
  .meta({ id: "Lessons", description: "What a day at a fair taught, for planning the next one" });
export type Lessons = z.infer<typeof Lessons>;
