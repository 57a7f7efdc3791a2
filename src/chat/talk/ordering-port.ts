/**
 * The interface of a conversation to its stall. The stall implements it; the conversation knows nothing else of the
 * stall. All instants are milliseconds since 1970, UTC.
 */

import type { BundleId, ColourId, OfferId, SizeId } from "../../model/basics/ids.ts";
import type { Result } from "../../model/basics/result.ts";
import type { Language } from "../../model/basics/words.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { OrderStage, WantedLine } from "../../model/orders/order.ts";
import type { Refusal } from "../../model/orders/refusal.ts";

export type Garment = { readonly offer: OfferId; readonly colour: ColourId; readonly size: SizeId };

/** One of this customer's orders, now. */
export type ChatOrder = {
  readonly number: number;
  readonly word: string;
  readonly stage: OrderStage;
  /** 1 is next; 0 when nothing of it waits any more. */
  readonly place: number;
  readonly minutesLeft: number;
  readonly lines: readonly WantedLine[];
  /** Garments of it that lack a blank or a transfer. */
  readonly shortGarments: number;
  /** The same by what they are, with the price of one before tax, in minor units. */
  readonly short: readonly (WantedLine & { readonly each: number })[];
  /** Still due on a changed order that was paid, and the part of the payment to give back. */
  readonly due?: number;
  readonly giveBack?: number;
  /** In minor units of the menu's currency, tax included. */
  readonly total: number;
  /** The part of the total that is tax. */
  readonly tax: number;
  /** The bundles that the total rests on, with what each saved, in minor units. */
  readonly bundles?: readonly { readonly bundle: BundleId; readonly saving: number }[];
  /** Whether the prices include the tax; if not, it is added to them. */
  readonly taxInPrice?: true;
};

/** One change of a placed order, by what its garments are. */
export type ChatChange =
  | {
      readonly type: "instead";
      readonly wanted: Garment;
      readonly quantity: number;
      readonly instead: Garment;
    }
  | { readonly type: "add"; readonly line: WantedLine }
  | { readonly type: "take-off"; readonly wanted: Garment; readonly quantity: number };

export type ChatRequest =
  /** Holds the lines, all or none, in place of the last hold. */
  | { readonly type: "hold"; readonly lines: readonly WantedLine[]; readonly asks: readonly number[] }
  | { readonly type: "release" }
  /** Places the lines as an order; the customer's own hold counts as free for it. */
  | {
      readonly type: "place";
      readonly lines: readonly WantedLine[];
      readonly asks: readonly number[];
      /** The language in which the pickup word is said. */
      readonly language: Language;
      /** Words for something that is not on the menu: the crew sees them on the order. */
      readonly wish: string | null;
    }
  | { readonly type: "drop"; readonly number: number }
  /** Changes the garments of an order that is not pressed yet, all or none. */
  | { readonly type: "change"; readonly number: number; readonly changes: readonly ChatChange[] }
  /** Removes the short garments from an order; the rest goes on. */
  | { readonly type: "leave-out"; readonly number: number }
  /** Has another garment of the same price in place of each of those that an order is short of. */
  | {
      readonly type: "take-instead";
      readonly number: number;
      readonly wanted: Garment;
      readonly instead: Garment;
    }
  | {
      readonly type: "note-ask";
      readonly garment: Garment;
      /** The parts of the garment that the customer had not said, filled in with the likeliest. */
      readonly assumed?: readonly ("colour" | "size")[];
      readonly garments: number;
      readonly unmet: "sold-out" | "closed" | "too-long";
    };

/** The result of a request: the order, if one was placed or changed, or the refusal. */
export type ChatOutcome = Result<ChatOrder | null, Refusal>;

/** Why a number is not confirmed by the code it texted. */
export type CodeRefusal = { readonly code: "does-not-fit" | "tried-too-often" | "too-many" };

export type OrderingPort = {
  readonly stallName: string;
  readonly fairName: string;
  /** Whether other stalls text from the same number: every text then names its stall. */
  readonly sharesNumber?: boolean;
  /** IANA time zone of the fair, for the times a reply names. */
  readonly timeZone: string;
  readonly menu: Menu;
  readonly now: number;
  readonly opening:
    | { readonly open: true; readonly closes: number }
    | { readonly open: false; readonly opens: number | null };
  /** When the stall opens again after the present span; absent if unknown. */
  readonly opensNext?: number | null;
  readonly paused: boolean;
  /** Whether the stall takes orders: false while the crew pauses or the organiser has stopped all orders. */
  readonly takesOrders: boolean;
  /** Why the organiser has stopped all orders; absent if it has not. */
  readonly fairStop?: string;
  /** Whether last orders were called: the line is nearly too long to press before closing time. */
  readonly lastOrders?: boolean;
  /** Garments that could be promised now, this customer's own hold counted as free. */
  readonly free: (garment: Garment) => number;
  /** The wait in minutes that the lines would be promised now. */
  readonly waitMinutes: (lines: readonly WantedLine[]) => number;
  /** The price of the lines with tax, and the tax in it, in minor units. */
  readonly bill: (
    lines: readonly WantedLine[],
  ) => Pick<ChatOrder, "total" | "tax" | "taxInPrice" | "bundles">;
  /** Whether this customer has a hold now. */
  readonly holding: boolean;
  /** The customer's open orders, oldest first. */
  readonly orders: () => readonly ChatOrder[];
  /** The customer's latest ended order, for STATUS; null if there is none. */
  readonly lastEnded: () => ChatOrder | null;
  /** Carries out a request at once; later calls see the change. */
  readonly attempt: (request: ChatRequest) => ChatOutcome;
  /** The words an order may have for pickup: such a word after a number is a code, not a wish. */
  readonly pickupWords: ReadonlySet<string>;
  /** Binds an order from the web to the number this text came from, if its pickup word is right. */
  readonly confirmNumber: (number: number, word: string) => Result<ChatOrder, CodeRefusal>;
};
