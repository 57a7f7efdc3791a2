/** The customer's side of a stall: placing an order, and looking at one. */

import type { CustomerId } from "../../model/basics/ids.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { PhoneNumber } from "../../model/orders/order.ts";
import type { Answer } from "../../model/orders/refusal.ts";
import type { Bindings } from "../../texting/bindings.ts";
import type { Instant } from "../../time/instants.ts";
import { keptAgain } from "../messages/erasing.ts";
import { noteAsks } from "../messages/kept-turns.ts";
import { customerOfNumber } from "../messages/known-numbers.ts";
import { notePlaced } from "../messages/notes.ts";
import { noteTakers } from "../messages/takers.ts";
import { noteAddress, unclaimedAt } from "../messages/unclaimed.ts";
import type { Command } from "../rules/commands.ts";
import type { Order } from "../state/shapes/order.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import type { Transactions } from "../transact.ts";
import { type PlacedReply, placedReply, toBeTold } from "./replies.ts";

export type PlaceRequest = {
  readonly command: Omit<Extract<Command, { readonly type: "place" }>, "chance">;
  readonly name: string | null;
  readonly phone: PhoneNumber | null;
  /** The crew member who took the payment, if it was paid in the same step. */
  readonly paidTo?: string;
  /** The keyed hash of the customer's number. */
  readonly number: CustomerId | null;
  /** The keyed hash of the address the order came from; null for the crew. */
  readonly address: string | null;
  /** True if the sender has neither a token nor a key. */
  readonly isUnknown: boolean;
  /** The generation of the crew key if the crew entered the order; null for a customer. */
  readonly generation: number | null;
};

/** Places a whole order at once, for the crew (a walk-up) or for a customer. */
export function place(
  transactions: Transactions,
  key: WriteKey,
  request: PlaceRequest,
  bindings: Bindings,
): Answer<PlacedReply> {
  if (request.generation !== null && !transactions.admits(request.generation))
    return refused({ code: "old-key" });
  if (transactions.gone !== null) return transactions.gone;
  return transactions.once(key, (unit, now) => {
    const { number, generation, command } = request;
    // The crew has the number from the customer at the counter, so it is not confirmed again.
    const customer =
      number !== null && generation !== null
        ? customerOfNumber(unit, number, command.customer)
        : command.customer;
    const { menu } = unit.state;
    const { address, isUnknown } = request;
    const before = address === null ? null : unclaimedAt(unit, address);
    const most = menu?.rules.openOrdersPerSender ?? 0;
    // All orders without a token from one address count as one sender's.
    if (isUnknown && before !== null && menu !== null && before.keylessOrders >= most)
      return refused({ code: "too-many", most, of: "open-orders" });
    // Count each refused piece once for a customer with a token. Strangers cannot be told apart, so their refusals are
    // not counted.
    const isCustomer = generation === null && !isUnknown && menu !== null;
    const { events, refusal } = unit.carryOut(
      {
        ...command,
        customer,
        ...(isCustomer ? { asks: noteAsks(unit, menu, customer, command.lines, now) } : {}),
        ...(before === null ? {} : { unclaimedAtAddress: before.garments }),
        ...(isUnknown ? { unknown: true } : {}),
        chance: transactions.chance(),
      },
      now,
    );
    if (refusal !== null) return refused(refusal);
    if (menu === null) throw new Error("an order was accepted without a menu");
    const found = events.find((event) => event.type === "placed")?.order;
    const order = found ?? unit.state.anyOrder(command.block?.number ?? 0);
    if (order === undefined) throw new Error("an accepted order left no event");
    const placed = placedReply(unit, menu, unit.state.anyOrder(order.number) ?? order, now);
    // The order was sent again after its key was forgotten: the details noted the first time stay.
    if (found === undefined) return ok(placed);
    notePlaced(unit, order.number, command.lines);
    if (command.paid !== undefined) noteTakers(unit, events, request.paidTo ?? null, now);
    if (address !== null) noteAddress(unit, placed.number, address, isUnknown);
    const { name, phone } = request;
    const answered = (): PlacedReply => {
      const tell = toBeTold(unit, order, bindings);
      return tell === null ? placed : { ...placed, toBeTold: tell };
    };
    // A walk-up without a name or a token will never ask about the order.
    const unknown = name === null && phone === null && request.generation !== null;
    if (unknown) return ok(answered());
    const person = unit.people.person(customer);
    unit.people.persons.set(customer, {
      ...person,
      name: name ?? person.name,
      // The crew has the number from the customer at the counter; a number typed on the web must be confirmed first.
      phone: request.generation === null ? person.phone : (phone ?? person.phone),
      lastOrder: placed.number,
    });
    if (number !== null && generation === null)
      unit.people.atOrders.set(String(placed.number), {
        ...unit.people.atOrder(placed.number),
        given: number,
      });
    keptAgain(unit, now);
    return ok(answered());
  });
}

/** Shows one order in a given view. Refused if no order has the number. */
export function seeOrder<T>(
  open: Answer<{ readonly unit: UnitOfWork; readonly menu: Menu; readonly now: Instant }>,
  number: number,
  view: (unit: UnitOfWork, menu: Menu, order: Order, now: Instant) => T,
): Answer<T> {
  if (!open.ok) return open;
  const { unit, menu, now } = open.value;
  const order = unit.state.anyOrder(number);
  return order === undefined ? refused({ code: "no-such-order", number }) : ok(view(unit, menu, order, now));
}
