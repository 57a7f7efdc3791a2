import { z } from "zod";
import { FairId, StallId } from "./ids.ts";
import { instant, plainText } from "./words.ts";

const KNOWN_ZONES = new Set([...Intl.supportedValuesOf("timeZone"), "UTC"]);

export const TimeZone = z
  .string()
  .refine((zone) => KNOWN_ZONES.has(zone), "must be an IANA time zone such as Europe/London")
  .meta({ id: "TimeZone" });

export const Opening = z
  .strictObject({ opens: instant(), closes: instant() })
  .refine(({ opens, closes }) => Date.parse(opens) < Date.parse(closes), "must close after it opens")
  .meta({ id: "Opening" });
export type Opening = z.infer<typeof Opening>;

export const CreateFair = z
  .strictObject({
    fair: FairId,
    name: plainText(60),
    timeZone: TimeZone,
    openings: z.array(Opening).min(1).max(31),
  })
  .meta({ id: "CreateFair" });
export type CreateFair = z.infer<typeof CreateFair>;

export const CreatedFair = z.strictObject({ fair: FairId, key: z.string() }).meta({ id: "CreatedFair" });

export const AddStall = z.strictObject({ name: plainText(40) }).meta({ id: "AddStall" });
export type AddStall = z.infer<typeof AddStall>;

export const AddedStall = z.strictObject({ stall: StallId, key: z.string() }).meta({ id: "AddedStall" });

export const NewKey = z
  .strictObject({
    overlapMinutes: z.int().min(0).max(1440).default(0).describe("How long the old key still works"),
  })
  .meta({ id: "NewKey" });
