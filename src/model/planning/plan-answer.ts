import { z } from "zod";
import { PlanParts } from "./plan-parts.ts";

/** Sums are whole minor units of the plan's currency; chances and shares lie between 0 and 1. */
const money = () => z.int();
const chance = () => z.number().min(0).max(1);
const pieces = () => z.int().min(0);
const spread = () =>
  z.strictObject({ p5: z.number(), p50: z.number(), p95: z.number() }).describe("5, 50 and 95 % points");

export const PlanDemand = z
  .strictObject({
    passersBy: spread(),
    orders: spread(),
    garments: spread(),
    stated: z
      .strictObject({ mean: z.number(), deviation: z.number() })
      .describe("Garments, worked out from the request's figures without drawing"),
    hours: z.array(
      z.strictObject({
        day: z.int().optional().describe("Of a fair of several days, from 1"),
        from: z.string(),
        minutes: z.int(),
        garments: spread(),
        pressed: z.number().describe("Garments met in a mean day"),
        soldBy: spread().describe("Garments sold from opening to the end of this hour"),
        soldThatDay: spread()
          .optional()
          .describe(
            "Of a fair of several days: garments sold from that day's opening to the end of this hour",
          ),
        capacity: z
          .number()
          .nullable()
          .describe("Garments the presses can make; null if pressing is no limit"),
      }),
    ),
    offers: z.array(z.strictObject({ offer: z.string(), garments: spread() })),
    sizes: z.array(z.strictObject({ blank: z.string(), size: z.string(), share: chance() })),
    colours: z.array(z.strictObject({ blank: z.string(), colour: z.string(), share: chance() })),
  })
  .meta({ id: "PlanDemand" });
export type PlanDemand = z.infer<typeof PlanDemand>;

/** One line of what to bring. */
const line = {
  bring: pieces(),
  buy: pieces().describe("Beyond what is owned, in whole packs"),
  owned: pieces(),
  cost: money().describe("The price of what is bought"),
  asked: spread().describe("Garments asked for that would use it"),
  oddsSoldOut: chance().describe("That none is left at closing"),
  oddsComesHome: chance().describe("That at least one is left at closing"),
  comesHome: z.number().describe("Pieces left in a mean day"),
  oneMore: money().describe(
    "What one piece more, or a pack or sheet if it comes in those, would change the expected profit by",
  ),
  oneFewer: money().describe(
    "What one piece, pack or sheet fewer would change the expected profit by; never above 0",
  ),
};
const PlanSkuLine = z
  .strictObject({ sku: z.string(), blank: z.string(), colour: z.string(), size: z.string(), ...line })
  .meta({ id: "PlanSkuLine" });
const PlanTransferLine = z.strictObject({ design: z.string(), ...line }).meta({ id: "PlanTransferLine" });
const PlanReadyLine = z
  .strictObject({ offer: z.string(), colour: z.string(), size: z.string(), ...line })
  .meta({ id: "PlanReadyLine" });

/** One way to run the stall, side by side with the others. */
export const PlanManner = z
  .strictObject({
    manner: z.enum(["press-on-site", "print-ahead", "mixed"]),
    profit: money().describe("Expected, after every cost"),
    profitSpread: spread(),
    oddsOfLoss: chance(),
    garmentsSold: z.number(),
    outlay: money().describe("To pay for stock"),
    pieces: pieces().describe("Garments, decorated or not, in the van"),
    wastePieces: z.number().describe("Pieces spoiled, or home and worth nothing"),
    wasteMoney: money().describe("Paid for stock that came home or spoiled, less its worth"),
    soldOutAsks: z.number().describe("Garments asked for in a mean day and out"),
    waitAsks: z.number().describe("Garments lost in a mean day to too long a wait"),
    waitMinutes: z.strictObject({ median: z.number(), p90: z.number() }),
  })
  .meta({ id: "PlanManner" });
export type PlanManner = z.infer<typeof PlanManner>;

export const PlanBring = z
  .strictObject({
    manner: z.enum(["press-on-site", "print-ahead", "mixed"]),
    skus: z.array(PlanSkuLine),
    transfers: z.array(PlanTransferLine),
    ready: z.array(PlanReadyLine).describe("Garments decorated beforehand"),
    shopping: z
      .array(
        z.strictObject({
          item: z.string(),
          kind: z.enum(["sku", "transfer"]),
          need: pieces(),
          owned: pieces(),
          buy: pieces().describe("In whole packs"),
          cost: money().describe("The price of what is bought"),
        }),
      )
      .describe("Blanks and transfers to have, those for garments decorated beforehand included"),
    outlay: money(),
    budgetLeft: money().nullable(),
    pieces: pieces(),
    cartons: z.number(),
    binding: z.array(z.enum(["budget", "van", "presses"])).describe("Limits that cost profit"),
  })
  .meta({ id: "PlanBring" });
export type PlanBring = z.infer<typeof PlanBring>;

