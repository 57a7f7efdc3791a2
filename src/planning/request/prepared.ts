import type { StatedDemand } from "../../model/planning/plan-given.ts";
import type { PlanRequest } from "../../model/planning/plan-request.ts";
import type { GivenRange } from "./given.ts";

/** One kind of stock: a blank's sku or a design's transfer. Sums are in minor units. */
export type Stock = {
  readonly id: string;
  readonly kind: "sku" | "transfer";
  /** The price of one, if few are bought. */
  readonly cost: number;
  /** Lower prices of each piece, from this many bought at once; in rising order, empty if the price is always the same. */
  readonly breaks: readonly { readonly from: number; readonly cost: number }[];
  /** The value of a leftover. */
  readonly worth: number;
  readonly owned: number;
  readonly minimum: number;
  readonly maximum: number;
  /** Bought in multiples of this. */
  readonly pack: number;
  /** Whether it is bought by the sheet: its cost is known only when all sheets are planned. */
  readonly bySheet: boolean;
  /** The part of the van's limit that one takes: a piece, or a share of a carton; transfers take none. */
  readonly vanShare: number;
};

export type Mix = { readonly names: readonly string[]; readonly weights: readonly number[] };

export type PreparedBlank = {
  readonly id: string;
  readonly name: string;
  readonly platen: "flat" | "cap";
  readonly colours: Mix;
  readonly sizes: Mix;
  /** For each size, from small to large: whether it is a youth size. */
  readonly youth: readonly boolean[];
  readonly perCarton: number;
};

export type PreparedOffer = {
  readonly id: string;
  readonly name: string;
  /** Index of its blank and of its design; -1 for a blank sold as it is. */
  readonly blank: number;
  readonly design: number;
  /** The profit of one sale after tax, card fee and per-garment costs, before blank and transfer. */
  readonly net: number;
  readonly price: number;
  /** Weight among the offers that share the crowd; 0 if demand is stated. */
  readonly weight: number;
  readonly stated: StatedDemand | null;
  /** For each day of the fair: whether it is asked for. */
  readonly onDays: readonly boolean[];
};

/** One garment of the menu: an offer in a colour and size, and the stock it is made of. */
export type Product = {
  readonly offer: number;
  readonly colour: number;
  readonly size: number;
  /** Index into the stocks. */
  readonly sku: number;
  /** Index into the stocks; -1 for a blank sold as it is. */
  readonly transfer: number;
  /** Garments of it that are decorated already. */
  readonly ready: number;
};

export const DAY_MINUTES = 1440;

/** A day of the fair and its crowd beside that of a usual day. */
export type FairDay = { readonly name: string; readonly crowd: number };

export type Hour = {
  /** The day it belongs to, from 0. */
  readonly day: number;
  /** After the midnight before the first day. */
  readonly startMinute: number;
  readonly minutes: number;
  /** Share of its day's crowd. */
  readonly share: number;
};

export type Buying = {
  /** Orders per passer-by: equally likely values in rising order (see buying-rate.ts), or one if it is certain. */
  readonly rate: Float64Array | number;
  /** Cumulative chances of 1, 2, 3 … garments. */
  readonly garments: readonly { readonly garments: number; readonly upTo: number }[];
  readonly meanGarments: number;
  readonly bunching: number;
};

export type Weather = { readonly name: string; readonly upTo: number; readonly crowd: number };

export type PreparedCosts = {
  readonly fixed: readonly {
    readonly name: string;
    readonly cost: number;
    readonly kind: string;
    readonly onlyWhenPressing: boolean;
  }[];
  readonly people: number;
  readonly paidHours: number;
  readonly hourlyWage: number;
  readonly perGarment: number;
  readonly target: number;
  readonly elasticity: number;
  /** Share of a charged price that stays after tax and card fee, and what each garment's payments cost. */
  readonly keptShare: number;
  /** Share of a charged price that is left after tax. */
  readonly beforeTax: number;
  /** The part of the takings before tax that the pitch costs, and the least that it costs. */
  readonly pitchShare: { readonly share: number; readonly atLeast: number };
  readonly wearPerPressing: number;
  readonly wearPerHour: number;
  readonly refundShare: number;
  /** Counted in the spoilage too: an exchanged garment is made again like a spoiled one. */
  readonly exchangeShare: number;
  /** Null if no hours of one's own are named. */
  readonly ownTime: number | null;
  readonly feeEach: number;
};

/** A request read into one set of units, with nothing left to doubt. */
export type Prepared = {
  readonly request: PlanRequest;
  readonly currency: string;
  readonly opensMinute: number;
  readonly closesMinute: number;
  /** One or more; all have the same opening hours. */
  readonly days: readonly FairDay[];
  /** Whether each day begins with the full stock. */
  readonly restocks: boolean;
  /** Passers-by in the whole of a usual day; with hourly counts, the spread of their sum moving together. */
  readonly crowd: GivenRange;
  readonly hours: readonly Hour[];
  readonly weather: readonly Weather[];
  readonly buying: Buying | null;
  readonly blanks: readonly PreparedBlank[];
  readonly offers: readonly PreparedOffer[];
  readonly products: readonly Product[];
  /** Skus first, then transfers. */
  readonly stocks: readonly Stock[];
  readonly skuCount: number;
  readonly setUpCosts: readonly number[];
  readonly anotherColour: number;
  readonly anotherDesign: number;
  readonly anotherSize: number;
  /** Presses of each platen; absent if pressing is no limit. */
  readonly presses: readonly {
    readonly platen: "flat" | "cap";
    readonly count: number;
    readonly seconds: number;
  }[];
  readonly patienceMinutes: number;
  readonly spoilage: number;
  readonly budget: number;
  readonly vanLimit: number;
  readonly costs: PreparedCosts;
  readonly aheadWorth: number;
  readonly aheadPerGarment: number;
};
