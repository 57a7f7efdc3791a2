/** The commands of a stall. Chance and ids are arguments, so that deciding is repeatable. */

import type { Identity } from "../../fair/reports.ts";
import type {
  ColourId,
  CustomerId,
  DesignId,
  JobId,
  OfferId,
  PressId,
  SizeId,
} from "../../model/basics/ids.ts";
import type { Language } from "../../model/basics/words.ts";
import type { AnnouncementId, OrderStop } from "../../model/fair/organising.ts";
import type { PictureFacts } from "../../model/garment/picture.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { DeviceId, Numbered } from "../../model/orders/counter.ts";
import type { Tender, WantedLine } from "../../model/orders/order.ts";
import type { CarriedGarment } from "../../model/orders/rack.ts";
import type { Refusal } from "../../model/orders/refusal.ts";
import type { StockEntry } from "../../model/orders/stock.ts";
import type { Lost, SpoilReason } from "../../model/orders/taps.ts";
import type { KeptPlan } from "../../model/planning/kept-plan.ts";
import type { Instant } from "../../time/instants.ts";
import type { Announced, StallEvent, UnmetReason } from "../state/shapes/event.ts";
import type { Discount } from "../state/shapes/line.ts";
import type { Closed, TakenBy } from "../state/shapes/order.ts";
import type { PieceKey } from "../state/shapes/piece.ts";
import type { AccountCommand, DrawerCommand } from "./account-commands.ts";

type Garment = {
  readonly offer: OfferId;
  readonly colour: ColourId;
  readonly size: SizeId;
};
/** A garment with what is wished for on it; the words go to the people's rows. */
type WishedGarment = Omit<WantedLine, "quantity" | "rack">;

type Ask = Garment & {
  readonly garments: number;
  /** The parts the customer had not said. */
  readonly assumed?: readonly ("colour" | "size")[];
};

/** How a request came about, as evidence of what people want. */
export type AskMark = {
  /** The first thing this customer asks for in 30 minutes. */
  readonly first: boolean;
  /** In place of something that is gone. */
  readonly instead: boolean;
};
const FIRST_ASK: AskMark = { first: true, instead: false };

/** The marks that the n-th ask of a command carries: only the first of a visit begins it. */
export const askMarks = ({ first, instead }: AskMark = FIRST_ASK, n: number) => ({
  first: first && n === 0,
  ...(instead ? { instead } : {}),
});

/** A payment as the crew says it: without parts or an amount it is all that is owed. */
export type PaymentGiven = {
  readonly tender: Tender;
  readonly amount?: number;
  readonly parts?: readonly { readonly tender: Tender; readonly amount: number }[];
  readonly tip?: number;
};

/** One change of an order: other garments in place of some, more garments, or fewer. */
export type OrderChange =
  | { readonly type: "instead"; readonly jobs: readonly number[]; readonly garment: WishedGarment }
  | { readonly type: "add"; readonly line: Omit<WantedLine, "rack"> }
  | { readonly type: "take-off"; readonly jobs: readonly number[] };

/** A tap at a press, which may arrive late. */
export type Tapped = {
  /** The press at which the operator has the garment; another may have taken it over since. */
  readonly press?: PressId;
  readonly at?: Instant;
};

/** The command of a type, or those of several types. */
export type Of<T extends Command["type"]> = Extract<Command, { readonly type: T }>;

