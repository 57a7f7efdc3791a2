/** A stall that has moved to another place: its old address sends people on. */
import { z } from "zod";

/** The address of a stall's customer page, without a key or anything else behind it. */
const StallAddress = z
  .string()
  .max(200)
  .regex(/^https?:\/\/[A-Za-z0-9.:[\]-]{1,120}\/at\/[a-z0-9-]{1,40}\/[a-z0-9-]{1,40}$/)
  .describe("The customers' page of the stall at its new place, https://…/at/FAIR/STALL");

export const MovedTo = z
  .strictObject({ to: StallAddress.nullable() })
  .meta({ id: "MovedTo", description: "Where the stall has moved to; null while it is here" });
export type MovedTo = z.infer<typeof MovedTo>;
