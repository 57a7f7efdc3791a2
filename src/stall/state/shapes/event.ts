/** What can happen at a stall, and the journal of it. Instants are milliseconds since 1970, UTC. */

import type { Identity } from "../../../fair/reports.ts";
import type { DayCosts } from "../../../model/accounts/day-costs.ts";
import type { PayOutReason } from "../../../model/accounts/drawer.ts";
import type { Lessons } from "../../../model/accounts/lessons.ts";
import type {
  ColourId,
  CustomerId,
  DesignId,
  JobId,
  OfferId,
  PressId,
  SizeId,
} from "../../../model/basics/ids.ts";
import type { AnnouncementId } from "../../../model/fair/organising.ts";
import type { PictureFacts } from "../../../model/garment/picture.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { DeviceId, Numbered } from "../../../model/orders/counter.ts";
import type { Tender } from "../../../model/orders/order.ts";
import type { Lost, SpoilReason } from "../../../model/orders/taps.ts";
import type { KeptPlan } from "../../../model/planning/kept-plan.ts";
import type { Day } from "../../../time/fair-day.ts";
import type { Instant } from "../../../time/instants.ts";
import type { Job, PlatenHeat, Turn } from "./job.ts";
import type { BundleUse, Discount, Line, RackItem } from "./line.ts";
import type { Closed, Hold, Order } from "./order.ts";
import type { PieceKey } from "./piece.ts";

/** What the organiser says to the crew. */
export type Announced = {
  readonly id: AnnouncementId;
  readonly text: string;
  readonly at: Instant;
};

export type UnmetReason = "sold-out" | "closed" | "too-long";

type ReleaseReason = "expired" | "changed" | "dropped" | "gone";

