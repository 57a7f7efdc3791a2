/** Lengths, weights and temperatures as people type them. */

import { z } from "zod";

/** Quantities as people give them; the planners turn each into one unit (src/maths/units.ts). */
export const Length = z
  .strictObject({ value: z.number(), unit: z.enum(["in", "ft", "mm", "cm", "m"]) })
  .meta({ id: "Length", description: "A length with its unit, such as 10 ft or 3 m." });
export type Length = z.infer<typeof Length>;

export const Weight = z
  .strictObject({ value: z.number(), unit: z.enum(["kg", "lb"]) })
  .meta({ id: "Weight", description: "A weight with its unit." });
export type Weight = z.infer<typeof Weight>;

export const Temperature = z
  .strictObject({ value: z.number(), unit: z.enum(["C", "F"]) })
  .meta({ id: "Temperature", description: "A temperature in degrees Celsius or Fahrenheit." });
export type Temperature = z.infer<typeof Temperature>;

export const Volume = z
  .strictObject({ value: z.number(), unit: z.enum(["L", "gal"]) })
  .meta({ id: "Volume", description: "A volume in litres or US gallons." });
export type Volume = z.infer<typeof Volume>;

export const FuelRate = z
  .strictObject({ value: z.number(), unit: z.enum(["L/h", "gal/h"]) })
  .meta({ id: "FuelRate", description: "Fuel burnt, in litres or US gallons an hour." });
export type FuelRate = z.infer<typeof FuelRate>;

export const MinorUnits = z
  .int()
  .meta({ description: "Money as a whole number of the currency's minor unit (ISO 4217), such as cents." });
