/** Ends an order (handed over, dropped, uncollected, refunded, exchanged), and undoes that. */

import { jobId } from "../../../model/basics/ids.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { OrderStage } from "../../../model/orders/order.ts";
import { type Refusal, wrongStage } from "../../../model/orders/refusal.ts";
import { type Instant, MINUTE } from "../../../time/instants.ts";
import { quoteMinutes } from "../../line/quote.ts";
import { areThere, piecesOf } from "../../state/counts.ts";
import { isNotQueued, isUnclaimed, jobIn, lineOf, orderKey, stageOf } from "../../state/orders.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { Job } from "../../state/shapes/job.ts";
import type { Closed, Order } from "../../state/shapes/order.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { StallState } from "../../state/state.ts";
import { rackItemOf } from "../../stock/rack.ts";
import { accept, type Decision, type Of, refuse } from "../commands.ts";
import { TURNS_PER_ORDER } from "./numbering.ts";
import { askForOrder } from "./reserving.ts";
import { missingOf } from "./setting-up.ts";

const FINISHED: ReadonlySet<OrderStage> = new Set([
  "collected",
  "dropped",
  "uncollected",
  "refunded",
  "exchanged",
]);

/** The stages an order may be in to end in each way. */
const MAY_END: Readonly<Record<Closed["as"], readonly OrderStage[]>> = {
  collected: ["ready"],
  dropped: ["to-pay", "to-claim", "waiting", "pressing", "ready"],
  uncollected: ["ready"],
  // A paid order that its customer gave up still has its money to be given back.
  refunded: ["waiting", "pressing", "ready", "collected", "dropped"],
  exchanged: ["ready", "collected"],
};

/** Somebody is here for a web order, or has texted its code: it is in line from now on, if it was not. */
export function claimed(state: StallState, menu: Menu, { number }: Of<"claimed">, now: Instant): Decision {
  const order = state.order(number);
  if (order === undefined) return refuse(missing(state, number));
  if (!isUnclaimed(order)) return accept();
  const dueBy = now + quoteMinutes(state, menu, order.lines, now) * MINUTE;
  return accept({ type: "claimed", number, dueBy, turn: (state.version + 1) * TURNS_PER_ORDER });
}

/** Money owed for what was left out changes hands once, whether its order is still open or over; or that is undone. */
export function givenBack(
  state: StallState,
  { type, number }: Of<"given-back" | "undo-given-back">,
): Decision {
  const undo = type === "undo-given-back";
  const order = state.anyOrder(number);
  if (order === undefined) return refuse({ code: "no-such-order", number });
  const amount = undo ? -(order.gaveBack ?? 0) : (order.giveBack ?? 0);
  if (amount === 0)
    return refuse(
      undo
        ? wrongStage(`order ${number}`, "without money handed back", "one that had some handed back")
        : wrongStage(`order ${number}`, "owed nothing", "owed some money"),
    );
  const left = { ...order, giveBack: undo ? (order.gaveBack ?? 0) + (order.giveBack ?? 0) : 0 };
  return accept({ type: "given-back", number, amount }, ...owedAfter(state, left));
}

export function closed(state: StallState, menu: Menu, command: Of<"closed">): Decision {
  const { number, as } = command;
  const order = state.anyOrder(number);
  if (order === undefined) return refuse({ code: "no-such-order", number });
  if (command.byCustomer !== undefined && order.customer !== command.byCustomer) {
    return refuse({ code: "no-such-order", number });
  }
  const stage = stageOf(order);
  // A customer may give up what is not begun; a garment on the press is the crew's to decide on.
  const may: readonly OrderStage[] =
    command.byCustomer === undefined ? MAY_END[as] : ["to-pay", "to-claim", "waiting"];
  if (!may.includes(stage)) return refuse(wrongStage(`order ${number}`, stage, may.join(" or ")));
  if (command.word !== undefined && command.word.toLowerCase() !== order.word)
    return refuse({ code: "wrong-word" });
  const tracked = menu.rules.payment !== "not-tracked";
  if (tracked && order.paid === null && (as === "collected" || as === "refunded")) {
    return refuse({ code: "not-paid", number });
  }
  if (as === "collected" && order.due !== undefined) return refuse({ code: "not-paid", number });
  if (as === "refunded" && stage === "dropped" && order.paid === null)
    return refuse({ code: "not-paid", number });
  const reserved = order.jobs.find((job) => job.stage === "reserved");
  if (reserved?.stage === "reserved") return closeWhenBack(state, order, reserved, command);
  const returned = order.jobs.flatMap((job): StallEvent[] =>
    job.stage === "pressing" ? [{ type: "returned", number, n: job.n }] : [],
  );
  return accept(
    ...returned,
    { type: "closed", number, as },
    ...toRack(order, command),
    ...owedAfter(state, { ...order, closed: { as, at: 0, before: null } }),
  );
}

/** The pressed garments of an order that ends without being taken, or comes back: on the rack, or thrown away. */
function toRack(order: Order, { as, keeps = true }: Of<"closed">): readonly StallEvent[] {
  const isThere = order.closed === null || order.closed.as === "collected";
  if (as === "collected" || !isThere) return [];
  const why = as === "refunded" ? "returned" : as;
  return order.jobs.flatMap((job): readonly StallEvent[] => {
    if (job.stage !== "pressed" || lineOf(order, job).own === true) return [];
    const key = jobId(order.number, job.n);
    const kept = as === "uncollected" && order.paid !== null ? { keptFor: order.number } : {};
    const item = rackItemOf(order, job, { why, from: "order", ...kept });
    const racked: StallEvent = { type: "racked", key, item };
    return keeps ? [racked] : [racked, { type: "unracked", key, as: "thrown" }];
  });
}

