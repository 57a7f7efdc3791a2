/** What is recorded of a day as it happens, so that its account is read and never recounted. */

import type { LogHistogram } from "../../maths/log-histogram.ts";
import type { DayCosts } from "../../model/accounts/day-costs.ts";
import type { PayOutReason } from "../../model/accounts/drawer.ts";
import type { BlankId, ColourId, DesignId, OfferId, SizeId } from "../../model/basics/ids.ts";
import type { Platen } from "../../model/menu/catalogue.ts";
import type { Tender } from "../../model/orders/order.ts";
import type { SpoilReason } from "../../model/orders/taps.ts";
import type { Day } from "../../time/fair-day.ts";
import type { Instant } from "../../time/instants.ts";
import type { UnmetReason } from "./shapes/event.ts";
import type { PieceKey } from "./shapes/piece.ts";

/** How a sale was paid; "not-noted" if the stall does not note payments. */
export type PaidBy = Tender | "not-noted";

/** Amounts in minor units, tax included. */
export type Takings = {
  readonly payments: number;
  readonly amount: number;
  readonly returns: number;
  readonly givenBack: number;
};
export const NO_TAKINGS: Takings = { payments: 0, amount: 0, returns: 0, givenBack: 0 };

export type DayHour = {
  readonly orders: number;
  readonly garments: number;
  /** Before tax. */
  readonly amount: number;
  /** Customers who asked for something, met or not, once in 30 minutes. */
  readonly visits: number;
  /** People the crew counted walking past, and for how long it watched. */
  readonly passersBy: number;
  readonly watchedSeconds: number;
};
export const EMPTY_HOUR: DayHour = {
  orders: 0,
  garments: 0,
  amount: 0,
  visits: 0,
  passersBy: 0,
  watchedSeconds: 0,
};

/** The drawer of a day: what changed hands since its float was set. Amounts in minor units. */
export type DayDrawer = {
  readonly float: number;
  readonly moves: Readonly<
    Partial<Record<Tender, { readonly in: number; readonly out: number; readonly tips: number }>>
  >;
  readonly paidOut: readonly {
    readonly at: Instant;
    readonly amount: number;
    readonly reason: PayOutReason;
  }[];
  readonly counts: readonly {
    readonly at: Instant;
    readonly counted: number;
    readonly expected: number;
    readonly handOver: boolean;
  }[];
};
export const NO_DRAWER: DayDrawer = { float: 0, moves: {}, paidOut: [], counts: [] };

export type DayTotals = {
  readonly takings: Readonly<Partial<Record<PaidBy, Takings>>>;
  /** Tax of what was sold, and of what was given back. */
  readonly tax: number;
  readonly taxGivenBack: number;
  /** Paid beyond the orders' totals (less if negative). */
  readonly difference: number;
  readonly differenceGivenBack: number;
  /** Absent until its float was set, or something was paid out or counted. */
  readonly drawer?: DayDrawer;
  /** Garments sold as seconds, and what they cost less, in minor units; absent while there are none. */
  readonly seconds?: { readonly garments: number; readonly less: number };
  /** Tips, by tender; absent while there are none. */
  readonly tips?: Readonly<Partial<Record<Tender, number>>>;
  readonly hours: Readonly<Record<string, DayHour>>;
  readonly promised: number;
  readonly kept: number;
  readonly waits: LogHistogram;
  readonly pressed: number;
  readonly spoiled: number;
  readonly handling: Readonly<
    Partial<Record<Platen, { readonly garments: number; readonly seconds: number }>>
  >;
  /** The organiser's figure of the crowd; the uncertainty is a share of it. */
  readonly traffic: { readonly passersBy: number; readonly uncertainty: number } | null;
  readonly closedAt: Instant | null;
  readonly reopenings: readonly { readonly at: Instant; readonly reason: string }[];
};
export const EMPTY_TOTALS: DayTotals = {
  takings: {},
  tax: 0,
  taxGivenBack: 0,
  difference: 0,
  differenceGivenBack: 0,
  hours: {},
  promised: 0,
  kept: 0,
  waits: {},
  pressed: 0,
  spoiled: 0,
  handling: {},
  traffic: null,
  closedAt: null,
  reopenings: [],
};

/** The changes of one piece of stock on a day. */
export type DayPiece = {
  /** The first count ever, if it was on this day. */
  readonly opening: number;
  readonly delivered: number;
  readonly corrected: number;
  readonly pressed: number;
  readonly spoiled: Readonly<Partial<Record<SpoilReason, number>>>;
  /** Pieces that counts found beyond the expected number (fewer if negative). */
  readonly found: number;
  readonly countedAt: Instant | null;
  /** Since when no piece is free. */
  readonly emptyAt: Instant | null;
};
export const EMPTY_PIECE: DayPiece = {
  opening: 0,
  delivered: 0,
  corrected: 0,
  pressed: 0,
  spoiled: {},
  found: 0,
  countedAt: null,
  emptyAt: null,
};

/** A day's figures of one offer in one colour and size. */
export type DayChoice = {
  readonly offer: OfferId;
  readonly blank: BlankId;
  readonly design: DesignId;
  readonly colour: ColourId;
  readonly size: SizeId;
  /** Garments sold, and what for before tax. */
  readonly garments: number;
  readonly amount: number;
  readonly returned: number;
  readonly givenBack: number;
  /** Garments pressed for orders that were not kept. */
  readonly unsold: number;
  /** Garments asked for, met or not. */
  readonly asked: number;
  readonly unmet: Readonly<Partial<Record<UnmetReason, number>>>;
  /** Requests turned away while it was out. */
  readonly unmetWhileOut: number;
  /** First wishes, as evidence of what people want; substitutes are left out. */
  readonly wishes: {
    readonly lines: number;
    readonly colour: number;
    readonly size: number;
  };
};
export const EMPTY_CHOICE = {
  garments: 0,
  amount: 0,
  returned: 0,
  givenBack: 0,
  unsold: 0,
  asked: 0,
  unmet: {},
  unmetWhileOut: 0,
  wishes: { lines: 0, colour: 0, size: 0 },
} as const;

export const pieceRow = (day: Day, piece: PieceKey): string => `${day} ${piece}`;
export const choiceRow = (
  day: Day,
  { offer, colour, size }: { readonly offer: OfferId; readonly colour: ColourId; readonly size: SizeId },
): string => `${day} ${offer}.${colour}.${size}`;

/** Everything recorded of one day. */
export type DayRows = {
  readonly totals: DayTotals;
  readonly pieces: ReadonlyMap<PieceKey, DayPiece>;
  readonly choices: readonly DayChoice[];
  readonly costs: DayCosts | null;
};

/** Pieces spoiled in all. */
export const spoiledOf = ({ spoiled }: DayPiece): number =>
  Object.values(spoiled).reduce((sum, pieces) => sum + pieces, 0);

/** What a day changed a piece's count by. */
export const netOf = (piece: DayPiece): number =>
  piece.opening + piece.delivered + piece.corrected + piece.found - piece.pressed - spoiledOf(piece);
