/** The messages between a stall and its fair: all that the two objects share. */

import type { FairId, StallId } from "../model/basics/ids.ts";
import type { Currency } from "../model/basics/money.ts";
import type { AnnouncementId, OrderStop } from "../model/fair/organising.ts";
import type { HowMuchLeft } from "../model/fair/seen.ts";
import type { PictureHash } from "../model/garment/picture.ts";
import type { PhoneNumber } from "../model/orders/order.ts";
import type { Sending } from "../texting/sending/sending.ts";
import type { Bucket } from "../time/bucket.ts";
import type { Instant } from "../time/instants.ts";

/** A stall as its fair knows it: whose it is, and when it is open. */
export type Identity = {
  readonly fair: FairId;
  readonly stall: StallId;
  readonly name: string;
  readonly fairName: string;
  readonly timeZone: string;
  /** How often the fair changed its name or hours, so that an older edition that arrives late is recognised. */
  readonly edition?: number;
  /** Set for a rehearsal, which the fair never sees. */
  readonly rehearsal?: true;
  readonly openings: readonly { readonly opens: Instant; readonly closes: Instant }[];
};

/** The organiser's word to one stall; an older edition that arrives late changes nothing. */
export type OrganiserWord = {
  readonly edition: number;
  readonly stop: OrderStop | null;
  readonly announcements: readonly {
    readonly id: AnnouncementId;
    readonly text: string;
    readonly at: Instant;
  }[];
};

/** A fair's message to one of its stalls: its name and hours, valid crew keys, and how texts are sent. */
export type HearsFair = {
  readonly open: (
    identity: Identity,
    generation: number,
    earlierUntil: Instant,
    sending: Sending,
    organiser: OrganiserWord,
  ) => Promise<void>;
};

/** What visitors of the fair see of a stall. */
export type SeenStall = {
  /** Its garments, in at most 32 letters. */
  readonly makes: string;
  readonly lowest: number;
  readonly highest: number;
  readonly currency: Currency;
  /** For one garment ordered now. */
  readonly waitMinutes: number;
  readonly left: HowMuchLeft;
  readonly picture: PictureHash | null;
};

export type StallReport = {
  readonly stall: StallId;
  /** The stall's own version: with the instant, an older report that arrives late is recognised. */
  readonly version: number;
  readonly at: number;
  /** When a crew device last asked for anything; null if none has since the stall woke. */
  readonly crewAt: number | null;
  /** Whether intake is stopped, by the crew or by the organiser. */
  readonly paused: boolean;
  /** Whether the stall has a menu. */
  readonly setUp: boolean;
  /** The latest announcements that its crew has read, and when. */
  readonly read: readonly (readonly [id: AnnouncementId, at: Instant])[];
  /** The currency of the takings in its buckets; null if the stall does not share them. */
  readonly shares: Currency | null;
  /** Null if the stall does not want to be seen, or has no menu. */
  readonly seen?: SeenStall | null;
  readonly backlog: number;
  readonly soldOut: number;
  /** When the whole backlog is expected to be pressed; null if nothing waits. */
  readonly backlogEnds: number | null;
  /** The buckets that changed since the last report, whole. */
  readonly buckets: readonly (readonly [key: string, bucket: Bucket])[];
};

/** The fair's answer: the version of its gateway, so that a stall can see that its own is older. */
export type Told = { readonly gateway: number };

/** Segments of the day's cap by what they are for: a number's own orders have a part that nothing else may use. */
export type SegmentGrant = { readonly others: number; readonly own: number };

/** The fair as a stall sees it. */
export type ReportsTo = {
  readonly report: (report: StallReport) => Promise<Told>;
  readonly sending: (stall: StallId) => Promise<Sending>;
  /** Segments the stall may send today beyond those granted before; fewer than asked for if the cap is near. */
  readonly grant: (wanted: SegmentGrant) => Promise<SegmentGrant>;
  /** Those of the numbers that said STOP to any stall of the fair. */
  readonly stoppedAmong: (phones: readonly PhoneNumber[]) => Promise<readonly PhoneNumber[]>;
};
