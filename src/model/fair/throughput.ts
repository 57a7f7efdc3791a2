/** Every stall's pace as the organiser reads it, and the query for it. */
import { z } from "zod";
import { StallId } from "../basics/ids.ts";
import { Money } from "../basics/money.ts";
import { instant } from "../basics/words.ts";
import { TimeZone } from "./fair.ts";

const count = () => z.int().min(0);
const minutes = () => z.number().min(0).nullable();
const fairDate = () => z.iso.date().describe("A day of the fair, by its own calendar");

/** The counts of one stretch of time; every rate and share is worked out from these. */
export const Tally = z
  .strictObject({
    textsIn: count(),
    textsOut: count(),
    segmentsOut: count().describe("Text segments sent, as the gateway charges them"),
    asked: count().describe("Garments asked for, met or not"),
    placed: count().describe("Orders"),
    garments: count().describe("Garments ordered"),
    pressed: count().describe("Garments pressed"),
    spoiled: count(),
    collected: count().describe("Orders"),
    dropped: count().describe("Orders"),
    unmet: count().describe("Garments asked for and not to be had"),
    unmetSoldOut: count(),
    unmetClosed: count(),
    unmetWait: count(),
    promised: count().describe("Orders that became ready, with a promise"),
    kept: count().describe("Those that were ready when promised"),
    pressSeconds: count().describe("Time garments were under way on a press"),
  })
  .meta({ id: "Tally" });
export type Tally = z.infer<typeof Tally>;

const waitMinutes = z
  .strictObject({ median: minutes(), p90: minutes() })
  .describe("From placed (or paid, if payment comes first) to ready; see waitErrorPercent");

export const Quarter = z
  .strictObject({
    start: instant().describe("When it begins, on the fair's own clock with its offset from UTC"),
    ...Tally.shape,
    backlog: count().describe("Garments still to be pressed when it ended, or now"),
    waitMinutes,
  })
  .meta({ id: "Quarter", description: "15 minutes; those in which nothing happened are left out" });
export type Quarter = z.infer<typeof Quarter>;

const pace = {
  ...Tally.shape,
  backlog: count().describe("Garments still to be pressed now"),
  backlogEnds: instant().nullable().describe("When all of the backlog is expected to be pressed"),
  waitMinutes,
  overQuote: z
    .strictObject({ orders: count(), medianMinutes: minutes(), p90Minutes: minutes() })
    .describe("Orders that became ready after their promise, and by how much"),
  perHour: z.number().min(0).describe("Garments pressed in the last hour"),
  perPressHour: z.number().min(0).nullable().describe("Garments for each hour that a press was at work"),
};

export const StallPace = z
  .strictObject({
    stall: StallId,
    name: z.string(),
    heardAt: instant().nullable().describe("When the stall last reported"),
    crewAt: instant().nullable().describe("When a device of its crew last asked the stall for anything"),
    orderedAt: instant()
      .nullable()
      .describe("When the latest quarter of an hour with an order began; null if there is none today"),
    paused: z.boolean().describe("Whether intake is stopped, by the crew or by the organiser"),
    setUp: z.boolean().describe("Whether the stall has a menu yet"),
    soldOut: count().describe("Offers of the menu of which nothing is left"),
    ...pace,
    takings: Money.nullable().describe(
      "For orders that are over, less what came back, tax included; null unless the stall's menu shares them",
    ),
    buckets: z.array(Quarter).optional().describe("Its own quarters of an hour, if they were asked for"),
  })
  .meta({ id: "StallPace" });
export type StallPace = z.infer<typeof StallPace>;

export const Throughput = z
  .strictObject({
    asOf: instant(),
    fair: z.string(),
    timeZone: TimeZone.describe("The fair's time zone, for programs that show the buckets"),
    open: z.boolean().describe("Whether the fair is open now"),
    today: fairDate(),
    days: z.array(fairDate()).describe("The days on which the fair opens"),
    span: z
      .strictObject({ from: instant().nullable(), to: instant().nullable() })
      .describe("What the counts cover, in whole quarters; null is from the start or up to now"),
    waitErrorPercent: z
      .number()
      .describe("Most by which a quantile of waits differs from the exact one (nearest rank), in percent"),
    stalls: z.array(StallPace),
    total: z.strictObject({
      ...pace,
      takings: z.array(Money).describe("Of the stalls that share them, a sum for each currency"),
      sharing: count().describe("Stalls that share their takings"),
    }),
    texts: z.strictObject({
      segments: count().describe("Sent in the span"),
      segmentsToday: count(),
      mostToday: count().describe("The cap of a day"),
      cost: Money.nullable().describe("An estimate, at the price in the gateway's mapping"),
      badSignatures: count().describe("Texts refused because their signature did not fit, ever"),
    }),
    buckets: z.array(Quarter),
  })
  .meta({ id: "Throughput", description: "Every stall's pace, in 15-minute buckets and in total" });
export type Throughput = z.infer<typeof Throughput>;

/** The query of the pace. `from` and `to` win over `day`, and `day` wins over `span`. */
export const ThroughputQuery = z
  .strictObject({
    span: z
      .enum(["now", "today", "all"])
      .default("today")
      .describe("now: this quarter of an hour and the three before it; today: the fair's day; all: ever"),
    day: fairDate().optional(),
    from: instant().optional().describe("Counts from the quarter of an hour that holds this instant"),
    to: instant().optional().describe("Counts up to the end of the quarter that holds this instant"),
    stall: StallId.optional().describe("Gives this stall's own quarters too"),
    per: z
      .enum(["stall", "quarter"])
      .default("stall")
      .describe("quarter: every stall's own quarters; in csv a row for each"),
  })
  .refine(({ from, to }) => from === undefined || to === undefined || Date.parse(from) < Date.parse(to), {
    message: "must be later than from",
    path: ["to"],
  });
export type ThroughputQuery = z.infer<typeof ThroughputQuery>;
