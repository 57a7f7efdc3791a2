import { z } from "zod";
import { FuelRate, Length, Temperature, Volume } from "../basics/measure.ts";

export const Generator = z
  .strictObject({
    runningWatts: z.number(),
    startingWatts: z.number(),
    powerFactor: z.number().optional().meta({
      description: "Only if both figures above are volt-amperes (VA): the factor on its plate, such as 0.8.",
    }),
    altitude: Length.optional().meta({
      description: "Of the site above the sea; leave out if both figures are already for that height.",
    }),
    airTemperature: Temperature.optional().meta({
      description: "The hottest air of the day; leave out if both figures are already for that heat.",
    }),
    consumption: z
      .array(z.strictObject({ share: z.number(), rate: FuelRate }))
      .meta({ description: "Stated fuel burnt at shares of the running watts, such as 0.5 -> 1.3 L/h." }),
    tank: Volume.optional(),
  })
  .meta({ id: "Generator" });
export type Generator = z.infer<typeof Generator>;

export const GeneratorAnswer = z.strictObject({
  runningWatts: z.number().meta({ description: "Of all loads, in volt-amperes if those are more." }),
  use: z.number().meta({ description: "Share of what it can keep up here with everything on." }),
  startingTogetherWatts: z.number(),
  startingInTurnWatts: z.number(),
  worstStartWatts: z
    .number()
    .meta({ description: "Everything on, and the worst automatically restarting motor starting." }),
  availableRunningWatts: z.number().meta({ description: "After power factor, height and heat." }),
  availableStartingWatts: z.number(),
  continuousWatts: z.number().meta({ description: "The most it may carry all day: 80 % of the available." }),
  holds: z.boolean(),
  fuel: z
    .strictObject({
      likelyLitres: z.number(),
      mostLitres: z.number(),
      likelyGallons: z.number().meta({ description: "US gallons." }),
      mostGallons: z.number(),
      fillings: z.int().nullable(),
    })
    .nullable(),
  says: z.array(z.string()),
});
export type GeneratorAnswer = z.infer<typeof GeneratorAnswer>;
