/** Counts of a stall's refusals by reason. */

import { z } from "zod";

/** How often the stall refused for each reason, as stored. */
export type RefusalCounts = Readonly<Record<string, { readonly count: number; readonly lastAt: number }>>;

export const RefusalView = z
  .strictObject({
    refusals: z.array(
      z.strictObject({
        type: z.string().describe("The type of the problem that the caller was answered with"),
        count: z.int().min(1),
        lastAt: z.iso.datetime(),
      }),
    ),
  })
  .meta({ id: "RefusalView", description: "How often the stall refused, by reason, since it was opened" });
export type RefusalView = z.infer<typeof RefusalView>;
