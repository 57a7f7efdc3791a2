/** An accepted plan, as a stall is filled from it in one step. */
import { z } from "zod";
import { Fault } from "../basics/faults.ts";
import { ColourId, DesignId, OfferId, SizeId, Sku } from "../basics/ids.ts";
import { TransferKind } from "../menu/catalogue.ts";
import { StockView } from "../orders/stock.ts";
import { PlanToKeep } from "./kept-plan.ts";
import { PlanRequest } from "./plan-request.ts";

const pieces = z.int().min(0).max(100_000);
const stockLine = {
  bring: pieces,
  owned: pieces.default(0),
  comesHome: z.number().min(0).max(100_000).default(0),
};

export const AcceptedPlan = z
  .strictObject({
    // The whole request and the plan's own lines may be sent: members that are not needed are ignored.
    request: PlanRequest.pick({
      currency: true,
      blanks: true,
      designs: true,
      offers: true,
      presses: true,
      costs: true,
      ahead: true,
      spoilage: true,
    })
      .strip()
      .meta({
        id: "PlannedMenu",
        description: "The plan request; its menu, presses, tax and costs are taken",
      }),
    bring: z
      .object({
        skus: z.array(z.object({ sku: Sku, ...stockLine })).max(2000),
        transfers: z.array(z.object({ design: DesignId, ...stockLine })).max(60),
        ready: z
          .array(
            z.object({
              offer: OfferId,
              colour: ColourId.optional(),
              size: SizeId.optional(),
              bring: pieces,
              owned: stockLine.owned.describe("Of those, decorated already"),
              cost: z.int().min(0).default(0).describe("Of the whole line, minor units"),
              comesHome: stockLine.comesHome,
            }),
          )
          .max(6000)
          .default([])
          .describe(
            "Garments printed ahead: they hang on the rack; a line without colour and size is only listed",
          ),
      })
      .meta({ id: "PlannedStock", description: "The plan's own lines of what to bring" }),
    art: z
      .array(
        z.strictObject({
          design: DesignId,
          widthInches: z.number().min(0.5).max(30),
          heightInches: z.number().min(0.5).max(30),
          kind: TransferKind.optional(),
        }),
      )
      .max(60)
      .default([])
      .describe("What the plan does not know of its designs; left out, the menu's own or a usual size"),
    plan: PlanToKeep.optional().describe(
      "Sent along, the plan is kept with the stall: its close-out begins from its costs and stands beside it",
    ),
  })
  .meta({ id: "AcceptedPlan", description: "A plan request with the plan's lines: menu and opening stock" });
export type AcceptedPlan = z.output<typeof AcceptedPlan>;

export const PlanTaken = z
  .strictObject({
    version: z.int(),
    stock: StockView,
    check: z
      .array(Fault)
      .describe("Values filled in by common practice, and parts left out: check them first"),
  })
  .meta({ id: "PlanTaken" });
export type PlanTaken = z.infer<typeof PlanTaken>;
