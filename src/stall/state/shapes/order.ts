/** An order with its garments, its money and its end. Instants are milliseconds since 1970, UTC. */

import type { CustomerId, JobId } from "../../../model/basics/ids.ts";
import type { Tender } from "../../../model/orders/order.ts";
import type { Instant } from "../../../time/instants.ts";
import type { Job } from "./job.ts";
import type { BundleUse, Discount, Line } from "./line.ts";

export type TakenBy = "text" | "web" | "counter" | "paper";

export type Closed = {
  readonly as: "collected" | "dropped" | "uncollected" | "refunded" | "exchanged";
  readonly at: Instant;
  /** What was paid went on to the order that it was exchanged for. */
  readonly carried?: true;
  /** The exchange that it was made for was undone. */
  readonly unexchanged?: true;
  /** How it was closed before: a collected order may be refunded later. */
  readonly before: Closed | null;
};

/** A garment that came back, as it was in its order: that can be undone while it is still there. */
export type Returned = {
  readonly job: Job;
  readonly line: Line;
  /** Where it hangs on the rack; null if it was thrown away at once. */
  readonly key: JobId | null;
  /** What left its order with it; absent if it was exchanged within the order, which has other sums then. */
  readonly refund?: {
    readonly amount: number;
    readonly tax: number;
    /** What of it was given back, by tender; none if the stall did not note the payment. */
    readonly parts: readonly { readonly tender: Tender; readonly amount: number }[] | null;
    /** It was carried over to another order: no money changed hands. */
    readonly carried?: true;
  };
};

/** What was paid for an order: in all, by the tender of its first part; with the parts where there are several. */
export type OrderPayment = {
  readonly tender: Tender;
  readonly amount: number;
  readonly at: Instant;
  readonly parts?: readonly { readonly tender: Tender; readonly amount: number }[];
};

export type Order = {
  readonly number: number;
  readonly word: string;
  readonly customer: CustomerId;
  readonly takenBy: TakenBy;
  readonly lines: readonly Line[];
  readonly jobs: readonly Job[];
  readonly placedAt: Instant;
  /** When the wait began: placed, or paid where payment comes first. */
  readonly waitsFrom: Instant | null;
  /** The promise; null while it is to be paid. */
  readonly dueBy: Instant | null;
  readonly readyAt: Instant | null;
  /** It was ready without a press, from the rack: nobody waited, so no wait of it is counted. */
  readonly atOnce?: true;
  readonly tax: number;
  /** The tax is part of its prices. Absent: it was added to them. */
  readonly taxInPrice?: true;
  readonly total: number;
  readonly bundles?: readonly BundleUse[];
  readonly discount?: Discount;
  readonly paid: OrderPayment | null;
  /** What was given on top, for nothing in return. */
  readonly tips?: readonly { readonly tender: Tender; readonly amount: number }[];
  /** What is still to be paid of an order that was paid and costs more since. */
  readonly due?: number;
  /** The highest number of a garment that has left the order: no other garment gets it. */
  readonly numbered?: number;
  /** What was paid for garments that left the order since, or cost less, and is to be given back. */
  readonly giveBack?: number;
  /** Money for such garments that was handed back already. */
  readonly gaveBack?: number;
  /** The garment of another order that it was exchanged for, and what was paid for that one and counts for this order. */
  readonly exchangeOf?: JobId;
  readonly carried?: number;
  /** Garments that came back from it, the last one last. */
  readonly returned?: readonly Returned[];
  /** Garments of it that were sold from the rack since, or thrown away there. */
  readonly soldOn?: readonly number[];
  /** Set for an order from the web: whether somebody came for it, or texted its code. Absent in earlier orders. */
  readonly claimed?: boolean;
  /** It ends in this way when the presses have given its reserved garments back. */
  readonly closing?: Pick<Closed, "as"> & { readonly byCustomer: boolean };
  readonly closed: Closed | null;
  /** What became of the text that says it is ready, as far as is known; "failed": the crew calls it out. */
  readonly told: "delivered" | "failed" | null;
  /** Whether the customer was told that the order runs late. */
  readonly toldLate: boolean;
};

export type Hold = {
  readonly customer: CustomerId;
  readonly takenBy: TakenBy;
  readonly lines: readonly Line[];
  readonly expiresAt: Instant;
};