/** Sets the money owed on an ended order, if the amount has changed. */
export function owedAfter(state: StallState, order: Order): readonly StallEvent[] {
  const { number, closed, paid, giveBack = 0 } = order;
  const amount = closed === null ? 0 : giveBack + (closed.as === "dropped" ? (paid?.amount ?? 0) : 0);
  const before = state.owed.get(String(number).padStart(6, "0")) ?? 0;
  return amount === before ? [] : [{ type: "owed-set", number, amount }];
}

/** A press may be at work on a reserved garment: it is asked back first, and the order ends when it is given back. */
function closeWhenBack(
  state: StallState,
  { number, closing }: Order,
  job: Extract<Job, { readonly stage: "reserved" }>,
  { as, byCustomer }: Of<"closed">,
): Decision {
  const wish = { as, byCustomer: byCustomer !== undefined };
  const known = closing?.as === wish.as && closing.byCustomer === wish.byCustomer;
  return refuse(
    { code: "reserved", number, job: jobId(number, job.n), press: job.press, as },
    ...askForOrder(state, number),
    ...(known ? [] : [{ type: "closing-asked", number, ...wish } as const]),
  );
}

/**
 * What becomes of an order that was to end once its reserved garments are back: it ends, or goes on if a press has
 * begun one of them (`begun`); empty if a press still has some.
 */
export function closeNow(
  state: StallState,
  menu: Menu,
  number: number,
  begun: boolean,
): readonly StallEvent[] {
  const order = state.order(number);
  if (order?.closing === undefined) return [];
  const { as, byCustomer } = order.closing;
  const declined: StallEvent = { type: "closing-declined", number, byCustomer };
  if (begun) return [declined];
  if (order.jobs.some(({ stage }) => stage === "reserved")) return [];
  const by = byCustomer ? { byCustomer: order.customer } : {};
  const decision = closed(state, menu, { type: "closed", number, as, ...by });
  return decision.refusal === null ? decision.events : [declined];
}

/** Undoes the last ending. Garments that are not pressed yet take their stock again, or are short. */
export function undoClosed(state: StallState, menu: Menu, { number, was }: Of<"undo-closed">): Decision {
  const order = state.anyOrder(number);
  if (order === undefined) return refuse({ code: "no-such-order", number });
  if (order.closed?.as !== was) return refuse(wrongStage(`order ${number}`, stageOf(order), was));
  if (order.closed.carried === true)
    return refuse(wrongStage(`order ${number}`, "exchanged for another order", "undone from that order"));
  if (order.closed.unexchanged === true)
    return refuse(wrongStage(`order ${number}`, "not exchanged after all", "exchanged once more"));
  if (order.soldOn?.some((n) => jobIn(order, n) !== undefined))
    return refuse(wrongStage(`order ${number}`, "sold or thrown away since, in part or whole", "still here"));
  const { before } = order.closed;
  const reopened: StallEvent = { type: "undo-closed", number };
  const off = before === null || before.as === "collected" ? offRack(state, order) : [];
  const owed = owedAfter(state, { ...order, closed: before });
  if (before !== null) return accept(reopened, ...off, ...owed);
  // The menu may have changed since: an order in line that it lacks could not be shown to anybody.
  if (order.lines.some((line) => missingOf(menu, line).length > 0))
    return refuse(wrongStage(`order ${number}`, "off the menu", "on the menu"));
  const decision = withStock(state, order, reopened);
  return decision.refusal === null ? accept(...decision.events, ...off, ...owed) : decision;
}

/** Takes an order's garments off the rack: they belong to the order again. */
export const offRack = (state: StallState, { number, jobs }: Order): readonly StallEvent[] =>
  jobs.flatMap(({ n }): readonly StallEvent[] => {
    const key = jobId(number, n);
    return state.rack.get(key) === undefined ? [] : [{ type: "unracked", key, as: "back" }];
  });

function withStock(state: StallState, order: Order, reopened: StallEvent): Decision {
  const { number } = order;
  const short = lackingAgain(state, order);
  if (short.length > 0 && order.jobs.some(isNotQueued))
    return refuse(wrongStage(`order ${number}`, "sold out", "in stock"));
  return accept(reopened, ...short.map((n): StallEvent => ({ type: "fell-short", number, n })));
}

/** The garments of an order that was closed which need their stock again and do not get it. */
export function lackingAgain(state: StallState, order: Order): readonly number[] {
  const taken = new Map<PieceKey, number>();
  return order.jobs.flatMap((job) => {
    if (job.stage === "pressed" || job.stage === "short") return [];
    const pieces = piecesOf(lineOf(order, job));
    if (!areThere(pieces, (piece) => state.free(piece) - (taken.get(piece) ?? 0))) return [job.n];
    for (const piece of pieces) taken.set(piece, (taken.get(piece) ?? 0) + 1);
    return [];
  });
}

/** An order that is not open: finished, or never there. */
export function missing(state: StallState, number: number): Refusal {
  const past = state.past.get(orderKey(number));
  const stage = past === undefined ? undefined : stageOf(past);
  return stage !== undefined && FINISHED.has(stage)
    ? wrongStage(`order ${number}`, stage, "open")
    : { code: "no-such-order", number };
}
