/** The queue as the crew's screens show it, the floor around it, and the board for those who wait. */

import { z } from "zod";
import { BlankId, ColourId, DesignId, JobId, OfferId, PressId, SizeId, Sku, WishId } from "../basics/ids.ts";
import { Money } from "../basics/money.ts";
import { instant } from "../basics/words.ts";
import { Announcement, OrderStop } from "../fair/organising.ts";
import { Platen, Settings, TransferKind } from "../menu/catalogue.ts";
import { JobStage, PickupNumber, unmetWish } from "./order.ts";

/** One garment to press as the press screen shows it. */
export const JobView = z
  .strictObject({
    job: JobId,
    number: PickupNumber,
    offer: OfferId,
    name: z.string().describe("The offer's name"),
    blank: BlankId,
    blankName: z.string(),
    colour: ColourId,
    colourName: z.string(),
    size: SizeId,
    sizeName: z.string(),
    sku: Sku,
    design: DesignId,
    designName: z.string(),
    kind: TransferKind,
    platen: Platen,
    settings: Settings,
    placement: z.string().nullable(),
    cautions: z.array(z.string()),
    stage: JobStage,
    since: instant(),
    dueBy: instant().nullable(),
    garments: z.int().min(1).describe("How many garments the whole order has"),
    wish: unmetWish(),
    wishes: z
      .array(z.strictObject({ wish: WishId, name: z.string() }))
      .optional()
      .describe("Wishes for this garment, to be made"),
    note: z.string().optional().describe("A wish on this garment in the customer's own words"),
    ownGarment: z.literal(true).optional().describe("The customer brought it: it takes no blank"),
    second: z
      .array(
        z.strictObject({
          design: DesignId,
          designName: z.string(),
          kind: TransferKind,
          settings: Settings,
          placement: z.string().nullable(),
        }),
      )
      .optional()
      .describe("Further transfers on it, each pressed on its own"),
    unclaimed: z.boolean().describe("Its order is from the web, and nobody has come for it yet"),
    letGo: z
      .array(z.strictObject({ press: PressId, silentSince: instant() }))
      .describe("Presses that had it reserved and fell silent: the garment may be pressed there already"),
    setTo: z
      .strictObject({
        fahrenheit: z.int(),
        aboutMinutes: z.int().min(1),
        readyAt: instant().describe("When the platen is thought to be there"),
      })
      .nullable()
      .describe("The temperature to set its press to; null if it stays as it is"),
  })
  .meta({ id: "Job" });
export type JobView = z.infer<typeof JobView>;

const intake = z
  .strictObject({
    open: z.boolean().describe("Whether one more garment would be taken now"),
    lastOrders: z.boolean().describe("Last orders were called"),
    keptOpen: z.boolean().describe("The crew keeps it open until closing time"),
    endsAt: instant().nullable().describe("When intake closes automatically if the line stays as it is"),
    closes: instant().nullable().describe("Closing time; null outside the hours"),
  })
  .describe("Taking orders");
const hands = z.int().min(1).max(24).nullable().describe("People at the presses; null: one for each press");
const offMenu = z
  .array(z.string())
  .describe("What the crew took off the menu: skus, and designs as transfer:design");
const pressRow = {
  press: PressId,
  downSince: instant().nullable().describe("Out of order since then"),
  fahrenheit: z.int().nullable().describe("What it was last set to; null before the first garment"),
  reserves: z.boolean().describe("Whether garments are reserved for it"),
  reserveUntil: instant().nullable().describe("When its reserve is released if it stays silent"),
};

/** The answer to a tap on the floor as a whole. */
export const FloorView = z
  .strictObject({
    version: z.int().min(0),
    paused: z.string().nullable(),
    intake,
    hands,
    offMenu,
    presses: z.array(z.strictObject({ ...pressRow, job: JobId.nullable(), reserve: z.array(JobId) })),
  })
  .meta({ id: "Floor" });
export type FloorView = z.infer<typeof FloorView>;