export type Command =
  | { readonly type: "open"; readonly identity: Identity }
  /** `basedOn`: the version of the menu that the edit started from; refused if the menu has changed since. */
  | { readonly type: "set-menu"; readonly menu: Menu; readonly basedOn?: number }
  /** Gives a design a picture; null takes it away. */
  | { readonly type: "set-picture"; readonly design: DesignId; readonly picture: PictureFacts | null }
  | { readonly type: "change-stock"; readonly entries: readonly StockEntry[] }
  /** A menu and the opening stock that was planned with it. */
  | {
      readonly type: "accept-plan";
      readonly menu: Menu;
      readonly entries: readonly StockEntry[];
      /** Garments printed ahead, for the rack; the owned ones may hang there already. */
      readonly rack: { readonly made: readonly CarriedGarment[]; readonly owned: readonly CarriedGarment[] };
      /** Null if its answer was not sent along. */
      readonly plan: KeptPlan | null;
    }
  /** Keeps the plan that the stall was filled from elsewhere. */
  | { readonly type: "keep-plan"; readonly plan: KeptPlan }
  /** An ask that came to nothing before any line could be put together. */
  | { readonly type: "note-ask"; readonly ask: Ask; readonly unmet: UnmetReason; readonly wish?: AskMark }
  /** Sets stock aside until the customer says yes; takes the place of a hold the customer had. */
  | {
      readonly type: "hold";
      readonly customer: CustomerId;
      readonly takenBy: TakenBy;
      readonly lines: readonly WantedLine[];
      /** The lines, from 0, that count as new asks. */
      readonly asks: readonly number[];
      readonly wish?: AskMark;
    }
  | { readonly type: "release"; readonly customer: CustomerId }
  | {
      readonly type: "place";
      readonly customer: CustomerId;
      readonly takenBy: TakenBy;
      readonly lines: readonly WantedLine[];
      readonly asks: readonly number[];
      readonly wish?: AskMark;
      /** Unclaimed garments of the same web address. */
      readonly unclaimedAtAddress?: number;
      /** Set for an unknown sender: refusals are not counted as requests, or anybody could invent demand. */
      readonly unknown?: true;
      /** In [0, 1): picks the pickup word. */
      readonly chance: number;
      /** The language of the pickup word; absent: the menu's. */
      readonly language?: Language;
      readonly paper?: { readonly number: number; readonly takenAt: Instant };
      /**
       * When the order was taken, if the stall hears of it later. A tablet's clock may be wrong: it is never after now.
       */
      readonly takenAt?: Instant;
      /** The number and word of a device's block that its customer has. */
      readonly block?: Numbered & { readonly device: DeviceId };
      /** The customer has left with the number: pieces sold out since are short. */
      readonly late?: true;
      readonly paid?: PaymentGiven;
    }
  /** Fills a counter device's block up; `after` is the highest number the device was ever given. */
  | {
      readonly type: "give-numbers";
      readonly device: DeviceId;
      readonly have: number;
      readonly after: number;
      /** In [0, 1), one for each word. */
      readonly chances: readonly number[];
    }
  /** Keeps an order that is to be paid for as long again. */
  | { readonly type: "kept-unpaid"; readonly number: number }
  | ({ readonly type: "paid"; readonly number: number } & PaymentGiven)
  /** Takes something off the price of a whole order, or of some of its garments; null takes that back. */
  | {
      readonly type: "discounted";
      readonly number: number;
      readonly jobs?: readonly number[];
      readonly off: Pick<Discount, "by" | "reason"> | null;
    }
  | { readonly type: "undo-paid"; readonly number: number }
  /** Somebody is here for an order from the web, or has texted its code. */
  | { readonly type: "claimed"; readonly number: number }
  /** Lets web orders in without limit for a while, or no longer. */
  | { readonly type: "lift-claims"; readonly minutes: number | null }
  /** Pulls the next garment for a press, or the garment named, from its reserve. */
  | { readonly type: "pull"; readonly press: PressId; readonly job?: JobId; readonly at?: Instant }
  /** Reserves garments for a press from now on, or gives all back: sent by its own tablet. */
  | { readonly type: "set-reserve"; readonly press: PressId; readonly on: boolean }
  /** The tablet of a press asks for the queue. */
  | { readonly type: "fill-reserve"; readonly press: PressId }
  /** The tablet of a press confirms that it gives these back. */
  | { readonly type: "reserve-returned"; readonly press: PressId; readonly jobs: readonly JobId[] }
  /** Asks for what is reserved for another press. */
  | { readonly type: "reserve-asked-back"; readonly press: PressId }
  | { readonly type: "press-down"; readonly press: PressId }
  | { readonly type: "press-up"; readonly press: PressId }
  /** Sets the number of people at the presses; null if there is one for each. */
  | { readonly type: "set-hands"; readonly hands: number | null }
  /** Stops or takes again orders from the web alone; texts and the counter go on. */
  | { readonly type: "set-web-orders"; readonly open: boolean }
  /** Takes a blank or a transfer off the menu with whatever needs it, or puts it back. */
  | { readonly type: "set-off-menu"; readonly piece: PieceKey; readonly off: boolean }
  /** Takes orders until closing time even if the line is too long, or stops doing so. */
  | { readonly type: "keep-open"; readonly open: boolean }
  | ({ readonly type: "pressed"; readonly job: JobId } & Tapped)
  | { readonly type: "undo-pressed"; readonly job: JobId }
  | ({
      readonly type: "spoiled";
      readonly job: JobId;
      readonly lost: Lost;
      readonly reason: SpoilReason;
      /** It can still be sold: it hangs on the rack in the size that it has. */
      readonly rack?: { readonly size?: SizeId };
    } & Tapped)
  | { readonly type: "undo-spoiled"; readonly job: JobId }
  | ({ readonly type: "returned"; readonly job: JobId } & Tapped)
  | {
      readonly type: "closed";
      readonly number: number;
      readonly as: Closed["as"];
      readonly word?: string;
      /** False: its pressed garments are thrown away and do not hang on the rack. */
      readonly keeps?: boolean;
      /** Set when the customer, not the crew, gives the order up. */
      readonly byCustomer?: CustomerId;
    }
  | { readonly type: "undo-closed"; readonly number: number; readonly was: Closed["as"] }
  /** Other garments in an order than before, more or fewer: all of the changes or none. */
  | {
      readonly type: "changed";
      readonly number: number;
      readonly changes: readonly OrderChange[];
      readonly byCustomer?: CustomerId;
    }
  /** Removes the short garments from an order, for the crew or its customer; the rest goes on. */
  | { readonly type: "left-out"; readonly number: number; readonly byCustomer?: CustomerId }
  /** Has another garment of the same price in place of one that an order is short of. */
  | {
      readonly type: "taken-instead";
      readonly number: number;
      readonly wanted: Garment;
      readonly instead: Garment;
      readonly byCustomer?: CustomerId;
    }
  /** Gives the money of some pressed garments back; `keeps`: they hang on the rack, else they are thrown away. */
  | {
      readonly type: "garment-refunded";
      readonly number: number;
      readonly jobs: readonly number[];
      readonly keeps: boolean;
    }
  /** Another garment for one that was pressed, with what was paid for it: at the head of the line, or from the rack. */
  | {
      readonly type: "garment-exchanged";
      readonly number: number;
      readonly n: number;
      readonly instead: Omit<WantedLine, "quantity">;
      readonly keeps: boolean;
      /** In [0, 1): picks the pickup word if it is an order of its own. */
      readonly chance: number;
    }
  | { readonly type: "undo-garment-refunded"; readonly number: number; readonly jobs: readonly number[] }
  /** `n` is the garment that was to be made instead. */
  | { readonly type: "undo-garment-exchanged"; readonly number: number; readonly n: number }
  /** Hangs the garments of another fair's rack on this one. */
  | { readonly type: "bring-rack"; readonly garments: readonly CarriedGarment[] }
  /** Throws a garment of the rack away, or lets it be sold though it is kept for its customer. */
  | { readonly type: "unracked"; readonly key: JobId; readonly as: "thrown" | "released" }
  /** Hands back what is owed for garments removed from an order. */
  | { readonly type: "given-back"; readonly number: number }
  | { readonly type: "undo-given-back"; readonly number: number }
  /** What became of the text that says the order is ready. */
  | { readonly type: "note-told"; readonly number: number; readonly how: "delivered" | "failed" }
  | { readonly type: "pause"; readonly reason: string }
  | { readonly type: "resume" }
  /** The organiser stops all orders of the fair; null: they go on. */
  | { readonly type: "set-fair-stop"; readonly stop: OrderStop | null }
  /** The announcements to this stall, as the organiser has them now. */
  | { readonly type: "hear-announcements"; readonly announcements: readonly Announced[] }
  | { readonly type: "read-announcement"; readonly id: AnnouncementId }
  | AccountCommand
  | DrawerCommand
  | { readonly type: "tick" };

