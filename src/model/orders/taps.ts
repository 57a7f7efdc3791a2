/** The bodies of the crew's taps: at a press, at the counter, over the floor. */
import { z } from "zod";
import { JobId, PressId, SizeId } from "../basics/ids.ts";
import { minorUnits } from "../basics/money.ts";
import { instant, plainText } from "../basics/words.ts";
import { DiscountReason, Tender, WantedLine } from "./order.ts";

const tappedAt = instant()
  .optional()
  .describe(
    "When it was tapped, where the stall hears of it later: not after now, nor before what came last",
  );
/** A tap on the garment that lies on a press, or did. */
const tappedHere = {
  press: PressId.optional().describe("The press that has it: refused if another press has it by now"),
  at: tappedAt,
};

export const Pull = z
  .strictObject({ job: JobId.optional().describe("One that is reserved for this press"), at: tappedAt })
  .meta({ id: "Pull" });
export const Lost = z.enum(["blank", "transfer", "both"]).meta({ id: "Lost" });
export type Lost = z.infer<typeof Lost>;

export const SpoilReason = z
  .enum(["crooked", "scorched", "wrong-size", "peeled-badly", "other"])
  .meta({ id: "SpoilReason" });
export type SpoilReason = z.infer<typeof SpoilReason>;

export const Spoiled = z
  .strictObject({
    lost: Lost,
    reason: SpoilReason.default("other"),
    rack: z
      .strictObject({ size: SizeId.optional().describe("The size it is in truth; without, the order's") })
      .optional()
      .describe("It can still be sold: it goes on the rack, in another size as good, else as a second"),
    ...tappedHere,
  })
  .meta({ id: "Spoiled" });
export const Undo = z.strictObject({ undo: z.boolean().default(false) }).meta({ id: "Undo" });
export const Pressed = z
  .strictObject({ ...tappedHere, undo: z.boolean().default(false) })
  .meta({ id: "Pressed" });
export const Returned = z.strictObject(tappedHere).meta({ id: "Returned" });
/** The members of a payment beside its tender and amount. */
export const paymentFields = {
  parts: z
    .array(z.strictObject({ tender: Tender, amount: minorUnits() }))
    .min(2)
    .max(4)
    .optional()
    .describe("Part by part if it is paid with several tenders; they are its amount"),
  tip: minorUnits().optional().describe("Given on top, with the first of its tenders"),
};
export const Payment = z
  .strictObject({
    tender: Tender.default("cash"),
    amount: minorUnits().optional().describe("Absent: the order's total"),
    ...paymentFields,
    by: plainText(20).optional().describe("Who of the crew took it"),
    undo: z.boolean().default(false),
  })
  .meta({ id: "Payment" });
const Garments = z
  .array(JobId)
  .min(1)
  .max(60)
  .refine((jobs) => new Set(jobs).size === jobs.length, "names a garment twice");
const OneChange = z
  .discriminatedUnion("type", [
    z.strictObject({
      type: z.literal("instead"),
      jobs: Garments.describe("Garments that are not pressed yet"),
      garment: WantedLine.omit({ quantity: true, rack: true }).describe(
        "What each of them becomes, at today's price",
      ),
    }),
    z.strictObject({ type: z.literal("add"), line: WantedLine.omit({ rack: true }) }),
    z.strictObject({ type: z.literal("take-off"), jobs: Garments }),
  ])
  .meta({ id: "OrderChange" });
export const ChangeOrder = z
  .strictObject({ changes: z.array(OneChange).min(1).max(20) })
  .meta({ id: "ChangeOrder", description: "Other garments in an order, more or fewer: all of it or none" });
export const DiscountOrder = z
  .strictObject({
    jobs: Garments.optional().describe("Only these garments; without, the whole order"),
    off: z
      .strictObject({
        by: z.union([
          z.strictObject({ amount: minorUnits().min(1) }),
          z.strictObject({
            partsPerMillion: z.int().min(1).max(1_000_000).describe("10 % is 100000, free is 1000000"),
          }),
        ]),
        reason: DiscountReason,
      })
      .nullable()
      .describe("Null: at the full price again"),
  })
  .meta({ id: "DiscountOrder" });
export const HandOver = z
  .strictObject({
    word: plainText(20).optional().describe("Checked if given"),
    undo: z.boolean().default(false),
  })
  .meta({ id: "HandOver" });
/** The returned garments of an order, and where they go. */
const keeps = z
  .boolean()
  .default(true)
  .describe("Whether pressed garments go on the rack, to be sold; else they are thrown away");
export const RefundGarments = z.strictObject({ jobs: Garments, keeps }).meta({ id: "RefundGarments" });
export const UndoRefund = z.strictObject({ jobs: Garments }).meta({ id: "UndoRefund" });
export const UndoExchange = z
  .strictObject({ job: JobId.describe("The garment that was to be made instead") })
  .meta({ id: "UndoExchange" });
export const ExchangeGarment = z
  .strictObject({
    job: JobId,
    instead: WantedLine.omit({ quantity: true }).describe(
      "What it becomes, at today's price; a garment of the rack is given out at once",
    ),
    keeps,
  })
  .meta({ id: "ExchangeGarment" });
export const Unracked = z
  .strictObject({
    as: z
      .enum(["thrown", "released"])
      .describe("released: it stays there, and may be sold though it was kept for its customer"),
  })
  .meta({ id: "Unracked" });
export const Exchange = z
  .strictObject({ reason: plainText(80).optional(), keeps, undo: z.boolean().default(false) })
  .meta({ id: "Exchange" });
export const Reserve = z
  .strictObject({
    on: z.boolean().describe("Whether to reserve garments from now on; false gives them all back"),
  })
  .meta({ id: "Reserve" });
export const ReserveReturned = z
  .strictObject({ jobs: z.array(JobId).min(1).max(60) })
  .meta({ id: "ReserveReturned" });
export const LiftClaims = z
  .strictObject({ minutes: z.int().min(1).max(240).nullable().default(60) })
  .meta({ id: "LiftClaims" });
export const Pause = z
  .strictObject({ reason: z.enum(["rain", "power", "lunch", "other"]).default("other") })
  .meta({ id: "Pause" });
