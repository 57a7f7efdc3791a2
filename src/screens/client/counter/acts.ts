/** The counter's writes. */
import type { Numbered } from "../../../model/orders/counter.ts";
import type { DiscountReason, OrderStage } from "../../../model/orders/order.ts";
import type { PlaceOrder } from "../../../model/orders/place-order.ts";
import type { PlaceAct, Taken } from "../crew/offline.ts";
import type { Write } from "../crew/taps.ts";
import { type Paying, tendersIn } from "./cash.ts";

export type Ending = "collected" | "dropped" | "uncollected" | "refunded" | "exchanged";

export type Act =
  | PlaceAct
  | { readonly type: "order"; readonly number: number; readonly change: Change }
  | { readonly type: "rack"; readonly key: string; readonly as: "thrown" | "released" };

/** A tap's effect on an order. */
export type Change =
  | (Paying & { readonly type: "paid"; readonly at: string; readonly by: string | null })
  | { readonly type: "undo-paid" }
  | { readonly type: "claimed" }
  /** Kept for its payment as long again. */
  | { readonly type: "kept-unpaid" }
  /**
   * Other garments, another price, or something that came back: how the order is then, only the stall can say; a garment
   * of the rack that was given for it is off the rack at once.
   */
  | { readonly type: "as-the-stall-says"; readonly rack?: string }
  | { readonly type: "left-out" }
  | { readonly type: "given-back" }
  | { readonly type: "undo-given-back" }
  | { readonly type: "closed"; readonly as: Ending }
  | { readonly type: "undo-closed"; readonly was: Ending };

type Unsent = Write<Act>;

/** An order as the form holds it: the ids are the menu's, so they need no brand before the stall checks them. */
export type Wanted = {
  readonly lines: readonly (Instead & { readonly quantity: number; readonly rack?: string })[];
  readonly name?: string;
  readonly paper?: NonNullable<PlaceOrder["paper"]>;
};

/** Further facts of an order being taken. */
export type Taking = {
  readonly taken: Taken;
  /** Its number and word, and the device whose block they are of; null without. */
  readonly block: (Numbered & { readonly device: string }) | null;
  /** By the stall's clock, if that is known. */
  readonly takenAt: string | null;
  /** There is no signal: the customer leaves before the stall has the order. */
  readonly late: boolean;
};

/** After this many milliseconds without the stall's answer, an order with a number counts as taken. */
const PATIENCE = 2500;

export function placing(wanted: Wanted, { taken, block, takenAt, late }: Taking): Unsent {
  const { paper, name } = wanted;
  const whose =
    paper !== undefined ? `paper order ${paper.number}` : name === undefined ? "an order" : `${name}’s order`;
  const { tender, parts, tip, total, by } = taken;
  const how = { ...(parts === undefined ? {} : { parts }), ...(tip === undefined ? {} : { tip }) };
  const paid =
    tender === null ? {} : { paid: { tender, amount: total, ...how, ...(by === null ? {} : { by }) } };
  const numbered = block === null ? {} : { numbered: { number: block.number, word: block.word } };
  return {
    act: { type: "place", paper: paper?.number ?? null, taken, ...numbered },
    path: "/orders",
    body: {
      ...wanted,
      ...paid,
      ...(paper !== undefined || takenAt === null ? {} : { takenAt }),
      ...(block === null ? {} : { block }),
      ...(late ? { late } : {}),
    },
    says: `${whose} (${taken.lines.map((line) => `${line.quantity} × ${line.name}`).join("; ")})`,
    waits: true,
    ...(block === null ? {} : { patience: PATIENCE }),
  };
}

const onOrder = (number: number, action: string, body: object, says: string, change: Change): Unsent => ({
  act: { type: "order", number, change },
  path: `/orders/${number}/${action}`,
  body,
  says: `${number} ${says}`,
});

/** `by` is the crew member who takes it, if the tablet knows. */
export const paying = (number: number, how: Paying, at: string, by: string | null): Unsent =>
  onOrder(number, "paid", by === null ? how : { ...how, by }, `paid, ${tendersIn(how)}`, {
    type: "paid",
    ...how,
    at,
    by,
  });

