/** Payment, and taking it back; and keeping an order that waits for its payment. */

import type { Menu } from "../../../model/menu/catalogue.ts";
import { wrongStage } from "../../../model/orders/refusal.ts";
import { type Instant, MINUTE } from "../../../time/instants.ts";
import { quoteMinutes } from "../../line/quote.ts";
import { stageOf } from "../../state/orders.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { Order } from "../../state/shapes/order.ts";
import type { StallState } from "../../state/state.ts";
import { accept, type Decision, type Of, refuse } from "../commands.ts";
import { lackingAgain, missing, undoClosed } from "./closing.ts";
import { TURNS_PER_ORDER } from "./numbering.ts";
import { paymentParts } from "./ordering.ts";
import { missingOf } from "./setting-up.ts";

/** An order that was dropped while it waited for its payment; undefined for any other. */
function droppedUnpaid(state: StallState, number: number): Order | undefined {
  const order = state.anyOrder(number);
  const wasToPay = order?.jobs.some(({ stage }) => stage === "to-pay") === true;
  return order?.closed?.as === "dropped" && order.paid === null && wasToPay ? order : undefined;
}

/**
 * The money is in the drawer, so an order dropped for lack of payment is open again: a counter without signal takes
 * payments that reach the stall later. Pieces sold out since are short.
 */
export function paid(state: StallState, menu: Menu, { number, ...told }: Of<"paid">, now: Instant): Decision {
  const dropped = droppedUnpaid(state, number);
  const order = state.order(number) ?? dropped;
  if (order === undefined) return refuse(missing(state, number));
  if (order.paid !== null) {
    const { due = 0 } = order;
    if (due === 0) return refuse(wrongStage(`order ${number}`, "paid", "unpaid"));
    const { tender, amount, parts = [{ tender, amount }], tip } = paymentParts(told, due);
    const given = (at: number) => (tip === undefined || at > 0 ? {} : { tip });
    return accept(
      ...parts.map((part, at): StallEvent => ({ type: "more-paid", number, ...part, ...given(at) })),
    );
  }
  if (dropped?.lines.some((line) => missingOf(menu, line).length > 0) === true)
    return refuse(wrongStage(`order ${number}`, "off the menu", "on the menu"));
  const dueBy = now + quoteMinutes(state, menu, order.lines, now) * MINUTE;
  const turn = (state.version + 1) * TURNS_PER_ORDER;
  const paid: StallEvent = { type: "paid", number, ...paymentParts(told, order.total), dueBy, turn };
  if (dropped === undefined) return accept(paid);
  const short = lackingAgain(state, dropped).map((n): StallEvent => ({ type: "fell-short", number, n }));
  return accept({ type: "undo-closed", number }, paid, ...short);
}

export function undoPaid(state: StallState, menu: Menu, { number }: Of<"undo-paid">): Decision {
  const order = state.order(number);
  if (order === undefined) return refuse(missing(state, number));
  if (order.paid === null) return refuse(wrongStage(`order ${number}`, "unpaid", "paid"));
  const leavesLine = menu.rules.payment === "before-pressing";
  const stage = stageOf(order);
  if (leavesLine && (stage !== "waiting" || order.jobs.some((job) => job.stage === "short"))) {
    return refuse(wrongStage(`order ${number}`, stage, "waiting"));
  }
  if (leavesLine && order.jobs.some((job) => job.stage === "reserved"))
    return refuse(wrongStage(`order ${number}`, "reserved for a press", "waiting"));
  return accept({ type: "undo-paid", number, leavesLine });
}

/** Restarts the time to pay; an order dropped in that time is open again if its stock is free. */
export function keptUnpaid(state: StallState, menu: Menu, { number }: Of<"kept-unpaid">): Decision {
  if (droppedUnpaid(state, number) !== undefined)
    return undoClosed(state, menu, { type: "undo-closed", number, was: "dropped" });
  const order = state.order(number);
  if (order === undefined) return refuse(missing(state, number));
  // It is paid or in line by now: nothing will drop it.
  return stageOf(order) === "to-pay" ? accept({ type: "kept-unpaid", number }) : accept();
}