export type StallEvent =
  | { readonly type: "opened"; readonly identity: Identity }
  | { readonly type: "menu-set"; readonly menu: Menu }
  /** The picture that a design has from now on, by its hash: the bytes are kept beside the journal. Null: none. */
  | { readonly type: "picture-set"; readonly design: DesignId; readonly picture: PictureFacts | null }
  | { readonly type: "counted"; readonly piece: PieceKey; readonly onHand: number; readonly reason?: string }
  | {
      readonly type: "delivered";
      readonly piece: PieceKey;
      readonly pieces: number;
      readonly reason?: string;
    }
  | {
      readonly type: "corrected";
      readonly piece: PieceKey;
      readonly pieces: number;
      readonly reason?: string;
    }
  | {
      readonly type: "asked";
      readonly offer: OfferId;
      readonly colour: ColourId;
      readonly size: SizeId;
      readonly garments: number;
      readonly unmet: UnmetReason | null;
      /** The parts the customer had not said, filled in with the likeliest. */
      readonly assumed?: readonly ("colour" | "size")[];
      /** Whether it is the first thing this customer asks for in 30 minutes. */
      readonly first?: boolean;
      /** Asked for in place of something that is gone: a need, but not what was wished for. */
      readonly instead?: boolean;
    }
  | { readonly type: "held"; readonly hold: Hold }
  | { readonly type: "released"; readonly customer: CustomerId; readonly reason: ReleaseReason }
  /** The order stands; a hold its customer had is used up by it. Its number may be of a device's block. */
  | { readonly type: "placed"; readonly order: Order; readonly device?: DeviceId }
  /** A counter's device has these pickup numbers from now on, for orders that it takes. */
  | { readonly type: "numbers-given"; readonly device: DeviceId; readonly numbers: readonly Numbered[] }
  /** What is left of a device's block is forgotten. Its numbers are not given out again. */
  | { readonly type: "numbers-let-go"; readonly device: DeviceId }
  /** An order that is to be paid is kept as long again. */
  | { readonly type: "kept-unpaid"; readonly number: number }
  | {
      readonly type: "paid";
      readonly number: number;
      readonly tender: Tender;
      readonly amount: number;
      /** The parts, if it was paid in several, which add up to the amount. */
      readonly parts?: readonly { readonly tender: Tender; readonly amount: number }[];
      readonly tip?: number;
      /** It was paid for the garment that was exchanged: no money changed hands. */
      readonly carried?: true;
      readonly dueBy: Instant;
      readonly turn: Turn;
    }
  /** Somebody came for a web order, or texted its code; one that was outside the line joins it. */
  | { readonly type: "claimed"; readonly number: number; readonly dueBy: Instant; readonly turn: Turn }
  /** Web orders are not limited until then; null: they are again. */
  | { readonly type: "claims-lifted"; readonly until: Instant | null }
  /** The payment is taken back; where payment comes first, the order leaves the line as well. */
  | {
      readonly type: "undo-paid";
      readonly number: number;
      readonly leavesLine: boolean;
      /** It goes back to the garment it was paid for: no money changes hands. */
      readonly carried?: true;
    }
  | {
      readonly type: "pulled";
      readonly number: number;
      readonly n: number;
      readonly press: PressId;
      readonly countsFrom: Instant;
      /** The temperature to set the platen to; null if it already has that temperature. */
      readonly set: PlatenHeat | null;
      readonly tappedAt?: Instant;
    }
  | { readonly type: "reserved"; readonly number: number; readonly n: number; readonly press: PressId }
  /** Whether garments are reserved for a press from now on. */
  | { readonly type: "reserve-set"; readonly press: PressId; readonly on: boolean }
  /** The press is asked to give back a reserved garment; it keeps the garment until its tablet confirms. */
  | { readonly type: "reserve-asked-back"; readonly number: number; readonly n: number }
  /** The press was silent for too long: its reserved garments wait for any press again. */
  | {
      readonly type: "reserve-let-go";
      readonly press: PressId;
      readonly silentSince: Instant;
      readonly jobs: readonly { readonly number: number; readonly n: number }[];
    }
  /** The tablet of a press was shown what was let go. */
  | { readonly type: "let-go-shown"; readonly press: PressId }
  /** The tablet of a press asked for the queue. */
  | { readonly type: "press-heard"; readonly press: PressId }
  | { readonly type: "overtaken"; readonly number: number; readonly n: number }
  | { readonly type: "returned"; readonly number: number; readonly n: number; readonly tappedAt?: Instant }
  | {
      readonly type: "pressed";
      readonly number: number;
      readonly n: number;
      readonly seconds: number;
      /** When it was done, if the stall learnt of it later: then it counts from that instant. */
      readonly tappedAt?: Instant;
    }
  | { readonly type: "undo-pressed"; readonly number: number; readonly n: number; readonly turn: Turn }
  | {
      readonly type: "spoiled";
      readonly number: number;
      readonly n: number;
      readonly lost: Lost;
      readonly reason: SpoilReason;
      readonly turn: Turn;
      readonly tappedAt?: Instant;
    }
  /** It was not spoiled after all: the pieces are there, and it waits where it stands. */
  | {
      readonly type: "undo-spoiled";
      readonly number: number;
      readonly n: number;
      readonly lost: Lost;
      readonly reason: SpoilReason;
    }
  | { readonly type: "fell-short"; readonly number: number; readonly n: number }
  | { readonly type: "supplied"; readonly number: number; readonly n: number }
  /** A short garment left its order, which now costs this much. */
  | {
      readonly type: "left-out";
      readonly number: number;
      readonly n: number;
      readonly tax: number;
      readonly total: number;
    }
  /** A short garment was replaced by one of this line and the same price, with its place in line. */
  | { readonly type: "taken-instead"; readonly number: number; readonly n: number; readonly line: Line }
  /** Other garments than before, or more, or fewer: what the order is made of from now on, and costs. */
  | {
      readonly type: "changed";
      readonly number: number;
      readonly lines: readonly Line[];
      readonly jobs: readonly Job[];
      readonly tax: number;
      readonly total: number;
      readonly dueBy: Instant | null;
      readonly bundles?: readonly BundleUse[];
      readonly discount?: Discount;
      /** A pressed garment of it was exchanged, and hangs there; null if it was thrown away. */
      readonly exchanged?: { readonly n: number; readonly key: JobId | null };
      /** That was undone: the garment is as it was. */
      readonly unexchanged?: number;
      /** It is ready by that without a press. */
      readonly atOnce?: true;
    }
  /** More was paid for an order that was paid before. */
  | {
      readonly type: "more-paid";
      readonly number: number;
      readonly tender: Tender;
      readonly amount: number;
      readonly tip?: number;
    }
  /** Money for removed garments was handed back; negative if that was undone. */
  | { readonly type: "given-back"; readonly number: number; readonly amount: number }
  /** The order ends in this way once its reserved garments are given back. */
  | {
      readonly type: "closing-asked";
      readonly number: number;
      readonly as: Closed["as"];
      readonly byCustomer: boolean;
    }
  /** A press had begun a garment of the order already, so the order goes on. */
  | { readonly type: "closing-declined"; readonly number: number; readonly byCustomer: boolean }
  | {
      readonly type: "closed";
      readonly number: number;
      readonly as: Closed["as"];
      /** What was paid goes on to the order that it was exchanged for. */
      readonly carried?: true;
      /** The exchange that it was made for is undone: nothing that was pressed for it is left over. */
      readonly unexchanged?: true;
    }
  /** A garment came back with what it had brought; `carried`: that goes on to another order. */
  | {
      readonly type: "garment-refunded";
      readonly number: number;
      readonly n: number;
      readonly amount: number;
      readonly tax: number;
      readonly carried?: true;
      /** Where it hangs; null if it was thrown away. Absent in earlier entries, which cannot be undone. */
      readonly key?: JobId | null;
    }
  /** It is its order's again, with the money that left with it. */
  | { readonly type: "undo-garment-refunded"; readonly number: number; readonly n: number }
  /** A pressed garment that nobody took hangs on the rack from now on. */
  | { readonly type: "racked"; readonly key: JobId; readonly item: Omit<RackItem, "at" | "day"> }
  /** It left the rack (sold, thrown away, back to its order); or `released`: it stays, and may be sold now. */
  | { readonly type: "unracked"; readonly key: JobId; readonly as: "sold" | "thrown" | "back" | "released" }
  /** It was not sold after all, and hangs there as it did. */
  | { readonly type: "undo-unracked"; readonly key: JobId; readonly item: RackItem }
  /** So much is to be given back on an order that is over. */
  | { readonly type: "owed-set"; readonly number: number; readonly amount: number }
  | { readonly type: "undo-closed"; readonly number: number }
  /** So much is in the drawer before the day's first sale. */
  | { readonly type: "float-set"; readonly amount: number }
  /** Cash was taken out of the drawer for something else than a customer. */
  | { readonly type: "paid-out"; readonly amount: number; readonly reason: PayOutReason }
  /** The cash was counted, beside what should have been there; at a hand-over the next shift begins with it. */
  | {
      readonly type: "drawer-counted";
      readonly counted: number;
      readonly expected: number;
      readonly handOver: boolean;
    }
  | { readonly type: "told"; readonly number: number; readonly how: "delivered" | "failed" }
  | { readonly type: "paused"; readonly reason: string }
  /** The organiser has stopped all orders of the fair, and pressing too if it says so; stopped before, it is as said now. */
  | { readonly type: "fair-stopped"; readonly reason: string; readonly pressing: boolean }
  | { readonly type: "fair-went-on" }
  | { readonly type: "announced"; readonly announcement: Announced }
  | { readonly type: "announcement-read"; readonly id: AnnouncementId }
  | { readonly type: "announcement-taken-back"; readonly id: AnnouncementId }
  | { readonly type: "resumed" }
  | { readonly type: "requoted"; readonly number: number; readonly dueBy: Instant }
  /** The order will miss its promise; its customer is told once. */
  | { readonly type: "ran-late"; readonly number: number }
  /** The number of people at the presses; null if there is one for each. */
  | { readonly type: "hands-set"; readonly hands: number | null }
  /** Intake stays open up to this closing time, whatever the line; null takes that back. */
  | { readonly type: "kept-open"; readonly closes: Instant | null }
  | { readonly type: "web-orders-set"; readonly open: boolean }
  /** The crew took a piece off the menu, or put it back: nothing new is promised of it, whatever is there. */
  | { readonly type: "off-menu-set"; readonly piece: PieceKey; readonly off: boolean }
  | { readonly type: "last-orders"; readonly closes: Instant }
  | { readonly type: "press-down"; readonly press: PressId }
  | { readonly type: "press-up"; readonly press: PressId }
  /** The day's counts are frozen: what happens from now on belongs to a later one. */
  | { readonly type: "day-closed"; readonly day: Day }
  /** What happens from now on belongs to that day again, until it is closed once more. */
  | { readonly type: "day-reopened"; readonly day: Day; readonly reason: string }
  /** The plan that the stall was filled from. */
  | { readonly type: "plan-kept"; readonly plan: KeptPlan }
  | { readonly type: "costs-set"; readonly day: Day; readonly costs: DayCosts }
  /** What the organiser says of a day's crowd; null takes it back. */
  | {
      readonly type: "crowd-told";
      readonly day: Day;
      readonly crowd: { readonly passersBy: number; readonly uncertainty: number } | null;
    }
  /** The crew counted people walking past for this many seconds, up to now. */
  | { readonly type: "passers-by-counted"; readonly people: number; readonly seconds: number }
  /** Lessons imported from other fairs; newer evidence replaces older evidence of the same id. */
  | { readonly type: "lessons-taken"; readonly lessons: readonly Lessons[] };

/** The event of a type. */
export type EventOf<T extends StallEvent["type"]> = Extract<StallEvent, { readonly type: T }>;

/** The journal entry of one accepted command: its events, in order, at one instant. */
export type JournalEntry = {
  readonly sequence: number;
  readonly at: Instant;
  readonly events: readonly StallEvent[];
  /**
   * The rows of the day's account after this entry, if they were not written out. Absent if all were. To read the rows
   * that are not written out, read the entries since the last one without `ahead`.
   */
  readonly ahead?: readonly (readonly [recordKey: string, row: unknown])[];
};