const bySaying = (number: number, action: string, body: object, says: string, rack?: string): Unsent => ({
  ...onOrder(number, action, body, says, {
    type: "as-the-stall-says",
    ...(rack === undefined ? {} : { rack }),
  }),
  waits: true,
});

/** A garment as the form holds it. */
export type Instead = {
  readonly offer: string;
  readonly colour: string;
  readonly size: string;
  readonly wishes?: readonly string[];
  readonly note?: string;
};

/** Another garment in place of one that is not pressed yet. */
export const changing = (number: number, job: string, garment: Instead): Unsent =>
  bySaying(number, "changed", { changes: [{ type: "instead", jobs: [job], garment }] }, `${job} changed`);

export const takingOff = (number: number, job: string): Unsent =>
  bySaying(number, "changed", { changes: [{ type: "take-off", jobs: [job] }] }, `${job} taken off`);

/**
 * Another garment in place of one that was pressed, which comes back: it is next in line, or given out at once if it is
 * of the rack.
 */
export const exchanging = (
  number: number,
  job: string,
  instead: Instead & { readonly rack?: string },
): Unsent => bySaying(number, "garments/exchanged", { job, instead }, `${job} exchanged`, instead.rack);

export const refunding = (number: number, job: string): Unsent =>
  bySaying(number, "garments/refunded", { jobs: [job] }, `money for ${job} given back`);

export const undoingRefund = (number: number, job: string): Unsent =>
  bySaying(number, "garments/undo-refunded", { jobs: [job] }, `money for ${job} not given back after all`);

/** `job` is the garment that was to be made instead. */
export const undoingExchange = (number: number, job: string): Unsent =>
  bySaying(number, "garments/undo-exchanged", { job }, `${job} not exchanged after all`);

/** A garment of the rack is taken off it, or may be sold though it was kept for its customer. */
export const unracking = (key: string, as: "thrown" | "released"): Unsent => ({
  act: { type: "rack", key, as },
  path: `/rack/${key}/unracked`,
  body: { as },
  says: as === "thrown" ? `${key} off the rack` : `${key} may be sold`,
});

type Off = {
  readonly by: { readonly amount: number } | { readonly partsPerMillion: number };
  readonly reason: DiscountReason;
};

/** So much off an order's price, and why; null: the full price again. `says` names it in a list of taps. */
export const discounting = (number: number, off: Off | null, says: string): Unsent =>
  bySaying(number, "discounted", { off }, says);

/** Somebody is here for an order from the web. */
export const claiming = (number: number): Unsent =>
  onOrder(number, "claimed", {}, "is here", { type: "claimed" });

/** Keeps an order that waits for its payment. */
export const keeping = (number: number): Unsent =>
  onOrder(number, "kept-unpaid", {}, "kept, not paid yet", { type: "kept-unpaid" });

export const unpaying = (number: number): Unsent =>
  onOrder(number, "undo-paid", {}, "not paid after all", { type: "undo-paid" });

/** Removes the short garments from the order; the rest goes on. */
export const leavingOut = (number: number): Unsent =>
  onOrder(number, "left-out", {}, "goes on without what is short", { type: "left-out" });

/** Hands back the payment for removed garments, or undoes that. */
export const givingBack = (number: number, undo: boolean): Unsent =>
  undo
    ? onOrder(number, "undo-given-back", {}, "money not handed back after all", { type: "undo-given-back" })
    : onOrder(number, "given-back", {}, "money handed back", { type: "given-back" });

/** Hands over; the stall checks the word if one is given. */
export const handingOver = (number: number, word: string | null): Unsent =>
  onOrder(number, "collected", word === null ? {} : { word }, "handed over", {
    type: "closed",
    as: "collected",
  });

export const ending = (number: number, as: Ending): Unsent =>
  onOrder(number, as, {}, STAGE_WORDS[as], { type: "closed", as });

export const reopening = (number: number, was: Ending): Unsent =>
  onOrder(number, `undo-${was}`, {}, `not ${STAGE_WORDS[was]} after all`, { type: "undo-closed", was });

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
