/** What the counter writes. */
import type { OrderStage, Tender } from "../../../model/orders/order.ts";
import type { PlaceOrder } from "../../../model/orders/place-order.ts";
import type { Write } from "../crew/taps.ts";

export type Ending = "collected" | "dropped" | "uncollected" | "refunded" | "exchanged";

export type Act =
  | { readonly type: "place"; readonly paper: number | null }
  | { readonly type: "order"; readonly number: number; readonly change: Change };

/** What a tap does to an order. */
export type Change =
  | { readonly type: "paid"; readonly tender: Tender; readonly at: string; readonly by: string | null }
  | { readonly type: "unpaid" }
  | { readonly type: "claimed" }
  | { readonly type: "left-out" }
  | { readonly type: "given-back"; readonly undo: boolean }
  | { readonly type: "ended"; readonly as: Ending }
  | { readonly type: "reopened"; readonly was: Ending };

type Unsent = Write<Act>;

/** An order as the form holds it: the ids are the menu's, so they need no brand before the stall checks them. */
export type Wanted = {
  readonly lines: readonly { readonly [K in keyof PlaceOrder["lines"][number]]: string | number }[];
  readonly name?: string;
  readonly paper?: NonNullable<PlaceOrder["paper"]>;
};

/** `lines` are for a person: "1 × Longtail tee, Navy, L". `takenAt` is by the stall's clock, where that is known. */
export function placing(wanted: Wanted, lines: readonly string[], takenAt: string | null): Unsent {
  const { paper, name } = wanted;
  const whose =
    paper !== undefined ? `paper order ${paper.number}` : name === undefined ? "an order" : `${name}’s order`;
  return {
    act: { type: "place", paper: paper?.number ?? null },
    path: "/orders",
    body: paper !== undefined || takenAt === null ? wanted : { ...wanted, takenAt },
    says: `${whose} (${lines.join("; ")})`,
    waits: true,
  };
}

const onOrder = (number: number, action: string, body: object, says: string, change: Change): Unsent => ({
  act: { type: "order", number, change },
  path: `/orders/${number}/${action}`,
  body,
  says: `${number} ${says}`,
});

/** `by` is who takes it, where the tablet was told. */
export const paying = (number: number, tender: Tender, at: string, by: string | null): Unsent =>
  onOrder(number, "paid", by === null ? { tender } : { tender, by }, `paid, ${tender}`, {
    type: "paid",
    tender,
    at,
    by,
  });

/** Somebody is here for an order from the web. */
export const claiming = (number: number): Unsent =>
  onOrder(number, "claimed", {}, "is here", { type: "claimed" });

export const unpaying = (number: number): Unsent =>
  onOrder(number, "paid", { undo: true }, "not paid after all", { type: "unpaid" });

/** Takes what is short out of the order; the rest goes on. */
export const leavingOut = (number: number): Unsent =>
  onOrder(number, "left-out", {}, "goes on without what is short", { type: "left-out" });

/** Hands back what was paid for what was left out, or takes that back. */
export const givingBack = (number: number, undo: boolean): Unsent =>
  onOrder(number, "given-back", { undo }, undo ? "money not handed back after all" : "money handed back", {
    type: "given-back",
    undo,
  });

/** Hands over; the word is checked by the stall where it is given. */
export const handingOver = (number: number, word: string | null): Unsent =>
  onOrder(number, "collected", word === null ? {} : { word }, "handed over", {
    type: "ended",
    as: "collected",
  });

export const ending = (number: number, as: Ending): Unsent =>
  onOrder(number, as, {}, STAGE_WORDS[as], { type: "ended", as });

export const reopening = (number: number, was: Ending): Unsent =>
  onOrder(number, was, { undo: true }, `not ${STAGE_WORDS[was]} after all`, { type: "reopened", was });

export const STAGE_WORDS: Readonly<Record<OrderStage, string>> = {
  "to-pay": "to be paid",
  "to-claim": "not here yet, not in line",
  waiting: "waiting",
  pressing: "on the press",
  ready: "ready",
  collected: "handed over",
  dropped: "dropped",
  uncollected: "never fetched",
  refunded: "money given back",
  exchanged: "exchanged",
};

/** The stages that are worth offering each ending in; what may really be done is the stall's to say. */
export const ENDS_FROM: Readonly<Record<Exclude<Ending, "collected">, readonly OrderStage[]>> = {
  dropped: ["to-pay", "to-claim", "waiting", "pressing", "ready"],
  refunded: ["waiting", "pressing", "ready", "collected", "dropped"],
  exchanged: ["ready", "collected"],
  uncollected: ["ready"],
};

export const isEnding = (stage: OrderStage): stage is Ending =>
  stage === "collected" ||
  stage === "dropped" ||
  stage === "uncollected" ||
  stage === "refunded" ||
  stage === "exchanged";
