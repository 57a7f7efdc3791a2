/** A whole order sent at once. */

import { z } from "zod";
import { instant, plainText, typedLine } from "../basics/words.ts";
import { counterFields } from "./counter.ts";
import { WantedLine } from "./order.ts";

/** The pickup numbers kept for orders taken on paper while the power was out. */
export const PAPER_NUMBERS = { first: 900, last: 999 } as const;

export const PlaceOrder = z
  .strictObject({
    lines: z.array(WantedLine).min(1).max(20),
    name: plainText(40).optional().describe("First name or initials"),
    phone: typedLine(32).optional().describe("E.164, or as it is dialled in the fair's own country"),
    paper: z
      .strictObject({
        number: z.int().min(PAPER_NUMBERS.first).max(PAPER_NUMBERS.last),
        takenAt: instant(),
      })
      .optional()
      .describe("An order taken on paper while the power was out; crew only"),
    ...counterFields,
  })
  .meta({ id: "PlaceOrder" });
export type PlaceOrder = z.infer<typeof PlaceOrder>;
