import { z } from "zod";
import { Temperature } from "../basics/measure.ts";
import { MoneyGiven } from "./plan-given.ts";

/** Ranges are judged by the planner (planning/presses-faults.ts), so that one answer names every fault at once. */
export const Platen = z.enum(["flat", "cap"]);
export type Platen = z.infer<typeof Platen>;

export const PressAsk = z
  .strictObject({
    atSeconds: z.number().meta({ description: "After opening." }),
    platen: Platen,
    garments: z.int(),
    settings: z.string().optional().meta({ description: "Which handling; left out, the platen's first." }),
    patienceSeconds: z.number().optional().meta({ description: "Walks if quoted a longer wait." }),
  })
  .meta({ id: "PressAsk", description: "One customer's wish for garments of one platen kind." });
export type PressAsk = z.infer<typeof PressAsk>;

/** Seconds for one garment. */
export const Handling = z
  .strictObject({
    settings: z.string().min(1).max(40),
    platen: Platen,
    temperature: Temperature,
    loadSeconds: z.number().meta({ description: "Load and smooth." }),
    prePressSeconds: z.number().meta({ description: "Drive out moisture and wrinkles, standing by." }),
    placeSeconds: z.number().meta({ description: "Place the transfer." }),
    dwellSeconds: z.array(z.number()).meta({ description: "One dwell for each time it is pressed." }),
    peelSeconds: z.number().meta({ description: "After the first dwell." }),
    unloadSeconds: z.number().meta({ description: "Until the press is free." }),
    foldSeconds: z.number().meta({ description: "Fold and call, away from the press." }),
  })
  .meta({ id: "Handling" });
export type Handling = z.infer<typeof Handling>;

export const PressesRequest = z
  .strictObject({
    currency: z
      .string()
      .regex(/^[A-Z]{3}$/, "must be an ISO 4217 code such as USD")
      .optional(),
    seed: z.int().min(0).max(4_294_967_295).optional(),
    closesAtSeconds: z.number().meta({ description: "From opening to closing." }),
    scenarios: z.array(z.array(PressAsk)).meta({ description: "Days that may happen, all as likely." }),
    handling: z.array(Handling),
    handVariation: z.number().optional().meta({
      description: "Standard deviation of the hands' time over its mean; 0.25 when left out.",
    }),
    spoilage: z.number().optional().meta({ description: "Share of pressings that spoil the garment." }),
    patience: z
      .strictObject({ medianSeconds: z.number(), variation: z.number() })
      .optional()
      .meta({ description: "For asks that state none; left out, everyone waits." }),
    heatingCelsiusPerMinute: z.number().optional(),
    coolingCelsiusPerMinute: z.number().optional(),
    holdBackSeconds: z.number().optional().meta({
      description: "How long jobs that share settings may be taken before an earlier one that does not.",
    }),
    opensItself: z
      .boolean()
      .optional()
      .meta({ description: "Presses that open by themselves when the dwell is over." }),
    presses: z.array(
      z.strictObject({
        platen: Platen,
        most: z.int(),
        now: z.int().optional().meta({ description: "How many are planned so far." }),
        cost: MoneyGiven.optional().meta({ description: "Of one press for the day." }),
        power: MoneyGiven.optional().meta({ description: "Of the power it needs for the day." }),
        earns: MoneyGiven.optional().meta({ description: "By one garment, before presses and people." }),
        spoils: MoneyGiven.optional().meta({ description: "Cost of one spoiled garment." }),
      }),
    ),
    people: z.strictObject({ most: z.int(), now: z.int().optional(), hourlyWage: MoneyGiven.optional() }),
  })
  .meta({ id: "PressesRequest" });
export type PressesRequest = z.infer<typeof PressesRequest>;

/** Facts that a plan lacks: the machines to choose from and the handling times. The rest comes from the plan. */
export const PressesWish = PressesRequest.omit({
  currency: true,
  seed: true,
  closesAtSeconds: true,
  scenarios: true,
  spoilage: true,
})
  .extend({ people: PressesRequest.shape.people.partial({ most: true }).prefault({}) })
  .meta({
    id: "PressesWish",
    description:
      "Presses and hands to try on the days of a plan; without a number of people, one more than its presses",
  });
export type PressesWish = z.infer<typeof PressesWish>;

const Counts = z.array(z.strictObject({ platen: Platen, presses: z.int() }));

const Waits = {
  meanWaitSeconds: z.number().nullable(),
  medianWaitSeconds: z.number().nullable(),
  ninetiethWaitSeconds: z.number().nullable(),
};

const PlatenFigures = z.strictObject({
  platen: Platen,
  presses: z.int(),
  garmentsPerHour: z.number().meta({ description: "Handed over in the busiest hour, on average." }),
  capacityPerHour: z
    .number()
    .meta({ description: "What presses and people could do at most without changing heat, by formula." }),
  use: z
    .number()
    .meta({ description: "Share of the presses' time they are held, from opening to the last garment." }),
  ...Waits,
  asked: z.number().meta({ description: "Garments a day, on average." }),
  handed: z.number(),
  spoiled: z.number(),
  walked: z.number().meta({ description: "Customers a day who walk, on average." }),
  walkedShare: z.number(),
  firstAnswer: z.strictObject({ use: z.number(), meanWaitSeconds: z.number().nullable() }).meta({
    description: "By formula for the busiest hour, before simulating; null: the line would never settle.",
  }),
});
export type PlatenFigures = z.infer<typeof PlatenFigures>;

const Combination = z.strictObject({
  presses: Counts,
  people: z.int(),
  platens: z.array(PlatenFigures),
  handsUse: z.number(),
  lateMedianSeconds: z.number().meta({ description: "From closing to the last garment." }),
  lateNinetiethSeconds: z.number(),
  earns: z.int().meta({ description: "A day on average, minor units, after presses, power and wages." }),
  earnsLow: z.int().meta({ description: "5 % of days earn less." }),
  earnsHigh: z.int().meta({ description: "5 % of days earn more." }),
});
export type Combination = z.infer<typeof Combination>;

const HourFigures = z.strictObject({
  platen: Platen,
  fromSeconds: z.number(),
  asked: z.number(),
  handed: z.number(),
  walked: z.number().meta({ description: "Customers." }),
  medianWaitSeconds: z.number().nullable().meta({ description: "Of those who asked in this hour." }),
  ninetiethWaitSeconds: z.number().nullable(),
  capacityPerHour: z.number(),
});
export type HourFigures = z.infer<typeof HourFigures>;

const OneMore = z.strictObject({
  more: z.enum(["flat press", "cap press", "person"]),
  earns: z.int().meta({ description: "More a day, minor units, after its cost, power and wages." }),
  standardError: z.number().meta({ description: "Of that figure, over the days simulated." }),
});
export type OneMore = z.infer<typeof OneMore>;

export const PressesPlan = z
  .strictObject({
    scenariosGiven: z.int(),
    scenariosUsed: z.int(),
    combinations: z.array(Combination),
    best: z.int().meta({ description: "Index of the combination that earns most." }),
    looked: z.int().meta({
      description: "Index of the combination planned so far, or of the best: the rest is about it.",
    }),
    oneMore: z.array(OneMore),
    hours: z.array(HourFigures),
    pinch: z.strictObject({ platen: Platen, fromSeconds: z.number(), says: z.string() }).nullable(),
    says: z.array(z.string()),
  })
  .meta({ id: "PressesPlan" });
export type PressesPlan = z.infer<typeof PressesPlan>;
