/** The numbers that a counter's device holds in advance, to number orders without signal. */
import { z } from "zod";
import { minorUnits } from "../basics/money.ts";
import { instant, plainText } from "../basics/words.ts";
import { PickupNumber, Tender } from "./order.ts";
import { paymentFields } from "./taps.ts";

/** A random id that the counter's page makes for the browser it runs in. */
export const DeviceId = z
  .string()
  .regex(/^[A-Za-z0-9_-]{16,32}$/)
  .brand<"DeviceId">()
  .meta({ id: "DeviceId" });
export type DeviceId = z.infer<typeof DeviceId>;

const word = z.string().regex(/^[a-z]{2,20}$/, "must be a pickup word");

/** A pickup number with the word that goes with it. */
export const Numbered = z.strictObject({ number: PickupNumber, word }).meta({ id: "Numbered" });
export type Numbered = z.infer<typeof Numbered>;

export const NumbersWanted = z
  .strictObject({
    device: DeviceId,
    have: z.int().min(0).max(10_000).describe("How many unused numbers the device has"),
    after: z.int().min(0).max(999_999).describe("The highest number it was ever given; 0 for none"),
  })
  .meta({ id: "NumbersWanted" });
export type NumbersWanted = z.infer<typeof NumbersWanted>;

export const NumbersGiven = z
  .strictObject({ numbers: z.array(Numbered).describe("Those of its block that it does not have yet") })
  .meta({ id: "NumbersGiven" });
export type NumbersGiven = z.infer<typeof NumbersGiven>;

/** The members of an order that only a counter sends. */
export const counterFields = {
  takenAt: instant().optional().describe("When it was taken, if the crew's tablet had no signal; crew only"),
  block: z
    .strictObject({ device: DeviceId, number: PickupNumber, word })
    .optional()
    .describe(
      "The number and word of the device's block that its customer has. The answer has another number if an order has this one; crew only",
    ),
  late: z
    .literal(true)
    .optional()
    .describe("Taken before the stall knew of it: pieces sold out since are short; crew only"),
  paid: z
    .strictObject({
      tender: Tender,
      amount: minorUnits().optional().describe("Absent: the order's total"),
      ...paymentFields,
      by: plainText(20).optional().describe("Who of the crew took it"),
    })
    .optional()
    .describe("It was paid when it was taken; crew only"),
};
