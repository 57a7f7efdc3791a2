/** An order as it will be once the stall has every tap about it. */
import type { Money } from "../../../model/basics/money.ts";
import type { OpenOrder } from "../../../model/orders/open-orders.ts";
import type { Act, Change } from "./acts.ts";
import type { Paying } from "./cash.ts";

/** The payment that was just tapped, as an order shows it. */
export function paidAs({ tender, parts, tip }: Paying, at: string, total: Money) {
  const money = (amount: number): Money => ({ ...total, amount });
  return {
    paid: {
      tender,
      amount: total,
      at,
      ...(parts === undefined
        ? {}
        : { parts: parts.map((part) => ({ tender: part.tender, amount: money(part.amount) })) }),
    },
    ...(tip === undefined ? {} : { tips: money(tip) }),
  };
}

/** The order once it has been paid or claimed: in line, if it was outside. */
const inLine = <T extends OpenOrder>(order: T): T => ({
  ...order,
  unclaimed: false,
  stage: order.stage === "to-pay" || order.stage === "to-claim" ? "waiting" : order.stage,
});

function changed<T extends OpenOrder>(order: T, change: Change): T {
  switch (change.type) {
    case "paid": {
      const { due: _, ...rest } = order;
      const paid = order.paid === null ? paidAs(change, change.at, order.total) : {};
      return { ...inLine(rest as T), ...paid, paidTo: change.by }; // the same order, with nothing due
    }
    case "claimed":
      return order.stage === "to-pay" ? { ...order, unclaimed: false } : inLine(order);
    case "kept-unpaid":
    case "as-the-stall-says":
      return order;
    case "left-out":
      return { ...order, jobs: order.jobs.filter(({ stage }) => stage !== "short") };
    case "given-back":
      // A tap whose effect the stall's view has already changes nothing.
      return order.giveBack === null ? order : { ...order, giveBack: null, gaveBack: order.giveBack };
    case "undo-given-back":
      return order.gaveBack === null ? order : { ...order, giveBack: order.gaveBack, gaveBack: null };
    case "undo-paid": {
      const { tips: _, ...rest } = order;
      return { ...(rest as T), paid: null, paidTo: null }; // the same order without its payment
    }
    case "closed":
      return { ...order, stage: change.as };
    case "undo-closed": {
      const allPressed = order.jobs.every(({ stage }) => stage === "pressed");
      return order.stage === change.was ? { ...order, stage: allPressed ? "ready" : "waiting" } : order;
    }
    default:
      return change satisfies never;
  }
}

/** The order after some taps; those about other things leave it as it is. */
export const withTapsOn = <T extends OpenOrder>(order: T, acts: readonly Act[]): T =>
  acts.reduce(
    (now, act) => (act.type === "order" && act.number === now.number ? changed(now, act.change) : now),
    order,
  );
