/** An order, as its customer and as the crew see it. */

import { z } from "zod";
import { BlankId, BundleId, ColourId, DesignId, JobId, OfferId, SizeId, WishId } from "../basics/ids.ts";
import { Money, minorUnits } from "../basics/money.ts";
import { instant, plainText } from "../basics/words.ts";
import { WISH_WORDS } from "../menu/wish-words.ts";
import { CrewSentence } from "./crew-sentences.ts";

export const PickupNumber = z.int().min(100).max(999_999).meta({ id: "PickupNumber" });

export const OrderStage = z
  .enum([
    "to-pay",
    "to-claim",
    "waiting",
    "pressing",
    "ready",
    "collected",
    "dropped",
    "uncollected",
    "refunded",
    "exchanged",
  ])
  .meta({ id: "OrderStage" });
export type OrderStage = z.infer<typeof OrderStage>;

export const JobStage = z
  .enum(["to-pay", "to-claim", "waiting", "reserved", "short", "pressing", "pressed"])
  .meta({ id: "JobStage" });
export type JobStage = z.infer<typeof JobStage>;

export const Tender = z.enum(["cash", "card", "other"]).meta({ id: "Tender" });
export type Tender = z.infer<typeof Tender>;

/** Why the crew takes something off a price. */
export const DiscountReason = z
  .enum(["crew", "gift", "sorry", "damaged", "many", "other"])
  .meta({ id: "DiscountReason" });
export type DiscountReason = z.infer<typeof DiscountReason>;

/** What a customer asks for: a quantity of one offer in one colour and size. */
export const WantedLine = z
  .strictObject({
    offer: OfferId,
    colour: ColourId,
    size: SizeId,
    quantity: z.int().min(1).max(60),
    wishes: z.array(WishId).min(1).max(6).optional().describe("Of the menu's wishes; crew only"),
    rack: JobId.optional().describe("The garment of the rack that it is, one a line; crew only"),
    note: plainText(WISH_WORDS)
      .optional()
      .describe("A wish in the customer's own words; kept with the people, crew only"),
  })
  .meta({ id: "WantedLine" });
export type WantedLine = z.infer<typeof WantedLine>;

/** E.164: a plus sign and at most 15 digits, the first not zero. */
export const PhoneNumber = z
  .string()
  .regex(/^\+[1-9][0-9]{1,14}$/, "must be an E.164 number: a plus sign and at most 15 digits")
  .brand<"PhoneNumber">()
  .meta({ id: "PhoneNumber", examples: ["+12125550100"] });
export type PhoneNumber = z.infer<typeof PhoneNumber>;

/** The state of an order, as its customer sees it. */
const standing = {
  number: PickupNumber,
  place: z.int().min(0).describe("1 is next; 0 when nothing of it is waiting any more"),
  quoteMinutes: z.int().min(0),
  stage: OrderStage,
  word: z.string().describe("The pickup word, asked for at hand-over"),
  claim: z.string().describe("Bearer token that opens this order"),
};

/**
 * How a customer gets news by text: what to text, and where to. stallpress never texts a number that has not texted
 * first.
 */
export const ToBeTold = z
  .strictObject({ text: z.string(), to: z.string() })
  .meta({ id: "ToBeTold", description: "What to text, and where to, to get the ready text" });
export type ToBeTold = z.infer<typeof ToBeTold>;
const toBeTold = ToBeTold.optional().describe(
  "The line to text to get this order's texts; the same for every number",
);

export const OrderStanding = z
  .strictObject({
    ...standing,
    toBeTold,
    total: Money,
    tax: Money.describe("The part of the total that is sales tax"),
    taxInPrice: z.boolean().describe("Whether the prices of the lines include the tax"),
    paused: z.boolean().describe("Whether the stall has paused: the minutes count from when it starts again"),
  })
  .meta({ id: "OrderStanding" });
export type OrderStanding = z.infer<typeof OrderStanding>;

export const PlacedOrder = z
  .strictObject({
    ...standing,
    total: Money,
    tax: Money.describe("The part of the total that is sales tax"),
    taxInPrice: z.boolean().describe("Whether the prices of the lines include the tax"),
    short: z.int().min(1).optional().describe("Garments that nothing is there for"),
    toBeTold,
  })
  .meta({ id: "PlacedOrder" });
export type PlacedOrder = z.infer<typeof PlacedOrder>;

