/** The sentences that the crew can text to an order's customer, in the customer's language. */
import { z } from "zod";

export const CrewSentence = z
  .enum(["five-minutes", "closing-soon", "come-back"])
  .meta({ id: "CrewSentence", description: "5 more minutes; the stall closes soon; please come back" });
export type CrewSentence = z.infer<typeof CrewSentence>;

export const TextCustomer = z.strictObject({ say: CrewSentence }).meta({ id: "TextCustomer" });
