/** A number that texts an order's code gets that order's texts from then on, and no number does before. */
import type { CodeRefusal } from "../../chat/talk/ordering-port.ts";
import type { CustomerId } from "../../model/basics/ids.ts";
import { ok, type Result, refused } from "../../model/basics/result.ts";
import type { PhoneNumber } from "../../model/orders/order.ts";
import type { Order } from "../state/shapes/order.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";

/** Codes that did not fit, of one sender for one order: after these only the counter can help. */
const WRONG_CODES_PER_ORDER = 5;
/** The limit over all orders together, so that nobody can try a few words on each of many orders. */
const WRONG_CODES_OF_A_SENDER = 20;
/** Orders kept with a number: more than anybody may have open at once. */
const ORDERS_KEPT = 20;

type Sender = {
  readonly customer: CustomerId;
  readonly phone: PhoneNumber;
  /** Keyed hash of the number. */
  readonly number: CustomerId;
};

/**
 * Binds an order to the number that texted its pickup word. Refusals are alike whether the order is missing, the word
 * is wrong, or another number was typed for it.
 */
export function confirmNumber(
  unit: UnitOfWork,
  sender: Sender,
  number: number,
  word: string,
): Result<Order, CodeRefusal> {
  const { customer, phone } = sender;
  const { people, state } = unit;
  const person = people.person(customer);
  const wrong = person.wrongCodes ?? [];
  const ofOrder = wrong.filter((tried) => tried === number).length;
  if (ofOrder >= WRONG_CODES_PER_ORDER || wrong.length >= WRONG_CODES_OF_A_SENDER)
    return refused({ code: "tried-too-often" });
  const order = state.order(number);
  if (order === undefined || !fits(unit, sender, order, word)) {
    people.persons.set(customer, { ...person, phone, wrongCodes: [...wrong, number] });
    return refused({ code: "does-not-fit" });
  }
  const before = person.confirmed ?? [];
  if (before.includes(number)) return ok(order);
  const open = before.filter((earlier) => state.order(earlier) !== undefined).length;
  if (open >= (state.menu?.rules.openOrdersPerSender ?? 0)) return refused({ code: "too-many" });
  people.atOrders.set(String(number), {
    ...people.atOrder(number),
    confirmed: { phone, customer },
  });
  const confirmed = [...before, number].slice(-ORDERS_KEPT);
  people.persons.set(customer, { ...person, phone, wroteFirst: true, confirmed, lastOrder: number });
  return ok(order);
}

/** Whether the word is the order's; and if a number was typed for the order, whether the sender has that number. */
function fits({ people }: UnitOfWork, { customer, number }: Sender, order: Order, word: string): boolean {
  const { given, confirmed } = people.atOrder(order.number);
  // An order placed by text belongs to the number that placed it.
  if (order.takenBy === "text" || order.word !== word) return false;
  if (confirmed !== undefined) return confirmed.customer === customer;
  return given === undefined || given === number;
}

/** The open orders that a customer may ask about and change: placed as this customer, or confirmed by this number. */
export function ordersOf({ state, people }: UnitOfWork, customer: CustomerId): readonly number[] {
  const { confirmed = [] } = people.person(customer);
  const numbers = new Set([...state.orderIndex.ordersOf(customer), ...confirmed]);
  return [...numbers].filter((number) => state.order(number) !== undefined).sort((one, other) => one - other);
}

/** The customer who owns the order, if this customer may act for them. */
export function ownerFor({ state, people }: UnitOfWork, customer: CustomerId, number: number): CustomerId {
  const isConfirmed = people.person(customer).confirmed?.includes(number) === true;
  return (isConfirmed ? state.anyOrder(number)?.customer : undefined) ?? customer;
}
