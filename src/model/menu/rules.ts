/** A stall's rules: payment, limits, tax, texts. */

import { z } from "zod";
import { minorUnits } from "../basics/money.ts";
import { plainText } from "../basics/words.ts";
import { paymentLinkFault } from "./payment-link.ts";

/** When a stall wants its money: before a garment is pressed, before it is handed over, or not noted at all. */
const PaymentRule = z.enum(["before-pressing", "before-handover", "not-tracked"]).meta({ id: "PaymentRule" });

const partsPerMillion = () => z.int().min(0).max(1_000_000);

/** A stall's own rules; every default suits a small stall. */
export const Rules = z
  .strictObject({
    holdMinutes: z
      .int()
      .min(1)
      .max(30)
      .default(3)
      .describe("How long stock is set aside for an unconfirmed order"),
    garmentsPerLine: z.int().min(1).max(50).default(6).describe("Most garments on one line of a phone order"),
    garmentsPerOrder: z.int().min(1).max(60).default(12).describe("Most garments in a phone order"),
    openOrdersPerSender: z.int().min(1).max(20).default(3).describe("Most unfinished orders of one sender"),
    textsPerMinute: z.int().min(3).max(120).default(20).describe("Texts answered per sender in a minute"),
    webHoldPercent: z
      .int()
      .min(1)
      .max(100)
      .default(20)
      .describe("The most free stock that unclaimed web orders and holds may take, in percent"),
    unclaimedGarments: z
      .int()
      .min(1)
      .max(1000)
      .default(6)
      .describe("Most garments that one address has in line before anybody comes, pays or texts the code"),
    claimMinutes: z
      .int()
      .min(5)
      .max(60)
      .default(15)
      .describe("How long a web order beyond that waits to be claimed at the counter"),
    webOrders: z.boolean().default(true).describe("Whether customers may order on the web page now"),
    payment: PaymentRule.default("not-tracked"),
    payMinutes: z.int().min(1).max(240).default(20).describe("How long an order may wait for its payment"),
    paymentLink: z
      .string()
      .max(120)
      .superRefine((template, context) => {
        const message = paymentLinkFault(template);
        if (message !== null) context.addIssue({ code: "custom", message });
      })
      .optional()
      .describe(
        "Where an order can be paid, https only, with the slots {order}, {amount} and {currency}; said when an order was placed. Payments are still noted by the crew",
      ),
    taxPartsPerMillion: partsPerMillion().default(0).describe("Sales tax: 7.25 % is 72500"),
    taxInPrice: z
      .boolean()
      .default(false)
      .describe("Whether the prices include the tax; if not, it is added to them"),
    taxBasis: z
      .enum(["item", "order"])
      .default("order")
      .describe("Whether tax is rounded per garment or per order"),
    secondsPartsPerMillionOff: partsPerMillion()
      .optional()
      .describe("What a second, a misprint on the rack, costs less: 30 % is 300000. Without: the full price"),
    secondsAmountOff: minorUnits().optional().describe("The same as an amount, at most its price; not both"),
    closingMarginMinutes: z.int().min(0).max(120).default(5),
    lastOrdersMinutes: z.int().min(0).max(240).default(30),
    lowStock: z
      .int()
      .min(0)
      .max(100)
      .default(3)
      .describe("A sku with this many free or fewer is shown as low"),
    overtakenMost: z
      .int()
      .min(0)
      .max(10)
      .default(3)
      .describe("How often a job may be overtaken by a later one"),
    lookAhead: z
      .int()
      .min(1)
      .max(20)
      .default(6)
      .describe("How many jobs a press may look past to keep its settings"),
    readyTextSeconds: z.int().min(0).max(120).default(10).describe("How long a ready text waits for an undo"),
    eraseAfterDays: z
      .int()
      .min(1)
      .max(365)
      .default(30)
      .describe("Days after the fair until names and numbers go"),
    seenAtFair: z.boolean().default(true).describe("Whether visitors see the stall on the fair's own page"),
    shareTakings: z
      .boolean()
      .default(false)
      .describe("Whether the organiser sees the stall's takings; counts are shared in any case"),
    contact: plainText(40).optional().describe("How to reach the stall, for the last line of a text"),
  })
  .meta({ id: "Rules" });
export type Rules = z.infer<typeof Rules>;