/** An offer planned alone from its stated demand: exactly, without scenarios. */
export const PlanStated = z
  .strictObject({
    offer: z.string(),
    criticalRatio: z.number().describe("Share of days on which the best stock is enough"),
    exactQuantity: z.number().describe("Before rounding to whole pieces"),
    quantity: pieces(),
    outlay: money(),
    expectedSold: z.number(),
    expectedUnmet: z.number(),
    expectedLeftOver: z.number(),
    oddsEnough: chance().describe("That nobody is turned away"),
    expectedProfit: z.number().describe("Minor units, before fixed costs; not rounded"),
  })
  .meta({ id: "PlanStated" });
export type PlanStated = z.infer<typeof PlanStated>;

export const PlanSmallerMenu = z
  .strictObject({
    dropOne: z.array(
      z.strictObject({
        drop: z.enum(["offer", "design", "colour", "size"]),
        id: z.string(),
        change: money().describe("Change of the expected profit, with stock planned again"),
        advised: z.boolean(),
      }),
    ),
    advice: z.array(z.string()).describe("What to leave off together, most worth leaving first"),
    change: money().describe("Change of the expected profit with all of the advice taken"),
  })
  .meta({ id: "PlanSmallerMenu" });
export type PlanSmallerMenu = z.infer<typeof PlanSmallerMenu>;

const setting = () => z.strictObject({ value: z.string(), profit: money() });
export const PlanMoney = z
  .strictObject({
    expectedProfit: money(),
    costs: z.array(z.strictObject({ name: z.string(), amount: money() })).describe("In a mean day"),
    takings: money().describe("Charged in a mean day, tax included"),
    profit: z.strictObject({ p5: money(), p25: money(), p50: money(), p75: money(), p95: money() }),
    histogram: z.array(z.strictObject({ from: money(), to: money(), chance: chance() })),
    oddsOfLoss: chance(),
    target: money(),
    oddsOfTarget: chance(),
    breakEven: z
      .strictObject({
        garments: z.number().nullable(),
        passersBy: z.number().nullable(),
        beyondStock: z
          .boolean()
          .describe("Whether that is more than is brought: with this stock the day cannot break even"),
      })
      .describe("With this stock; null if no number of sales is enough"),
    pitchFee: z.strictObject({
      now: money(),
      highest: money().describe("The fixed fee at which the expected profit is nothing"),
      cautious: money().describe("The fixed fee at which one day in ten makes a loss"),
    }),
    swings: z
      .array(z.strictObject({ what: z.string(), low: setting(), high: setting(), swing: money() }))
      .describe("One thing at a time, stock unchanged; largest first"),
    prices: z
      .array(
        z.strictObject({
          factor: z.number(),
          profit: money(),
          garments: z.number().describe("Asked for in a mean day"),
          sold: z.number().describe("Sold in a mean day"),
        }),
      )
      .describe("All prices changed alike, with stock planned again"),
  })
  .meta({ id: "PlanMoney" });
export type PlanMoney = z.infer<typeof PlanMoney>;

export const PlanCarton = z
  .strictObject({
    carton: z.string(),
    lines: z.array(z.strictObject({ what: z.string(), pieces: pieces() })),
    pieces: pieces(),
  })
  .meta({ id: "PlanCarton" });
export type PlanCarton = z.infer<typeof PlanCarton>;

export const PlanQuestion = z
  .strictObject({
    ask: z.enum(["organiser", "last year's stalls", "crew"]),
    question: z.string(),
    why: z.string(),
  })
  .meta({ id: "PlanQuestion" });
export type PlanQuestion = z.infer<typeof PlanQuestion>;

/** What to bring, how to run it, and whether the day can pay. */
export const Plan = z
  .strictObject({
    name: z.string(),
    day: z.iso.date().nullable(),
    currency: z.string(),
    seed: z.int(),
    scenarios: z.int().describe("Fewer than asked for if a busy day would not fit in memory"),
    demand: PlanDemand,
    bring: PlanBring,
    stated: z.array(PlanStated),
    manners: z.array(PlanManner),
    best: z
      .enum(["press-on-site", "print-ahead", "mixed"])
      .describe("The way that everything here follows: the one asked for, else the one that earns most"),
    earnsMost: z.enum(["press-on-site", "print-ahead", "mixed"]),
    summary: z
      .array(z.string())
      .describe("Three sentences: what to bring, what it earns and how sure, what would change that"),
    advice: z.string().describe("One sentence on how to run the stall"),
    smallerMenu: PlanSmallerMenu,
    money: PlanMoney,
    sold: z
      .array(
        z.strictObject({ offer: z.string(), colour: z.string(), size: z.string(), garments: z.number() }),
      )
      .describe("Garments of each kind sold in a mean day"),
    cartons: z.array(PlanCarton),
    questions: z.array(PlanQuestion),
    cautions: z.array(z.string()),
    taught: z
      .array(
        z.strictObject({
          part: z.enum(["buying", "offers", "colours", "sizes", "spoilage"]),
          of: z.string(),
          before: z.number(),
          after: z.number(),
          sample: z.int().describe("Asks, orders or garments that it rests on"),
        }),
      )
      .describe("Shares that the lessons of earlier fairs change, before and after"),
    parts: PlanParts.nullable().describe("Null if no other part was asked for"),
  })
  .meta({ id: "Plan", description: "What to bring, how to run the stall, and whether the day makes money" });
export type Plan = z.infer<typeof Plan>;
