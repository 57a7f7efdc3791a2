/** The organiser's announcements to the stalls, and the stop of all orders. */
import { z } from "zod";
import { OwnStallId, StallId } from "../basics/ids.ts";
import { instant, plainText } from "../basics/words.ts";

const ANNOUNCEMENT_MOST = 280;
export const AnnouncementId = z
  .string()
  .regex(/^[A-Za-z0-9_-]{8,32}$/)
  .brand<"AnnouncementId">()
  .meta({ id: "AnnouncementId" });
export type AnnouncementId = z.infer<typeof AnnouncementId>;

export const Announce = z
  .strictObject({
    text: plainText(ANNOUNCEMENT_MOST).describe(
      "Shown on the crews' screens until it is read; never sent to customers",
    ),
    stalls: z
      .array(OwnStallId)
      .min(1)
      .max(2000)
      .optional()
      .describe("Only to these; left out: to every stall"),
  })
  .meta({ id: "Announce" });
export type Announce = z.infer<typeof Announce>;

/** An announcement as a crew's screens show it. */
export const Announcement = z
  .strictObject({ id: AnnouncementId, text: z.string(), at: instant() })
  .meta({ id: "Announcement" });
export type Announcement = z.infer<typeof Announcement>;

/** The same as its organiser sees it. */
export const SentAnnouncement = z
  .strictObject({
    ...Announcement.shape,
    stalls: z.array(StallId).nullable().describe("Whom it is to; null: every stall"),
    readBy: z
      .array(z.strictObject({ stall: StallId, at: instant() }))
      .describe("The stalls that have read it, and when"),
    unreadBy: z.array(StallId).describe("The stalls that have not"),
  })
  .meta({ id: "SentAnnouncement" });
export type SentAnnouncement = z.infer<typeof SentAnnouncement>;

export const OrderStop = z
  .strictObject({
    reason: plainText(80).describe("Why: storm, evacuation, power. Crews and customers are shown it"),
    pressing: z.boolean().describe("Whether pressing stops too; else open orders are pressed"),
  })
  .meta({
    id: "OrderStop",
    description: "All orders of the fair are stopped: on the web, by text and at the counter",
  });
export type OrderStop = z.infer<typeof OrderStop>;

export const SetOrderStop = z
  .strictObject({ stop: OrderStop.nullable().describe("Null: all stalls go on") })
  .meta({ id: "SetOrderStop" });

/** The organiser's stop and announcements, and which stalls have them. */
export const OrganiserNews = z
  .strictObject({
    stop: z.strictObject({ ...OrderStop.shape, since: instant() }).nullable(),
    announcements: z.array(SentAnnouncement).describe("The latest first"),
    untold: z.array(StallId).describe("Stalls that the latest of this has not reached yet"),
  })
  .meta({ id: "OrganiserNews" });
export type OrganiserNews = z.infer<typeof OrganiserNews>;
