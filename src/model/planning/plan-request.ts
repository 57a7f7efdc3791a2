import { z } from "zod";
import { Lessons } from "../accounts/lessons.ts";
import { Costs } from "./plan-costs.ts";
import {
  ClockGiven,
  MoneyGiven,
  name,
  PassersByGiven,
  ShareGiven,
  ShareRangeGiven,
  StatedDemand,
  WeightGiven,
} from "./plan-given.ts";
import { PlanPartsWanted } from "./plan-parts.ts";

const id = () =>
  z
    .string()
    .regex(/^[a-z0-9]+(?:-[a-z0-9]+)*$/, "must be lower-case letters and digits joined by single hyphens")
    .max(32);
const sizeId = () => z.string().regex(/^[A-Za-z0-9-]{1,8}$/, "must be 1 to 8 letters, digits or hyphens");
const pieces = () => z.int().min(0).max(100_000);

/** Rules shared by blanks, skus and transfers. */
const stockRules = {
  owned: pieces().optional().describe("Pieces already paid for"),
  minimum: pieces().optional().describe("Bring at least this many"),
  maximum: pieces().optional().describe("Bring at most this many"),
};

const PlanBlank = z
  .strictObject({
    id: id(),
    name: name().optional(),
    platen: z.enum(["flat", "cap"]).default("flat"),
    colours: z
      .array(z.strictObject({ id: id(), share: WeightGiven }))
      .min(1)
      .max(40),
    sizes: z
      .array(
        z.strictObject({
          id: sizeId(),
          share: WeightGiven,
          cost: MoneyGiven.optional(),
          youth: z
            .boolean()
            .optional()
            .describe("A youth size: no one takes it for an adult one, or an adult one for it"),
        }),
      )
      .min(1)
      .max(20)
      .describe("From small to large, so that a neighbouring size is the one before or after"),
    sureness: z
      .number()
      .min(1)
      .max(100_000)
      .default(60)
      .describe(
        "How many asks the colour and size shares are worth, and how far a fair strays from them: as so many asks would",
      ),
    cost: MoneyGiven,
    leftoverWorth: ShareGiven.default(0.8).describe(
      "What one that comes home is worth, as a share of its cost",
    ),
    styleNumber: z.string().trim().max(40).optional().describe("As the supplier's list has it"),
    casePack: z.int().min(1).max(144).default(1),
    priceBreaks: z
      .array(
        z.strictObject({
          from: z.int().min(2).max(100_000).describe("Pieces of one colour and size bought at once"),
          off: ShareGiven.describe("Off the cost of each of them"),
        }),
      )
      .max(8)
      .default([])
      .describe("In rising order; a cost given for one sku has none"),
    perCarton: z.int().min(1).max(1000).default(72),
  })
  .meta({ id: "PlanBlank" });

const PlanSku = z
  .strictObject({
    sku: z
      .string()
      .regex(/^[a-z0-9-]{1,32}\.[a-z0-9-]{1,32}\.[A-Za-z0-9-]{1,8}$/, "must be written blank.colour.size"),
    cost: MoneyGiven.optional(),
    casePack: z.int().min(1).max(144).optional(),
    ...stockRules,
  })
  .meta({ id: "PlanSku", description: "What differs for one sku" });

const PlanDesign = z
  .strictObject({
    id: id(),
    name: name().optional(),
    cost: MoneyGiven.describe(
      "Of one transfer; if it is printed on sheets of `parts.sheets`, their price decides",
    ),
    file: z.string().trim().max(120).optional().describe("Name of the art's file, for who prints it"),
    leftoverWorth: ShareGiven.default(0).describe(
      "What one that comes home is worth, as a share of its cost; 0 for dated ones",
    ),
    day: z.iso
      .date()
      .optional()
      .describe("Dated: the day its art names; nothing of it is worth anything after"),
    onlyOnDays: z
      .array(z.int().min(1).max(14))
      .min(1)
      .max(14)
      .optional()
      .describe(
        "Days of the fair, from 1, that it is asked for on, such as the one in its art; left out for all",
      ),
    setUpCost: MoneyGiven.default(0).describe(
      "Paid once if the design is brought at all: art, plates, an extra layout",
    ),
    ...stockRules,
  })
  .meta({ id: "PlanDesign" });

const PlanReady = z.strictObject({ offer: id(), colour: id(), size: sizeId(), owned: pieces() }).meta({
  id: "PlanReady",
  description: "Garments that are decorated already, such as an earlier fair left",
});

const PlanOffer = z
  .strictObject({
    id: id(),
    name: name().optional(),
    blank: id(),
    design: id().optional().describe("Left out for a blank that is sold as it is"),
    price: MoneyGiven,
    share: WeightGiven.optional().describe("Of the orders; not for an offer whose demand is stated"),
    demand: StatedDemand.optional(),
    colours: z.array(id()).min(1).optional().describe("Only these of the blank's colours"),
    sizes: z.array(sizeId()).min(1).optional().describe("Only these of the blank's sizes"),
  })
  .meta({ id: "PlanOffer" });

const Traffic = z
  .discriminatedUnion("kind", [
    z.strictObject({
      kind: z.literal("total"),
      passersBy: PassersByGiven,
      profile: z
        .array(z.strictObject({ from: ClockGiven, share: WeightGiven }))
        .min(1)
        .max(48)
        .optional(),
    }),
    z.strictObject({
      kind: z.literal("hourly"),
      hours: z
        .array(z.strictObject({ from: ClockGiven, passersBy: PassersByGiven }))
        .min(1)
        .max(48),
    }),
  ])
  .meta({ id: "PlanTraffic", description: "People who walk past the pitch" });