/** The crew's commands about one garment. */
export type JobCommand = Of<"pressed" | "undo-pressed" | "spoiled" | "undo-spoiled" | "returned">;

/** The crew's commands about one order. */
export type OrderCommand = Of<
  | "paid"
  | "undo-paid"
  | "kept-unpaid"
  | "claimed"
  | "closed"
  | "undo-closed"
  | "changed"
  | "discounted"
  | "left-out"
  | "garment-refunded"
  | "undo-garment-refunded"
  | "given-back"
  | "undo-given-back"
>;

/** The crew's commands about the floor. */
export type FloorCommand = Of<
  | "pause"
  | "resume"
  | "keep-open"
  | "lift-claims"
  | "set-hands"
  | "set-reserve"
  | "reserve-returned"
  | "reserve-asked-back"
  | "press-down"
  | "press-up"
  | "set-off-menu"
>;

/**
 * The result of a command: the events to apply, in order, and the refusal if there is one. A refused command may have
 * events too, since an unmet request is a fact.
 */
export type Decision = { readonly events: readonly StallEvent[]; readonly refusal: Refusal | null };

export const accept = (...events: readonly StallEvent[]): Decision => ({ events, refusal: null });

export const refuse = (refusal: Refusal, ...events: readonly StallEvent[]): Decision => ({ events, refusal });
