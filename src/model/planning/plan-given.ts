import { z } from "zod";

/** Figures the way people write them; src/planning/request/given.ts turns each into one unit. */

export const MoneyGiven = z.union([z.number().min(0).max(1_000_000), z.string().min(1).max(20)]).meta({
  id: "MoneyGiven",
  description: '24.5, "24.50", "$24.50", "£3" or "€3,20": whole units, not cents',
});
export type MoneyGiven = z.infer<typeof MoneyGiven>;

export const ShareGiven = z
  .union([z.number().min(0).max(1), z.string().min(1).max(10)])
  .meta({ id: "ShareGiven", description: '0.27 or "27 %"' });
export type ShareGiven = z.infer<typeof ShareGiven>;

export const WeightGiven = z
  .union([z.number().min(0).max(1_000_000), z.string().min(1).max(12)])
  .meta({ id: "WeightGiven", description: '0.27, "27 %" or 3: only its part of the whole list counts' });
export type WeightGiven = z.infer<typeof WeightGiven>;

export const ClockGiven = z
  .string()
  .regex(/^([01]?\d|2[0-4]):[0-5]\d$/, 'must be a time of day such as "10:00"')
  .meta({ id: "ClockGiven", description: "Local time of day, 24 hours" });

const passersBy = () => z.number().min(0).max(1_000_000);

/** Low and high are figures that would be passed, below and above, one day in twenty each. */
export const PassersByGiven = z
  .union([passersBy(), z.strictObject({ low: passersBy(), likely: passersBy(), high: passersBy() })])
  .meta({ id: "PassersByGiven", description: "A count, or low / likely / high (5, 50 and 95 %)" });
export type PassersByGiven = z.infer<typeof PassersByGiven>;

export const ShareRangeGiven = z
  .union([ShareGiven, z.strictObject({ low: ShareGiven, likely: ShareGiven, high: ShareGiven })])
  .meta({ id: "ShareRangeGiven", description: "A share, or low / likely / high (5, 50 and 95 %)" });
export type ShareRangeGiven = z.infer<typeof ShareRangeGiven>;

const garments = () => z.number().min(0).max(1_000_000);

/** How many garments of one offer will be asked for, if somebody knows better than the crowd figures. */
export const StatedDemand = z
  .discriminatedUnion("kind", [
    z.strictObject({
      kind: z.literal("normal"),
      mean: garments(),
      deviation: z.number().positive().max(1e6),
    }),
    z.strictObject({ kind: z.literal("poisson"), mean: z.number().positive().max(100_000) }),
    z.strictObject({
      kind: z.literal("negative-binomial"),
      mean: z.number().positive().max(100_000),
      deviation: z.number().positive().max(1e6).describe("More than the square root of the mean"),
    }),
    z.strictObject({ kind: z.literal("uniform"), low: garments(), high: garments() }),
    z.strictObject({
      kind: z.literal("table"),
      rows: z
        .array(z.strictObject({ garments: garments(), chance: WeightGiven }))
        .min(1)
        .max(400),
    }),
    z.strictObject({ kind: z.literal("observed"), days: z.array(garments()).min(2).max(1000) }),
  ])
  .meta({
    id: "StatedDemand",
    description: "The distribution of one offer's demand, stated; over all days of a fair of several",
  });
export type StatedDemand = z.infer<typeof StatedDemand>;

/** A name as people write it. */
export const name = () => z.string().trim().min(1).max(60);
