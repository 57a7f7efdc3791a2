/** Whom the organiser calls at a stall: kept apart from the stall's own facts, and erased with people. */
import { z } from "zod";
import { StallId } from "../basics/ids.ts";
import { plainText } from "../basics/words.ts";
import { PhoneNumber } from "../orders/order.ts";

const StallContact = z
  .strictObject({
    name: plainText(60),
    phone: PhoneNumber.nullable().describe("E.164, or null"),
    note: plainText(120).nullable().describe("Such as the pitch, or who comes after six"),
  })
  .meta({ id: "StallContact" });
export type StallContact = z.infer<typeof StallContact>;

export const SetStallContact = z
  .strictObject({ contact: StallContact.nullable().describe("Null: forget it") })
  .meta({ id: "SetStallContact" });

export const StallContacts = z
  .strictObject({ contacts: z.array(z.strictObject({ stall: StallId, ...StallContact.shape })) })
  .meta({ id: "StallContacts", description: "Erased 30 days after the fair's last closing" });
export type StallContacts = z.infer<typeof StallContacts>;
