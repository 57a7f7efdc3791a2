/** The costs of a day, typed in by the crew. */

import { z } from "zod";
import { BlankId, DesignId, SizeId } from "../basics/ids.ts";
import { minorUnits } from "../basics/money.ts";
import { plainText } from "../basics/words.ts";

const percent = (most: number) => z.int().min(0).max(most);

/** The costs of a day that the stall cannot count itself. Amounts in minor units. */
export const DayCosts = z
  .strictObject({
    blanks: z
      .array(
        z.strictObject({
          blank: BlankId,
          size: SizeId.optional().describe("Only this size of it; without, every size that has no own line"),
          cost: minorUnits().describe("Of one"),
          worthPercent: percent(100)
            .default(80)
            .describe("What one that is left is worth next time, of its cost"),
        }),
      )
      .max(240)
      .default([]),
    transfers: z
      .array(
        z.strictObject({
          design: DesignId,
          cost: minorUnits().describe("Of one"),
          worthPercent: percent(100).default(0).describe("0 for a dated one"),
        }),
      )
      .max(60)
      .default([]),
    fees: z
      .array(z.strictObject({ name: plainText(40), amount: minorUnits() }))
      .max(30)
      .default([])
      .describe("Pitch, power, travel, permit"),
    wages: z
      .strictObject({
        people: z.int().min(0).max(60),
        hours: z.number().min(0).max(48).describe("Paid hours of each"),
        hourly: minorUnits(),
      })
      .optional(),
    cardFee: z
      .strictObject({
        partsPerMillion: z.int().min(0).max(1_000_000).describe("Of card payments: 2.7 % is 27000"),
        each: minorUnits().default(0).describe("For each payment by card"),
      })
      .optional(),
  })
  .meta({ id: "DayCosts", description: "What a day cost: pieces, fees, wages, card fees" });
export type DayCosts = z.infer<typeof DayCosts>;
