/** A line of an order: what garment, how many, at what price. */

import type {
  BlankId,
  BundleId,
  ColourId,
  DesignId,
  JobId,
  OfferId,
  SizeId,
  WishId,
} from "../../../model/basics/ids.ts";
import type { Platen, TransferKind } from "../../../model/menu/catalogue.ts";
import type { DiscountReason } from "../../../model/orders/order.ts";
import type { Day } from "../../../time/fair-day.ts";
import type { Instant } from "../../../time/instants.ts";

export type Line = {
  readonly offer: OfferId;
  readonly blank: BlankId;
  readonly design: DesignId;
  readonly colour: ColourId;
  readonly size: SizeId;
  readonly quantity: number;
  /** Price of one, in minor units, as it was when the order or its hold was made. */
  readonly each: number;
  readonly platen: Platen;
  readonly kind: TransferKind;
  /** The part of the price that is a size's or a wish's surcharge: no bundle covers it. */
  readonly extra?: number;
  /** What all of them together cost less, by bundles and by a discount on the whole order. */
  readonly off?: number;
  /** What each of them costs less, and why: a gift, a garment for the crew. */
  readonly lowered?: { readonly by: number; readonly reason: DiscountReason };
  /** What was wished for on each of them, by the menu's ids. */
  readonly wishes?: readonly WishId[];
  /** The garment of the rack that it is: it takes no piece and is not pressed. */
  readonly rack?: JobId;
  /** That garment as it hung there. Absent in earlier lines. */
  readonly hung?: RackItem;
  /** It is sold as a second: so much less than the price, which is off `each` already. */
  readonly asSecond?: number;
  /** The customer brings the garments: they take no blank. */
  readonly own?: true;
  /** Further transfers on each of them. */
  readonly second?: readonly DesignId[];
  /** How long one takes at the press, in plain garments of its kind: 2 is twice as long. Absent: 1. */
  readonly effort?: number;
};

/** A pressed garment that nobody took: its kind, its origin, and why it is there. */
export type RackItem = Omit<
  Line,
  "quantity" | "each" | "extra" | "off" | "lowered" | "rack" | "hung" | "asSecond"
> & {
  readonly why:
    | "dropped"
    | "uncollected"
    | "returned"
    | "exchanged"
    | "wrong-size"
    | "misprint"
    | "brought"
    | "ahead";
  /** What put it there, and so how it was counted: its order, it alone, a spoiled try, an earlier fair, or the accepted plan. */
  readonly from: "order" | "garment" | "spoiled" | "brought" | "plan";
  /** It has another size than ordered, and the counts of both blanks were corrected. */
  readonly corrected?: true;
  /** It is paid and was not fetched: the order's number. */
  readonly keptFor?: number;
  readonly at: Instant;
  readonly day: Day;
};

/** A bundle that an order uses: how often, and what that saves. */
export type BundleUse = { readonly bundle: BundleId; readonly times: number; readonly saving: number };

/** What the crew takes off an order as a whole, and why; the amount is what that came to. */
export type Discount = {
  readonly by: { readonly amount: number } | { readonly partsPerMillion: number };
  readonly reason: DiscountReason;
  readonly amount: number;
};
