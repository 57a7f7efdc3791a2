/** The account of a day, and what the crew sets in it. */

import { z } from "zod";
import { ColourId, DesignId, OfferId, SizeId, Sku } from "../basics/ids.ts";
import { Currency } from "../basics/money.ts";
import { instant, plainText } from "../basics/words.ts";
import { Tender } from "../orders/order.ts";
import { RackGarment } from "../orders/rack.ts";
import { SpoilReason } from "../orders/taps.ts";
import { DayCosts } from "./day-costs.ts";
import { DrawerView } from "./drawer.ts";

/** A day of the account, by the date on which the fair opened. */
export const Day = z.iso.date();

export const SetCosts = z.strictObject({ day: Day, costs: DayCosts }).meta({ id: "SetCosts" });
export const CloseDay = z.strictObject({ day: Day }).meta({ id: "CloseDay" });
export const ReopenDay = z.strictObject({ day: Day, reason: plainText(80) }).meta({ id: "ReopenDay" });

export const DayStanding = z.strictObject({ day: Day, closed: z.boolean() }).meta({ id: "DayStanding" });
export const TellCrowd = z
  .strictObject({
    day: Day,
    crowd: z
      .strictObject({
        passersBy: z.int().min(1).max(10_000_000),
        uncertainty: z
          .number()
          .min(0)
          .max(2)
          .default(0.2)
          .describe("Standard deviation of the count, as a share of it"),
      })
      .nullable(),
  })
  .meta({ id: "TellCrowd" });
export const PassersBy = z
  .strictObject({
    people: z.int().min(0).max(100_000),
    seconds: z.int().min(1).max(86_400).describe("How long the crew watched, up to now"),
  })
  .meta({ id: "PassersBy" });
export const CountedPassersBy = z
  .strictObject({ people: z.int(), seconds: z.int() })
  .meta({ id: "CountedPassersBy" });

const count = () => z.int();
const money = () => z.int().describe("Minor units");

const pieceCounts = {
  opening: count().describe("There when the day began, or counted first on this day"),
  delivered: count(),
  corrected: count(),
  pressed: count(),
  spoiled: z.partialRecord(SpoilReason, count()).describe("By reason"),
  expected: count().describe("opening + delivered + corrected - pressed - spoiled"),
  counted: count().nullable().describe("The last count, less use since then; null if nobody counted"),
  missing: count().nullable().describe("expected - counted"),
  left: count().describe("On hand at the end of the day"),
  emptyAt: instant().nullable().describe("Since when none of it was free"),
  unitCost: money().nullable(),
  leftCost: money().nullable(),
  worthNextTime: money().nullable(),
};

const sold = { garments: count(), amount: money().describe("Before tax"), returned: count() };

const soldAsPlanned = <K extends z.ZodRawShape>(key: K) =>
  z.array(z.strictObject({ ...key, name: z.string(), planned: z.number(), sold: count() }));

/** The plan that the stall was filled from beside the day, each pair of figures on one basis. */
const PlannedDay = z
  .strictObject({
    name: z.string(),
    day: Day.nullable(),
    days: z
      .int()
      .optional()
      .describe("Of a plan of several: beside one day, only `garments` has that day's own plan"),
    profit: z
      .strictObject({ likely: money(), low: money(), high: money(), actual: money().nullable() })
      .describe("After what bought stock that is left has lost in worth; 9 days in 10 from low to high"),
    garments: z.strictObject({ likely: z.number(), low: z.number(), high: z.number(), actual: count() }),
    waitMinutes: z.strictObject({ planned: z.number(), actual: z.number().nullable() }).describe("Median"),
    spoiled: z.strictObject({ planned: z.number(), actual: count() }).describe("Blanks"),
    blanksLeft: z.strictObject({ planned: z.number(), actual: count() }),
    transfersLeft: z.strictObject({ planned: z.number(), actual: count() }),
    readyLeft: z
      .strictObject({ planned: z.number(), actual: count() })
      .optional()
      .describe("Garments printed ahead; actual: on the rack now"),
    offers: soldAsPlanned({ offer: OfferId }),
    colours: soldAsPlanned({ colour: ColourId }),
    sizes: soldAsPlanned({ size: SizeId }),
  })
  .meta({ id: "PlannedDay" });

