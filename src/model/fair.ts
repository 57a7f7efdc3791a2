import { z } from "zod";
import { FairId, StallId } from "./ids.ts";
import { Money } from "./money.ts";
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

const count = () => z.int().min(0);

/** The counts of one stretch of time; every rate and share is worked out from these. */
export const Tally = z
  .strictObject({
    textsIn: count(),
    textsOut: count(),
    segmentsOut: count().describe("Text segments sent, as the gateway charges them"),
    asked: count().describe("Garments asked for, met or not"),
    placed: count().describe("Orders"),
    garments: count().describe("Garments ordered"),
    pressed: count().describe("Garments pressed"),
    spoiled: count(),
    collected: count().describe("Orders"),
    dropped: count().describe("Orders"),
    unmet: count().describe("Garments asked for and not to be had"),
    unmetSoldOut: count(),
    unmetClosed: count(),
    unmetWait: count(),
    promised: count().describe("Orders that became ready, with a promise"),
    kept: count().describe("Those that were ready when promised"),
    pressSeconds: count().describe("Time garments were under way on a press"),
  })
  .meta({ id: "Tally" });
export type Tally = z.infer<typeof Tally>;

const pace = {
  ...Tally.shape,
  backlog: count().describe("Garments still to be pressed"),
  waitMinutes: z.strictObject({ median: z.number().nullable(), p90: z.number().nullable() }),
  perHour: z.number().min(0).describe("Garments pressed in the last hour"),
};

export const StallPace = z
  .strictObject({
    stall: StallId,
    name: z.string(),
    heardAt: instant().nullable(),
    soldOut: count().describe("Choices of the menu that are gone"),
    backlogEnds: instant().nullable().describe("When all of the backlog is expected to be pressed"),
    ...pace,
  })
  .meta({ id: "StallPace" });
export type StallPace = z.infer<typeof StallPace>;

export const Throughput = z
  .strictObject({
    asOf: instant(),
    fair: z.string(),
    timeZone: TimeZone.describe("The fair's own clock, for whoever shows the buckets"),
    stalls: z.array(StallPace),
    total: z.strictObject(pace),
    texts: z.strictObject({
      segments: count().describe("Sent in all"),
      segmentsToday: count(),
      mostToday: count().describe("The cap of a day"),
      cost: Money.nullable().describe("An estimate, at the price in the gateway's mapping"),
      badSignatures: count().describe("Texts refused because their signature did not fit"),
    }),
    buckets: z.array(
      z.strictObject({
        start: instant(),
        placed: count(),
        pressed: count(),
        collected: count(),
        backlog: count(),
      }),
    ),
  })
  .meta({ id: "Throughput", description: "Every stall's pace, in 15-minute buckets and in total" });
export type Throughput = z.infer<typeof Throughput>;
