/** A refused request: RFC 9457 problem details. */

import { z } from "zod";
import { Fault } from "./faults.ts";
import { ColourId, OfferId, SizeId } from "./ids.ts";

/** A colour and size of an offer that can still be had, and how many. */
export const Left = z
  .strictObject({ offer: OfferId, colour: ColourId, size: SizeId, free: z.int().min(1) })
  .meta({ id: "Left" });
export type Left = z.infer<typeof Left>;

/** RFC 9457 problem details, with this project's own extension members. */
export const Problem = z
  .strictObject({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    instance: z.string().optional(),
    errors: z.array(Fault).optional(),
    left: z.array(Left).optional(),
    stage: z.string().optional(),
    movedTo: z.string().optional().describe("The customers' page of a stall that has moved"),
  })
  .meta({ id: "Problem", description: "RFC 9457 problem details" });
export type Problem = z.infer<typeof Problem>;
