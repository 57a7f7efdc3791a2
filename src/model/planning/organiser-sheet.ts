import { z } from "zod";

/** One printable page for the organiser. */
export const OrganiserSheet = z
  .strictObject({
    title: z.string(),
    pitch: z.array(z.string()),
    power: z.array(z.string()),
    questions: z.array(
      z.strictObject({
        about: z.enum(["foot traffic", "hours", "load-in", "pitch", "power", "weather cover", "network"]),
        ask: z.string(),
      }),
    ),
    timetable: z.array(
      z.strictObject({ at: z.string().meta({ description: "Local time of day." }), what: z.string() }),
    ),
    cautions: z.array(z.string()),
  })
  .meta({ id: "OrganiserSheet" });
export type OrganiserSheet = z.infer<typeof OrganiserSheet>;
