/** Taking what nothing is there for out of an order, so that the rest need not wait for it. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { wrongStage } from "../../../../model/orders/refusal.ts";
import { withoutJob } from "../../../state/orders.ts";
import type { StallEvent } from "../../../state/shapes/event.ts";
import type { StallState } from "../../../state/state.ts";
import { bill } from "../../../stock/bill.ts";
import { accept, type Decision, type Of, refuse } from "../../commands.ts";
import { rulesOf } from "./repricing.ts";

/**
 * Removes every short garment from an order; what was paid for it is to be given back. Refused if nothing would be
 * left: such an order is dropped as a whole.
 */
export function leftOut(state: StallState, menu: Menu, { number, byCustomer }: Of<"left-out">): Decision {
  const order = state.order(number);
  if (order === undefined || (byCustomer !== undefined && order.customer !== byCustomer))
    return refuse({ code: "no-such-order", number });
  const short = order.jobs.filter(({ stage }) => stage === "short");
  const what = `order ${number}`;
  if (short.length === 0) return refuse(wrongStage(what, "not short of anything", "short of some garments"));
  if (short.length === order.jobs.length)
    return refuse(wrongStage(what, "short of every garment", "dropped as a whole"));
  const events: StallEvent[] = [];
  const rules = rulesOf(menu, order);
  let left = order;
  for (const { n } of short) {
    left = withoutJob(left, n);
    const { tax, total } = bill(left.lines, rules);
    events.push({ type: "left-out", number, n, tax, total });
  }
  return accept(...events);
}