const OrderLineView = z
  .strictObject({
    offer: OfferId,
    name: z.string(),
    blank: BlankId,
    design: DesignId,
    colour: ColourId,
    size: SizeId,
    quantity: z.int(),
    each: minorUnits(),
    off: minorUnits().optional().describe("What these garments together cost less, by bundles and discounts"),
    wishes: z
      .array(z.strictObject({ wish: WishId, name: z.string() }))
      .optional()
      .describe("Wishes on each of these garments; their surcharges are part of the price"),
    second: z.literal(true).optional().describe("Sold as a second, at the price of one"),
  })
  .meta({ id: "OrderLine" });

export const OrderView = z
  .strictObject({
    number: PickupNumber,
    stage: OrderStage,
    place: z.int().min(0),
    quoteMinutes: z.int().min(0).describe("Minutes still to wait, estimated now"),
    word: z.string(),
    lines: z.array(OrderLineView),
    jobs: z.array(
      z.strictObject({
        job: JobId,
        stage: JobStage,
        line: z.int().min(0).optional().describe("Which of the lines it is one of, from 0"),
      }),
    ),
    total: Money,
    tax: Money,
    taxInPrice: z.boolean().describe("Whether the prices of the lines include the tax"),
    placedAt: instant(),
    dueBy: instant().nullable().describe("The promise when it was placed or paid"),
    paid: z
      .strictObject({
        tender: Tender.describe("Of the first part"),
        amount: Money.describe("In all"),
        at: instant(),
        parts: z
          .array(z.strictObject({ tender: Tender, amount: Money }))
          .optional()
          .describe("The parts, if it was paid in several"),
      })
      .nullable(),
    bundles: z
      .array(
        z.strictObject({
          bundle: BundleId,
          name: z.string(),
          times: z.int().min(1),
          saving: Money.describe("Of all the times together"),
        }),
      )
      .optional()
      .describe("The bundles that its price rests on"),
    discount: z
      .strictObject({ amount: Money, reason: DiscountReason })
      .optional()
      .describe("What the crew took off the whole of it"),
    tips: Money.optional().describe("Given on top; no part of the total"),
    exchangeOf: JobId.optional().describe("The garment of another order that it was exchanged for"),
    due: Money.optional().describe("Still to be paid, since a paid order was changed and costs more"),
  })
  .meta({ id: "Order" });
export type OrderView = z.infer<typeof OrderView>;

export const unmetWish = () =>
  z
    .string()
    .max(80)
    .optional()
    .describe(
      "What the customer wished for that is not on the menu, in their words; they were told it is not made",
    );

/** An order as only the crew sees it. */
export const CrewOrderView = OrderView.extend({
  takenBy: z.enum(["text", "web", "counter", "paper"]),
  unclaimed: z.boolean().describe("From the web, and nobody has come, paid or texted its code yet"),
  name: z.string().nullable(),
  phone: z.string().nullable().describe("The last four digits; GET …/phone gives the whole number"),
  dropsAt: instant().nullable().describe("When it is dropped unless it is paid; null if it is not"),
  giveBack: Money.nullable().describe(
    "What was paid for garments that left the order since, or cost less: to be given back",
  ),
  wish: unmetWish(),
  notes: z
    .array(z.strictObject({ job: JobId, words: z.string() }))
    .optional()
    .describe("Wishes in free words, by garment"),
  undoable: z
    .array(
      z.strictObject({
        job: JobId.describe("The refund, or the garment made in exchange"),
        act: z.enum(["refunded", "exchanged"]),
        name: z.string(),
        amount: Money.optional().describe("The refund for it"),
      }),
    )
    .optional()
    .describe("Refunds and exchanges of garments that can be undone"),
  paidTo: z.string().nullable().describe("The crew member who took the payment, if noted"),
  gaveBack: Money.nullable().describe("What of that was handed back"),
  told: z
    .enum(["nothing", "waiting", "sent", "delivered", "failed", "opted-out", "call-out"])
    .describe("How the customer learns that it is ready"),
  toBeTold,
  mayText: z
    .literal(true)
    .optional()
    .describe("Its texts go to a number that has written: the crew may text one of its sentences"),
  texted: z
    .strictObject({ say: CrewSentence, at: instant() })
    .optional()
    .describe("The crew's latest sentence to its customer"),
}).meta({ id: "CrewOrder" });
export type CrewOrderView = z.infer<typeof CrewOrderView>;