/** Everything a plan is made from. */
export const PlanRequest = z
  .strictObject({
    name: name().optional(),
    day: z.iso.date().optional().describe("Of the fair; printed on its lists"),
    currency: z
      .string()
      .regex(/^[A-Z]{3}$/, "must be an ISO 4217 code such as USD")
      .default("USD"),
    seed: z.int().min(0).max(4_294_967_295).default(1),
    scenarios: z.int().min(100).max(2000).default(1000),
    opens: ClockGiven.default("10:00"),
    closes: ClockGiven.default("18:00"),
    days: z
      .array(
        z.strictObject({
          name: name().optional(),
          crowd: z
            .number()
            .min(0)
            .max(20)
            .default(1)
            .describe("Of the passers-by in `traffic`, which are those of a usual day"),
        }),
      )
      .max(7)
      .default([])
      .describe(
        "Of a fair of several days: one stock, fixed costs once, wages each day; empty for a single day",
      ),
    restockOvernight: z
      .boolean()
      .default(false)
      .describe(
        "Each day of several begins with the full stock again; what was used is bought at its usual cost",
      ),
    newFair: z
      .boolean()
      .default(false)
      .describe("Nobody in the crew has been there: the crowd is less certain"),
    traffic: Traffic.optional(),
    weather: z
      .array(
        z.strictObject({
          name: name(),
          chance: WeightGiven,
          crowd: z.number().min(0).max(5).describe("Of the usual crowd"),
        }),
      )
      .max(12)
      .default([]),
    buying: z
      .strictObject({
        share: ShareRangeGiven.describe("Orders per passer-by"),
        garmentsPerOrder: z
          .array(z.strictObject({ garments: z.int().min(1).max(12), share: WeightGiven }))
          .min(1)
          .max(12)
          .default([{ garments: 1, share: 1 }]),
        bunching: z
          .number()
          .min(0)
          .max(2)
          .default(0.25)
          .describe("How far one hour strays from its share: standard deviation of its factor"),
        sureness: z
          .number()
          .min(1)
          .max(100_000)
          .default(60)
          .describe(
            "How many orders the shares of the offers are worth, and how far a fair strays from them: as so many orders would",
          ),
      })
      .optional(),
    blanks: z.array(PlanBlank).min(1).max(24),
    skus: z.array(PlanSku).max(2000).default([]),
    designs: z.array(PlanDesign).max(60).default([]),
    offers: z.array(PlanOffer).min(1).max(80),
    ready: z
      .array(PlanReady)
      .max(2000)
      .default([])
      .describe(
        "Brought in every way to run the stall; an offer whose demand is stated is planned without them",
      ),
    substitution: z
      .strictObject({
        anotherColour: ShareGiven.default(0),
        anotherDesign: ShareGiven.default(0),
        anotherSize: ShareGiven.default(0).describe(
          "Take the next larger size, or the next smaller, in the same colour and design",
        ),
      })
      .prefault({})
      .describe("What a customer does whose choice is out; the rest walk"),
    presses: z
      .array(
        z.strictObject({
          platen: z.enum(["flat", "cap"]),
          count: z.int().min(1).max(12),
          garmentsPerHour: z
            .number()
            .min(1)
            .max(400)
            .default(40)
            .describe("Of one press, with the hands that serve it"),
        }),
      )
      .max(2)
      .default([])
      .describe("Left out: pressing is no limit"),
    patienceMinutes: z
      .number()
      .min(0)
      .max(600)
      .default(20)
      .describe("Half of the customers wait no longer than this"),
    spoilage: ShareGiven.default(0).describe("Garments spoiled for each one sold; takes blank and transfer"),
    limits: z
      .strictObject({
        budget: MoneyGiven.optional().describe("For blanks and transfers"),
        van: z
          .union([
            z.strictObject({ pieces: z.int().min(0).max(1_000_000) }),
            z.strictObject({ cartons: z.int().min(0).max(10_000) }),
          ])
          .optional(),
      })
      .prefault({}),
    ahead: z
      .strictObject({
        leftoverWorth: ShareGiven.default(0).describe(
          "What a decorated garment that comes home is worth, as a share of its cost",
        ),
        perGarment: MoneyGiven.default(0).describe("Work of decorating one beforehand"),
        handOverSeconds: z.number().min(1).max(600).default(20),
        peopleAtFair: z.int().min(0).max(60).optional().describe("Crew needed if nothing is pressed on site"),
        mostKinds: z
          .int()
          .min(1)
          .max(60)
          .default(24)
          .describe("Most kinds a mixed plan decorates beforehand"),
      })
      .prefault({}),
    costs: Costs.prefault({}),
    lessons: z.array(Lessons).max(60).default([]),
    way: z
      .enum(["press-on-site", "print-ahead", "mixed"])
      .optional()
      .describe("How to run the stall; left out, the way that earns most"),
    parts: PlanPartsWanted.optional(),
  })
  .meta({ id: "PlanRequest", description: "Everything a plan is made from: crowd, menu, costs and limits" });
/** The request as sent: members with a default may be absent. */
export type PlanRequestSent = z.input<typeof PlanRequest>;
/** As it is planned from: every default filled in. */
export type PlanRequest = z.output<typeof PlanRequest>;
