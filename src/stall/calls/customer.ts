/** What customers ask of a stall: to order, and how an order stands. */

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
import type { Order } from "../state/facts.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import type { Transactions } from "../transact.ts";
import { type PlacedReply, placedReply, toBeTold } from "./replies.ts";

export type PlaceRequest = {
  readonly command: Omit<Extract<Command, { readonly type: "place" }>, "chance">;
  readonly name: string | null;
  readonly phone: PhoneNumber | null;
  /** Who of the crew took the payment, if it was paid in the same step. */
  readonly paidTo?: string;
  /** The number's keyed hash. */
  readonly number: CustomerId | null;
  /** Keyed hash of the address it came from; null for the crew. */
  readonly address: string | null;
  /** Whether nobody knows who orders: no token, no key. */
  readonly isUnknown: boolean;
  /** The crew key's generation if the crew keys it in; null for a customer. */
  readonly generation: number | null;
};

/** A whole order at once, by the crew for a walk-up or by a customer. */
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
    // The crew has the number from whoever stands there, so the order is that number's own.
    const customer =
      number !== null && generation !== null
        ? customerOfNumber(unit, number, command.customer)
        : command.customer;
    const { menu } = unit.state;
    const { address, isUnknown } = request;
    const before = address === null ? null : unclaimedAt(unit, address);
    const most = menu?.rules.openOrdersPerSender ?? 0;
    // All who order without a token from one address are one sender.
    if (isUnknown && before !== null && menu !== null && before.keylessOrders >= most)
      return refused({ code: "too-many", most, of: "open-orders" });
    // A customer with a token is counted once a piece; nobody can know that of a stranger, whose refusals are not counted.
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
    // Sent again after its key was forgotten: it stands as it was noted the first time.
    if (found === undefined) return ok(placed);
    notePlaced(unit, order.number, command.lines);
    if (command.paid !== undefined) noteTakers(unit, events, request.paidTo ?? null, now);
    if (address !== null) noteAddress(unit, placed.number, address, isUnknown);
    const { name, phone } = request;
    const answered = (): PlacedReply => {
      const tell = toBeTold(unit, order, bindings);
      return tell === null ? placed : { ...placed, toBeTold: tell };
    };
    // Nobody will ask after a walk-up who gave no name and has no token.
    const unknown = name === null && phone === null && request.generation !== null;
    if (unknown) return ok(answered());
    const person = unit.people.person(customer);
    unit.people.persons.set(customer, {
      ...person,
      name: name ?? person.name,
      // The crew has the number from whoever stands there; one typed on the web has to confirm it first.
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

/** One order, seen in one way; a number that no order has is refused. */
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
