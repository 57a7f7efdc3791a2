/** A closed day of a stall as its history keeps it: figures only, nothing about any customer. */
import { z } from "zod";
import { Currency } from "../basics/money.ts";
import { Tender } from "../orders/order.ts";
import { SpoilReason } from "../orders/taps.ts";
import { Day } from "./closeout.ts";

const money = () => z.int().describe("Minor units");
const name = () => z.string().max(200);
const pieces = () => z.array(z.strictObject({ name: name(), used: z.int(), left: z.int() })).max(2000);

const PastDay = z
  .strictObject({
    place: name().describe("Short names of fair and stall, as in an address"),
    fair: name(),
    stall: name(),
    day: Day,
    currency: Currency,
    openHours: z.number(),
    profit: money().nullable().describe("Null while nobody typed the costs"),
    sales: money().describe("Before tax"),
    difference: money(),
    givenBack: money(),
    tax: money(),
    blanks: money(),
    transfers: money(),
    fees: money(),
    wages: money(),
    cardFees: money(),
    tenders: z
      .array(
        z.strictObject({
          tender: z.union([Tender, z.literal("not-noted")]),
          amount: money(),
          givenBack: money(),
        }),
      )
      .max(10),
    offers: z.array(z.strictObject({ name: name(), garments: z.int() })).max(200),
    designs: pieces(),
    colours: pieces(),
    sizes: pieces(),
    mistakes: z.array(z.strictObject({ reason: SpoilReason, pieces: z.int(), cost: money() })).max(20),
  })
  .meta({ id: "PastDay", description: "A closed day: money, what sold, what was left, mistakes" });
export type PastDay = z.infer<typeof PastDay>;

/** The history of a crew as one file. */
export const PastDays = z
  .strictObject({
    format: z.literal("stallpress-fairs"),
    version: z.literal(1),
    days: z.array(PastDay).max(5000),
  })
  .meta({ id: "PastDays", description: "Every closed day that a browser knows, as one file" });
