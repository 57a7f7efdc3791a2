/** The other parts of the same plan: asked for along with it, answered along with it, each also alone. */
import { z } from "zod";
import { OrganiserSheet } from "./organiser-sheet.ts";
import { PitchPlan, PitchRequest } from "./pitch.ts";
import { PowerPlan, PowerRequest } from "./power.ts";
import { PressesPlan, PressesWish } from "./presses.ts";
import { SheetPlan, SheetRequest } from "./sheets.ts";

const PowerWish = PowerRequest.partial({ hours: true }).meta({
  id: "PowerWish",
  description: "Hours and heat left out, and presses not listed, are taken from the plan",
});
const PitchWish = PitchRequest.partial({ queue: true }).meta({
  id: "PitchWish",
  description: "A queue left out, and presses not listed, are taken from the plan",
});

export const PlanPartsWanted = z
  .strictObject({
    stall: z.string().trim().min(1).max(60).optional().describe("Its name, for the organiser's sheet"),
    setUpMinutes: z.int().min(0).max(600).optional().describe("From arriving to everything standing"),
    sheets: SheetRequest.optional().describe(
      "Counts, and what one more is worth, are taken from the plan for every design that it buys; asked for at least cost, the sheets decide what the transfers of the plan cost",
    ),
    presses: PressesWish.optional().describe("Tried on the days of this plan"),
    power: PowerWish.optional(),
    pitch: PitchWish.optional(),
  })
  .meta({ id: "PlanPartsWanted", description: "Other parts to plan along with the stock" });
export type PlanPartsWanted = z.output<typeof PlanPartsWanted>;

export const PlanParts = z
  .strictObject({
    sheets: SheetPlan.nullable(),
    presses: PressesPlan.nullable(),
    power: PowerPlan.nullable(),
    pitch: PitchPlan.nullable(),
    organiser: OrganiserSheet,
  })
  .meta({ id: "PlanParts", description: "The other parts of the plan; null if they were not asked for" });
export type PlanParts = z.infer<typeof PlanParts>;