/** One day's account. */
export const Closeout = z
  .strictObject({
    asOf: instant(),
    fair: z.string(),
    stall: z.string(),
    timeZone: z.string(),
    currency: Currency,
    day: Day,
    stage: z.enum(["open", "closed", "reopened"]),
    closedAt: instant().nullable(),
    reopenings: z.array(z.strictObject({ at: instant(), reason: z.string() })),
    days: z.array(z.strictObject({ day: Day, closed: z.boolean() })).describe("Every day there is"),
    openOrders: count().describe("Orders not finished yet"),
    skus: z.array(
      z.strictObject({
        sku: Sku,
        name: z.string(),
        ...pieceCounts,
      }),
    ),
    transfers: z.array(z.strictObject({ design: DesignId, name: z.string(), ...pieceCounts })),
    sales: z.strictObject({
      choices: z.array(
        z.strictObject({
          offer: OfferId,
          name: z.string(),
          colour: ColourId,
          colourName: z.string(),
          size: SizeId,
          sizeName: z.string(),
          ...sold,
          asked: count().describe("Garments asked for, met or not"),
          unmet: count().describe("Of those, garments that could not be had, for whatever reason"),
        }),
      ),
      offers: z.array(z.strictObject({ offer: OfferId, name: z.string(), ...sold })),
      colours: z.array(z.strictObject({ colour: ColourId, name: z.string(), ...sold })),
      sizes: z.array(z.strictObject({ size: SizeId, name: z.string(), ...sold })),
      hours: z.array(
        z.strictObject({
          from: z.string().describe("The fair's own clock"),
          orders: count(),
          garments: count(),
          amount: money().describe("Before tax"),
        }),
      ),
      tenders: z.array(
        z.strictObject({
          tender: z.union([Tender, z.literal("not-noted")]),
          payments: count(),
          amount: money().describe("Tax included"),
          returns: count(),
          givenBack: money().describe("Tax included"),
        }),
      ),
    }),
    money: z.strictObject({
      sales: money().describe("Before tax, at the prices of the orders"),
      difference: money().describe("Paid beyond the prices; negative if less"),
      givenBack: money().describe("Of both, to customers who returned something"),
      tax: money().describe("Collected, less refunds: owed, not earned"),
      blanks: money().describe("Blanks pressed, spoiled or missing, at cost"),
      transfers: money().describe("Transfers pressed, spoiled or missing, at cost"),
      fees: money(),
      wages: money(),
      cardFees: money(),
      profit: money(),
      openHours: z.number().describe("How long the fair was open"),
      profitPerHour: money().nullable(),
    }),
    waste: z.strictObject({
      blanks: count().describe("Spoiled"),
      transfers: count().describe("Spoiled"),
      missing: count().describe("Pieces that counts did not find"),
      unsold: count().describe("Garments pressed for orders that were not kept"),
      seconds: z
        .strictObject({ garments: count(), less: money() })
        .optional()
        .describe("Misprints sold as seconds, and what they cost less; absent without any"),
      cost: money().describe("Of all of it"),
    }),
    soldOut: z.array(
      z.strictObject({
        offer: OfferId,
        name: z.string(),
        colour: ColourId,
        colourName: z.string(),
        size: SizeId,
        sizeName: z.string(),
        at: instant().nullable().describe("Null if there was none of it all day"),
        unmetAfter: count().describe("Garments asked for while it was out"),
      }),
    ),
    left: z.strictObject({
      blanks: count(),
      transfers: count(),
      cost: money(),
      worthNextTime: money(),
    }),
    waits: z.strictObject({
      promised: count().describe("Orders that became ready, with a promise"),
      kept: count(),
      medianMinutes: z.number().nullable(),
      p90Minutes: z.number().nullable(),
    }),
    rack: z.array(RackGarment).optional().describe("The garments on the rack now"),
    drawer: DrawerView.nullable().optional().describe("Null if its float was never set"),
    costs: DayCosts.nullable().describe("As they were typed for this day; until then those of the plan"),
    costsFrom: z
      .enum(["typed", "plan"])
      .nullable()
      .optional()
      .describe("Whose the costs are; null: nobody's"),
    earlierCosts: DayCosts.nullable().describe("Those of the last day before, to begin from"),
    unpriced: z.array(z.string()).describe("Blanks and designs used that have no cost yet"),
    planned: PlannedDay.nullable().optional().describe("Null if the stall was filled from no plan"),
    plannedWhole: PlannedDay.nullable()
      .optional()
      .describe(
        "The same plan, unscaled, beside all days together; null if there is one day and the plan is of one",
      ),
  })
  .meta({ id: "Closeout", description: "One day of a stall: stock, sales, money, waste, waits" });
export type Closeout = z.infer<typeof Closeout>;
