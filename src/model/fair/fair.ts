/** A fair and its stalls, as the owner and the organiser create and change them. */

import { z } from "zod";
import { FairId, StallId } from "../basics/ids.ts";
import { instant, plainText } from "../basics/words.ts";

const KNOWN_ZONES = new Set([...Intl.supportedValuesOf("timeZone"), "UTC"]);

export const TimeZone = z
  .string()
  .refine((zone) => KNOWN_ZONES.has(zone), "must be an IANA time zone such as Europe/London")
  .meta({ id: "TimeZone" });

const Opening = z
  .strictObject({ opens: instant(), closes: instant() })
  .refine(({ opens, closes }) => Date.parse(opens) < Date.parse(closes), "must close after it opens")
  .meta({ id: "Opening" });

export const CreateFair = z
  .strictObject({
    fair: FairId,
    name: plainText(60),
    timeZone: TimeZone,
    openings: z.array(Opening).min(1).max(31),
  })
  .meta({ id: "CreateFair" });
export type CreateFair = z.infer<typeof CreateFair>;

/** What can change after a fair is made: everything but its address. */
export const ChangeFair = z
  .strictObject({
    name: plainText(60),
    timeZone: TimeZone.optional().describe("Left out, the fair's clock stays as it is"),
    openings: z.array(Opening).min(1).max(31),
    over: z
      .literal(true)
      .optional()
      .describe("The fair is over: without it, hours that move the last closing into the past are refused"),
  })
  .meta({ id: "ChangeFair" });
export type ChangeFair = z.infer<typeof ChangeFair>;

export const FairView = z
  .strictObject({
    fair: FairId,
    name: z.string(),
    timeZone: z.string(),
    openings: z.array(z.strictObject({ opens: instant(), closes: instant() })),
  })
  .meta({ id: "FairView", description: "A fair's name, its clock, and when it is open" });
export type FairView = z.infer<typeof FairView>;

export const CreatedFair = z.strictObject({ fair: FairId, key: z.string() }).meta({ id: "CreatedFair" });

export const AddStall = z.strictObject({ name: plainText(40) }).meta({ id: "AddStall" });
export type AddStall = z.infer<typeof AddStall>;

export const AddedStall = z
  .strictObject({
    stall: StallId,
    key: z.string().describe("Of its crew"),
    pressKey: z.string().describe("Of its presses alone; it ends when the crew's key does"),
  })
  .meta({ id: "AddedStall" });

export const NewKey = z
  .strictObject({
    overlapMinutes: z.int().min(0).max(1440).default(0).describe("How long the old key still works"),
  })
  .meta({ id: "NewKey" });
