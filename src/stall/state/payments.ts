/** The payment of an order, and what a new total does to it. Amounts in minor units. */
import type { Tender } from "../../model/orders/order.ts";
import type { Order, OrderPayment } from "./shapes/order.ts";

/** One tender's part of a payment. */
export type PaidPart = { readonly tender: Tender; readonly amount: number };

/** The parts of a payment in the order they were paid; one that was not shared out is its only part. */
export const partsOf = ({ tender, amount, parts }: OrderPayment): readonly PaidPart[] =>
  parts ?? [{ tender, amount }];

/** A payment of these parts; a single part is stored without a list. */
export function paymentOf(parts: readonly PaidPart[], at: number): OrderPayment {
  const [first] = parts;
  if (first === undefined) throw new Error("a payment without a part");
  const amount = parts.reduce((sum, part) => sum + part.amount, 0);
  return { tender: first.tender, amount, at, ...(parts.length > 1 ? { parts } : {}) };
}

/** A payment that is lower by `less`: the part paid last is reduced first. */
export function withLess(payment: OrderPayment, less: number): OrderPayment {
  const parts: PaidPart[] = [];
  let left = less;
  for (const part of partsOf(payment).toReversed()) {
    const off = Math.min(left, part.amount);
    left -= off;
    if (part.amount > off) parts.unshift({ ...part, amount: part.amount - off });
  }
  return paymentOf(parts.length > 0 ? parts : [{ tender: payment.tender, amount: 0 }], payment.at);
}

/** A payment with some parts more: what was paid by the same tender is one part again. */
export function withParts(payment: OrderPayment, more: readonly PaidPart[]): OrderPayment {
  const parts = [...partsOf(payment)];
  for (const { tender, amount } of more) {
    const at = parts.findIndex((part) => part.tender === tender);
    const before = parts[at];
    if (before === undefined) parts.push({ tender, amount });
    else parts[at] = { tender, amount: before.amount + amount };
  }
  return paymentOf(parts, payment.at);
}

/** A payment that is higher by `more`, in the part paid last. */
function withBack(payment: OrderPayment, more: number): OrderPayment {
  const parts = partsOf(payment);
  const last = parts.length - 1;
  return paymentOf(
    parts.map((part, at) => (at === last ? { ...part, amount: part.amount + more } : part)),
    payment.at,
  );
}

/** The order with a tip that came with a payment. */
export const withTip = (order: Order, tender: Tender, tip = 0): Order =>
  tip === 0 ? order : { ...order, tips: [...(order.tips ?? []), { tender, amount: tip }] };

/** The amounts of an order that are still to change hands; those that are 0 are left out of its row. */
type Owed = { readonly due: number; readonly giveBack: number };

export function withOwed(order: Order, { due, giveBack }: Owed): Order {
  const { due: _, giveBack: __, ...rest } = order;
  return { ...rest, ...(due > 0 ? { due } : {}), ...(giveBack > 0 ? { giveBack } : {}) };
}

/**
 * The order at another total. If it is paid, what is paid beyond the new total is to be given back, and what the new
 * total is more than the old one is due, less what was to be given back.
 */
export function retotalled(order: Order, { tax, total }: Pick<Order, "tax" | "total">): Order {
  const { paid, due = 0, giveBack = 0 } = order;
  if (paid === null) return { ...order, tax, total };
  const more = total - order.total;
  if (more <= 0) {
    const beyond = Math.max(0, paid.amount - total);
    const after = { ...order, tax, total, paid: beyond === 0 ? paid : withLess(paid, beyond) };
    return withOwed(after, { due: Math.max(0, due + more), giveBack: giveBack + beyond });
  }
  const kept = Math.min(giveBack, more);
  return withOwed(
    { ...order, tax, total, paid: kept === 0 ? paid : withBack(paid, kept) },
    { due: due + more - kept, giveBack: giveBack - kept },
  );
}
