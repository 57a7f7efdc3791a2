/** The stall's memory of a conversation: plain data that can be stored and cloned. */
import type { ColourId, OfferId, SizeId } from "../../model/basics/ids.ts";
import type { Language } from "../../model/basics/words.ts";
import type { WantedLine } from "../../model/orders/order.ts";
import type { Garment } from "./ordering-port.ts";

/** A garment being put together; null members are not said yet. */
export type Draft = {
  readonly offer: OfferId | null;
  readonly colour: ColourId | null;
  readonly size: SizeId | null;
  readonly quantity: number | null;
};

/** A line the customer settled on, with the price of one as it was shown, before tax, in minor units. */
export type BasketLine = WantedLine & { readonly each: number };

/** A change of an order that the customer asks for, with the garments in their own words. */
export type ChangeAsked = {
  readonly act: "change" | "add" | "take-off";
  /** The number that was said, whether or not such an order exists. */
  readonly number: number | null;
  /** Which garment is meant; empty if that was not said. */
  readonly which: string;
  /** The garment wanted instead, or the one to add; empty if that was not said. */
  readonly what: string;
};

/** The meaning of a number on a list. */
export type Choice =
  | { readonly take: "offer"; readonly offer: OfferId }
  | { readonly take: "colour"; readonly colour: ColourId }
  | { readonly take: "size"; readonly size: SizeId }
  /** One of several things a text could mean; replaces the garment under way. */
  | { readonly take: "drafts"; readonly drafts: readonly Draft[] }
  | { readonly take: "yes" }
  | { readonly take: "add" }
  | { readonly take: "change" }
  | { readonly take: "line"; readonly line: number }
  | { readonly take: "part"; readonly part: Part; readonly line: number }
  /** The order to change, which garments of it, or which part of those. */
  | { readonly take: "change-order"; readonly number: number; readonly asked: ChangeAsked }
  | {
      readonly take: "change-line";
      readonly number: number;
      readonly line: WantedLine;
      readonly asked: ChangeAsked;
    }
  | { readonly take: "change-part"; readonly number: number; readonly line: WantedLine; readonly part: Part }
  | { readonly take: "drop-order"; readonly number: number }
  | { readonly take: "drop-basket" }
  /** Gives up the garment being put together, and keeps the others. */
  | { readonly take: "drop-draft"; readonly draft: Draft }
  /** Goes on as before, with nothing given up. */
  | { readonly take: "drop-nothing" }
  /** Gives up an order that cannot be pressed, for another garment. */
  | { readonly take: "swap"; readonly number: number; readonly draft: Draft }
  /** Takes another garment, of the same price, in place of what an order is short of. */
  | {
      readonly take: "instead";
      readonly number: number;
      readonly wanted: Garment;
      readonly draft: Draft & Garment;
      readonly paid: boolean;
    }
  /** Removes the short garments of an order. */
  | { readonly take: "leave-out"; readonly number: number }
  /** Waits on with an order that lacks stock. */
  | { readonly take: "keep"; readonly number: number }
  | { readonly take: "menu" };

export type Part = "offer" | "colour" | "size" | "quantity" | "all";

/** The list last sent: what a bare number answers. Numbers count from 1 in the order given. */
export type List =
  | { readonly of: "nothing" }
  | { readonly of: "offers"; readonly offers: readonly OfferId[] }
  | { readonly of: "colours"; readonly colours: readonly ColourId[] }
  | { readonly of: "sizes"; readonly sizes: readonly SizeId[] }
  | { readonly of: "quantity"; readonly most: number }
  | { readonly of: "picks"; readonly picks: readonly Choice[] };

/** Where the customer is. */
export type Step =
  | { readonly at: "idle" }
  /** Asked for the first thing the draft lacks, in the order offer, colour, size, how many. */
  | { readonly at: "choosing"; readonly draft: Draft; readonly page: number }
  /** Asked which of several things was meant. */
  | {
      readonly at: "which";
      readonly about: "offer" | "colour" | "size" | "reading";
      readonly draft: Draft;
      readonly picks: readonly Choice[];
      readonly page?: number;
    }
  /** A choice is sold out, and the nearest were offered. */
  | {
      readonly at: "instead";
      readonly draft: Draft;
      /** The number left: fewer than were wanted, or none. */
      readonly left: number;
      readonly picks: readonly Choice[];
    }
  /** Asked to confirm the basket at the total shown, in minor units. */
  | { readonly at: "confirm"; readonly shown: number }
  /** Asked which line to change (on this page of the list), or which part of the line. */
  | { readonly at: "change"; readonly line: number | null; readonly page: number }
  /** Asked which placed order to change, which garments of it, or which part of those. */
  | {
      readonly at: "changing";
      readonly about: "order" | "line" | "part";
      readonly draft: Draft;
      readonly picks: readonly Choice[];
    }
  /** Asked what to drop, while something else was being asked. */
  | { readonly at: "drop"; readonly orders: readonly number[]; readonly before?: Step };

/** A wish that has been counted, so that it is counted once in 30 minutes. */
export type RecentAsk = { readonly garment: string; readonly at: number };

export type Talk = {
  readonly language: Language;
  /** Whether the customer's own words chose the language; the browser's then no longer counts. */
  readonly languageChosen: boolean;
  readonly step: Step;
  readonly list: List;
  readonly basket: readonly BasketLine[];
  /** Further garments of the same text that still lack something. */
  readonly pending: readonly Draft[];
  readonly asks: readonly RecentAsk[];
  /** Texts that came since the minute began. */
  readonly rate: { readonly since: number; readonly texts: number };
  /** When the customer was last heard; 0 before the first text. */
  readonly heardAt: number;
  readonly optedOut: boolean;
  /** The placed order that the garment being put together belongs to, and the garments it takes the place of; null: it is added. */
  readonly changing?: {
    readonly number: number;
    readonly wanted: Garment | null;
    readonly quantity: number;
  };
  /** Words for something off the menu, about the garments being ordered. */
  readonly wish?: string;
};

export const EMPTY_DRAFT: Draft = { offer: null, colour: null, size: null, quantity: null };
export const NO_LIST: List = { of: "nothing" };
export const IDLE: Step = { at: "idle" };

/** A new conversation. */
export function newTalk(language: Language): Talk {
  return {
    language,
    languageChosen: false,
    step: IDLE,
    list: NO_LIST,
    basket: [],
    pending: [],
    asks: [],
    rate: { since: 0, texts: 0 },
    heardAt: 0,
    optedOut: false,
  };
}
