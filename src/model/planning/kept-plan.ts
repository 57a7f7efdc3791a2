/** The plan that a stall was filled from, as stored: its costs, and its forecast of the day. */
import { z } from "zod";
import { DayCosts } from "../accounts/day-costs.ts";
import { ColourId, OfferId, SizeId } from "../basics/ids.ts";
import { PlanDemand, PlanManner, PlanMoney } from "./plan-answer.ts";

const MOST_DAYS = 7;
const MOST_HOURS = 24 * MOST_DAYS;
const garments = () => z.number().min(0).max(1_000_000);
const money = () => z.int();

/** Garments in a middle day, and the figures that one day in twenty is below and above. */
const Range = z.strictObject({ likely: garments(), low: garments(), high: garments() });

const PlannedSale = z
  .strictObject({
    offer: OfferId,
    colour: ColourId,
    size: SizeId,
    garments: garments().describe("Sold in a mean day"),
  })
  .meta({ id: "PlannedSale" });

export const KeptPlan = z
  .strictObject({
    name: z.string().max(60),
    day: z.iso.date().nullable(),
    days: z.int().min(2).max(MOST_DAYS).optional().describe("Of a fair of several days; left out for one"),
    costs: DayCosts.describe(
      "To begin a day's own from; bags and the like for the garments expected; of several days, the fees are the first day's",
    ),
    profit: z.strictObject({ likely: money(), low: money(), high: money() }),
    garments: Range.describe("Sold in the day, or in all of its days"),
    waitMinutes: z.strictObject({ median: z.number(), p90: z.number() }),
    spoiled: garments().describe("Blanks spoiled in a mean day"),
    left: z.strictObject({ blanks: garments(), transfers: garments() }).describe("In a mean day"),
    ready: z
      .strictObject({ left: garments(), worth: money() })
      .optional()
      .describe("Garments printed ahead: those left in a mean day, and what one is worth next time"),
    owned: z
      .record(z.string().max(80), z.int().min(0))
      .describe("By sku or design: pieces that an earlier day has paid for; those with none are left out"),
    hours: z
      .array(
        z.strictObject({
          day: z.int().min(1).max(MOST_DAYS).optional().describe("Of a fair of several days, from 1"),
          from: z.string().max(5).describe("The fair's own clock"),
          minutes: z.int().min(1).max(1440),
          soldBy: Range.describe("Garments sold from that day's opening to the end of this hour"),
        }),
      )
      .max(MOST_HOURS),
    sold: z.array(PlannedSale).max(6000),
  })
  .meta({
    id: "KeptPlan",
    description: "The plan that a stall was filled from: its costs and forecast",
  });
export type KeptPlan = z.infer<typeof KeptPlan>;

const { hours } = PlanDemand.shape;
/** The part of a plan's answer that is kept; the rest may be sent along and is ignored. */
export const PlanToKeep = z
  .object({
    name: z.string().max(60),
    day: z.iso.date().nullable(),
    best: PlanManner.shape.manner,
    manners: z.array(PlanManner.pick({ manner: true, garmentsSold: true, waitMinutes: true }).strip()).max(3),
    money: PlanMoney.pick({ expectedProfit: true, profit: true })
      .extend({ costs: PlanMoney.shape.costs.optional() })
      .strip(),
    demand: z.object({
      hours: z
        .array(
          hours.element
            .pick({ day: true, from: true, minutes: true, soldBy: true, soldThatDay: true })
            .strip(),
        )
        .max(MOST_HOURS),
    }),
    sold: z.array(PlannedSale).max(6000),
  })
  .meta({ id: "PlanToKeep", description: "The answer of POST /v1/plans, as it is" });
export type PlanToKeep = z.output<typeof PlanToKeep>;