/** A reserve that was released, and where its garments are now. */
const LetGo = z.strictObject({
  at: instant(),
  silentSince: instant(),
  jobs: z.array(
    z.strictObject({
      job: JobId,
      stage: JobStage.nullable().describe("Null if its order has ended"),
      press: PressId.nullable().describe("The press that has it now"),
    }),
  ),
});

export const QueueView = z
  .strictObject({
    version: z.int().min(0),
    asOf: instant(),
    paused: z.string().nullable().describe("Why the crew has stopped intake, or null"),
    fairStop: z
      .strictObject({ ...OrderStop.shape, since: instant() })
      .nullable()
      .optional()
      .describe("Set while the organiser has stopped all orders of the fair; the crew cannot change it"),
    announcements: z.array(Announcement).optional().describe("The organiser's, not read yet"),
    webOrders: z.boolean().describe("Whether customers may order on the web now"),
    intake,
    hands,
    backlogEnds: instant().nullable().describe("When all that waits is expected to be pressed"),
    presses: z.array(
      z.strictObject({
        ...pressRow,
        platen: Platen,
        job: JobView.nullable(),
        reserve: z.array(JobView).describe("Reserved for it: no other press gets these"),
        askedBack: z.array(JobId).describe("Of those what it is asked to give back"),
        silentFrom: instant()
          .nullable()
          .describe(
            "From when an idle press counts as standing still, since garments wait for it; null: it works",
          ),
        letGo: LetGo.nullable().describe(
          "What was let go because it was silent, until its tablet has shown it",
        ),
      }),
    ),
    newest: z
      .strictObject({ number: PickupNumber, sequence: z.int().describe("Higher for each order that joins") })
      .nullable()
      .optional()
      .describe("The last in line of the orders that are not ready: paid, if payment comes first"),
    next: z.array(JobView).describe("The first 20 that wait"),
    short: z.array(JobView).describe("The first 20 that lack a blank or a transfer"),
    ready: z.array(PickupNumber).describe("The latest 20 ready numbers"),
    notTold: z
      .array(PickupNumber)
      .describe("Ready numbers whose customers could not be reached: call them out"),
    textsRestUntil: instant()
      .nullable()
      .describe("Until when no text goes out because the gateway asked to be left alone, or null"),
    unclaimed: z
      .array(z.strictObject({ number: PickupNumber, garments: z.int(), inLine: z.boolean() }))
      .describe("The first 20 orders from the web that nobody has come for, paid or texted the code of yet"),
    unpaid: z
      .array(z.strictObject({ number: PickupNumber, total: Money, dropsAt: instant() }))
      .describe("The first 20 orders that are dropped unless they are paid, the next one first"),
    claimsLiftedUntil: instant().nullable().describe("Until when web orders are not limited; null: they are"),
    counts: z.strictObject({
      toPay: z.int(),
      toClaim: z.int(),
      waiting: z.int(),
      short: z.int(),
      pressing: z.int(),
      ready: z.int(),
    }),
    low: z.array(
      z.strictObject({
        sku: z.string(),
        free: z.int(),
        emptyAt: instant().nullable().describe("At today's pace; null if it lasts the day"),
      }),
    ),
    offMenu,
  })
  .meta({ id: "Queue" });
export type QueueView = z.infer<typeof QueueView>;

export const Pulled = z.strictObject({ job: JobView }).meta({ id: "Pulled" });

export const BoardView = z
  .strictObject({
    version: z.int().min(0),
    asOf: instant(),
    stall: z.string(),
    ready: z.array(PickupNumber),
    pressing: z.array(PickupNumber),
    waiting: z.array(PickupNumber).describe("The first 40"),
    more: z.int().min(0).describe("How many more wait"),
  })
  .meta({ id: "Board", description: "Pickup numbers only: no names, no phone numbers" });
export type BoardView = z.infer<typeof BoardView>;

export const Hands = z.strictObject({ hands }).meta({ id: "Hands" });
