/** The costs of a plan beside its stock. */
import { z } from "zod";
import { MoneyGiven, name, ShareGiven } from "./plan-given.ts";

export const Costs = z
  .strictObject({
    fixed: z
      .array(
        z.strictObject({
          name: name(),
          cost: MoneyGiven,
          kind: z.enum(["pitch", "power", "travel", "permit", "other"]).default("other"),
          onlyWhenPressing: z.boolean().default(false).describe("Falls away if everything is printed ahead"),
        }),
      )
      .max(60)
      .default([]),
    crew: z
      .strictObject({
        people: z.int().min(0).max(60),
        hours: z
          .number()
          .min(0)
          .max(48)
          .describe("Paid hours each, setting up and packing up included; on each day of several"),
        hourlyWage: MoneyGiven,
      })
      .optional(),
    perGarment: MoneyGiven.default(0).describe("Bag, ticket and the like, for each garment sold"),
    pitchShare: z
      .strictObject({
        share: ShareGiven.default(0).describe("Of the takings before tax, refunds taken off"),
        atLeast: MoneyGiven.default(0).describe("Paid for the whole fair even if the share comes to less"),
      })
      .optional()
      .describe("A pitch fee that grows with the takings, beside any fixed one"),
    wearPerPressing: MoneyGiven.default(0).describe("Of a press, for each garment pressed at the fair"),
    wearPerHour: MoneyGiven.default(0).describe("Of each press, for each hour that the fair is open"),
    refundShare: ShareGiven.default(0).describe(
      "Garments given back for their money, of those sold; one that comes back is worth nothing",
    ),
    exchangeShare: ShareGiven.default(0).describe(
      "Garments exchanged, of those sold: each is made again, and the one that comes back is worth nothing",
    ),
    ownTime: z
      .strictObject({
        hours: z.number().min(0).max(2000).default(0),
        hourly: MoneyGiven.default(0).describe("0 shows the hours' line without counting it"),
      })
      .optional()
      .describe("Hours that nobody is paid for, preparing included"),
    cardFee: z
      .strictObject({
        share: ShareGiven.describe("Of what is charged"),
        each: MoneyGiven.default(0).describe("For each payment"),
        paidByCard: ShareGiven.default(1),
      })
      .optional(),
    tax: z
      .strictObject({
        rate: ShareGiven,
        included: z.boolean().describe("Whether the prices include the tax"),
      })
      .optional(),
    target: MoneyGiven.default(0).describe("The profit hoped for"),
    elasticity: z
      .number()
      .min(0)
      .max(6)
      .default(1.5)
      .describe("By how many per cent sales fall when prices rise by one"),
  })
  .meta({ id: "PlanCosts" });
