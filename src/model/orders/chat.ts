/** Messages between a customer and the stall. */

import { z } from "zod";
import { ColourId, OfferId, SizeId } from "../basics/ids.ts";
import { instant } from "../basics/words.ts";
import { OrderStanding, PhoneNumber } from "./order.ts";

/** A customer's message: kept as it came, since even an unreadable one must be answered. */
export const ChatTurn = z
  .strictObject({
    id: z
      .string()
      .min(16)
      .max(64)
      .regex(/^[A-Za-z0-9_-]+$/)
      .describe("Made by the client, new for each message"),
    text: z.string().max(1600),
    language: z.string().max(100).optional(),
  })
  .meta({ id: "ChatTurn" });
export type ChatTurn = z.infer<typeof ChatTurn>;

export const ChatMessage = z
  .strictObject({ sequence: z.int(), id: z.string(), from: z.enum(["customer", "stall"]), text: z.string() })
  .meta({ id: "ChatMessage" });
export type ChatMessage = z.infer<typeof ChatMessage>;

const ShownGarment = z
  .strictObject({ offer: OfferId, colour: ColourId.optional(), size: SizeId.optional() })
  .meta({ id: "ShownGarment", description: "A garment as far as it is chosen" });
export type ShownGarment = z.infer<typeof ShownGarment>;

export const Shown = z
  .strictObject({
    choices: z
      .array(z.strictObject({ number: z.int().min(1), ...ShownGarment.shape }))
      .describe("The choices of the last list, by number"),
    basket: z.array(ShownGarment).describe("The basket to confirm; empty at any other step"),
  })
  .meta({ id: "Shown", description: "The garments that a page can draw beside the last reply" });
export type Shown = z.infer<typeof Shown>;

export const ChatReply = z
  .strictObject({
    customer: z.string().describe("Bearer token of this customer"),
    replies: z.array(z.strictObject({ id: z.string(), text: z.string() })),
    order: OrderStanding.optional(),
    shows: Shown.optional(),
  })
  .meta({ id: "ChatReply" });
export type ChatReply = z.infer<typeof ChatReply>;

export const ChatHistory = z
  .strictObject({
    messages: z.array(ChatMessage),
    last: z.int().min(0),
    order: OrderStanding.optional(),
    shows: Shown.optional(),
  })
  .meta({ id: "ChatHistory" });
export type ChatHistory = z.infer<typeof ChatHistory>;

/** A text as it comes from the gateway, in our own plain form. */
export const InboundText = z
  .strictObject({
    id: z.string().min(1).max(200).describe("The gateway's message id"),
    from: PhoneNumber,
    to: z.string().min(1).max(32),
    text: z.string().max(1600),
  })
  .meta({ id: "InboundText" });
export type InboundText = z.infer<typeof InboundText>;

/** A text as it is handed to the gateway. */
export const OutboundText = z
  .strictObject({ id: z.string(), from: z.string(), to: PhoneNumber, text: z.string() })
  .meta({ id: "OutboundText" });
export type OutboundText = z.infer<typeof OutboundText>;

/** What a stall keeps of people, for everybody who asks. */
export const PeopleKept = z
  .strictObject({
    stall: z.string(),
    fair: z.string(),
    contact: z.string().nullable(),
    eraseAfterDays: z.int().describe("Days after the fair until names, numbers and conversations go"),
    erasedAt: instant().nullable().describe("When that is, by the hours as they stand; null if nobody knows"),
  })
  .meta({ id: "PeopleKept" });
export type PeopleKept = z.infer<typeof PeopleKept>;
