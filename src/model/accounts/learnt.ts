/** The evidence of several fairs combined, for the next plan. */

import { z } from "zod";
import { Lessons } from "./lessons.ts";

const count = () => z.int().min(0);
const share = () => z.number().min(0).max(1);

/** A figure with the span that holds it nine times of ten. */
const estimate = { low: z.number(), high: z.number() };

const shares = z.array(z.strictObject({ id: z.string(), asks: count(), share: share(), ...estimate }));

/** The combined lessons of some days, each day's evidence counted once. */
export const Learnt = z
  .strictObject({
    from: z.array(z.strictObject({ id: z.string(), fair: z.string(), day: z.iso.date() })),
    fairs: count().describe("Days of one fair count as one"),
    spans: z
      .enum(["this-fair", "next-fair"])
      .describe("Whose truth the spans hold nine times of ten: one fair cannot show how much fairs differ"),
    halfLifeYears: z.number().describe("After this many years a fair counts half as much"),
    sizes: z.array(z.strictObject({ blank: z.string(), shares })).describe("Of the garments asked for"),
    colours: z.array(z.strictObject({ blank: z.string(), shares })),
    offers: shares.describe("Of the orders asked for"),
    ordersPerHundred: z
      .strictObject({
        orders: count(),
        passersBy: z.number(),
        mean: z.number(),
        ...estimate,
      })
      .nullable()
      .describe("Orders for each hundred people who walk past; null if nobody counted them"),
    hours: z.array(
      z.strictObject({
        hour: z.string().describe("The fair's own clock"),
        orders: count(),
        passersBy: z.number().nullable(),
        ordersPerHundred: z.strictObject({ mean: z.number(), ...estimate }).nullable(),
      }),
    ),
    spoilage: z
      .strictObject({ pressed: count(), spoiled: count(), share: share(), ...estimate })
      .nullable()
      .describe("Of the tries"),
    handling: z.array(
      z.strictObject({ platen: z.enum(["flat", "cap"]), garments: count(), seconds: z.number() }),
    ),
  })
  .meta({ id: "Learnt", description: "What the days taught: each figure with its nine-in-ten span" });
export type Learnt = z.infer<typeof Learnt>;

/** Lessons of other fairs for a stall to import. */
export const TakeLessons = z
  .strictObject({ lessons: z.array(Lessons).min(1).max(60) })
  .meta({ id: "TakeLessons" });
