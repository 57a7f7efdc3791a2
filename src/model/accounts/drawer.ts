/** The drawer of a day: its float, what went in and out, what was counted, and what should be there. */
import { z } from "zod";
import { minorUnits } from "../basics/money.ts";
import { instant } from "../basics/words.ts";
import { PickupNumber, Tender } from "../orders/order.ts";

export const PayOutReason = z
  .enum(["supplies", "change", "food", "fee", "wages", "bank", "other"])
  .meta({ id: "PayOutReason" });
export type PayOutReason = z.infer<typeof PayOutReason>;

export const SetFloat = z
  .strictObject({ amount: minorUnits().describe("In the drawer before the first sale") })
  .meta({ id: "SetFloat" });
export const PayOut = z
  .strictObject({ amount: minorUnits().min(1), reason: PayOutReason })
  .meta({ id: "PayOut" });
export const DrawerCount = z
  .strictObject({
    counted: minorUnits().describe("Cash in the drawer"),
    handOver: z
      .boolean()
      .default(false)
      .describe("Another shift takes over the drawer with the counted cash"),
  })
  .meta({ id: "DrawerCount" });

const money = () => z.int().describe("Minor units");

export const DrawerView = z
  .strictObject({
    float: money(),
    tenders: z
      .array(
        z.strictObject({ tender: Tender, in: money(), out: money(), tips: money().describe("Part of in") }),
      )
      .describe("What changed hands since the float was set"),
    paidOut: z.array(z.strictObject({ at: instant(), amount: money(), reason: PayOutReason })),
    counts: z.array(
      z.strictObject({
        at: instant(),
        counted: money(),
        expected: money(),
        difference: money().describe("counted - expected"),
        handOver: z.boolean(),
      }),
    ),
    expected: money().describe(
      "Cash that should be there: float + cash in - cash out - pay-outs, as handed over",
    ),
    owed: z
      .array(z.strictObject({ number: PickupNumber, amount: money() }))
      .describe("To be given back on orders, open or over; still in the drawer"),
    due: z
      .array(z.strictObject({ number: PickupNumber, amount: money() }))
      .describe("Still to be paid on open orders that were paid and changed"),
    takers: z
      .array(z.strictObject({ name: z.string(), tender: Tender, amount: money() }))
      .describe("What each of the crew took, tips included, as it was noted"),
  })
  .meta({ id: "Drawer", description: "The drawer of a day" });
export type DrawerView = z.infer<typeof DrawerView>;
