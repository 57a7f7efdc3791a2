/** The answer to each accepted command. */

import { type CustomerId, type JobId, jobId } from "../../model/basics/ids.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import { MOST_OPEN_SHOWN, type OpenOrder, type OpenOrders } from "../../model/orders/open-orders.ts";
import type { CrewOrderView, OrderStage, PhoneNumber, ToBeTold } from "../../model/orders/order.ts";
import type { JobView } from "../../model/orders/queue.ts";
import type { Bindings } from "../../texting/bindings.ts";
import { numberOf } from "../../texting/mapping/own-number.ts";
import { lastFour } from "../../texting/numbers.ts";
import { type Instant, iso, isoOrNull, MINUTE } from "../../time/instants.ts";
import { minutesLeft, placeOf } from "../line/quote.ts";
import { ownNumber, reachOf } from "../messages/reach.ts";
import { stoppedSince } from "../state/opening.ts";
import { isUnclaimed, jobIn, stageOf, unpaidUntil } from "../state/orders.ts";
import type { Order } from "../state/shapes/order.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import { undoableOf } from "./counter/undoable.ts";
import { orderFacts, orderView } from "./views.ts";

/** An order at the moment it was placed, before its claim is added. */
export type PlacedReply = {
  readonly number: number;
  readonly place: number;
  readonly quoteMinutes: number;
  readonly stage: OrderStage;
  readonly word: string;
  readonly customer: CustomerId;
  readonly total: { readonly amount: number; readonly currency: Menu["currency"] };
  readonly tax: { readonly amount: number; readonly currency: Menu["currency"] };
  readonly taxInPrice: boolean;
  /** The number of garments that lack stock. */
  readonly short?: number;
  /** What the customer can text to get news of the order by text. */
  readonly toBeTold?: ToBeTold;
};

/** Answers with the wait that was promised, not with a new estimate. */
export function placedReply(unit: UnitOfWork, menu: Menu, order: Order, now: Instant): PlacedReply {
  const money = (amount: number) => ({ amount, currency: menu.currency });
  const short = order.jobs.filter(({ stage }) => stage === "short").length;
  return {
    number: order.number,
    place: placeOf(unit.state, order),
    quoteMinutes:
      order.dueBy === null
        ? orderView(unit.state, menu, order, now).quoteMinutes
        : Math.max(0, Math.round((order.dueBy - now) / MINUTE)),
    stage: stageOf(order),
    word: order.word,
    customer: order.customer,
    total: money(order.total),
    tax: money(order.tax),
    taxInPrice: order.taxInPrice ?? false,
    ...(short === 0 ? {} : { short }),
  };
}

export type JobReply = {
  readonly job: JobId;
  readonly stage: JobView["stage"];
  readonly number: number;
  readonly orderStage: OrderStage;
};

export function jobReply(unit: UnitOfWork, number: number, n: number): JobReply {
  const order = unit.state.order(number);
  const job = jobIn(order, n);
  if (order === undefined || job === undefined)
    throw new Error(`garment ${number}-${n} is gone after its own command`);
  return { job: jobId(number, n), stage: job.stage, number, orderStage: stageOf(order) };
}

/** How the customer learns that the order is ready, as far as this stall knows. */
function readyTextStatus(unit: UnitOfWork, order: Order): CrewOrderView["told"] {
  if (order.told !== null) return order.told;
  // Its garments are of the rack, and its customer stands at the counter: no text goes out.
  if (order.atOnce === true) return "call-out";
  const reach = reachOf(unit, order);
  if (reach.by === "nothing") return reach.why;
  const waiting = unit.people.outbox.of(reach.lane).some(({ whileReady }) => whileReady === order.number);
  if (waiting) return "waiting";
  return stageOf(order) === "ready" ? "sent" : "nothing";
}

/** An order as the crew sees it; `bindings` hold the number that its customer can text. */
export function crewOrderView(
  unit: UnitOfWork,
  menu: Menu,
  order: Order,
  now: Instant,
  bindings: Bindings,
): CrewOrderView {
  return {
    ...openOrder(unit, menu, order, bindings),
    place: placeOf(unit.state, order),
    quoteMinutes: minutesLeft(unit.state, menu, order, now),
  };
}

function openOrder(unit: UnitOfWork, menu: Menu, order: Order, bindings: Bindings): OpenOrder {
  const tell = toBeTold(unit, order, bindings);
  const person = unit.people.person(order.customer);
  const wish = unit.people.wishOf(order.number);
  const { texted } = unit.people.atOrder(order.number);
  const notes = order.jobs.flatMap(({ n }) => {
    const words = unit.people.noteOf(order.number, n);
    return words === undefined ? [] : [{ job: jobId(order.number, n), words }];
  });
  const undoable = undoableOf(unit.state, menu, order);
  const sumOf = (amount: number | undefined) =>
    amount === undefined ? null : { amount, currency: menu.currency };
  return {
    ...orderFacts(menu, order),
    takenBy: order.takenBy,
    unclaimed: order.closed === null && isUnclaimed(order),
    name: person.name,
    phone: lastFourOf(unit, order),
    told: readyTextStatus(unit, order),
    dropsAt: isoOrNull(unpaidUntil(menu, order)),
    paidTo: order.paid === null ? null : (unit.people.atOrder(order.number).paidTo ?? null),
    giveBack: sumOf(order.giveBack),
    gaveBack: sumOf(order.gaveBack),
    ...(undoable === undefined ? {} : { undoable }),
    ...(wish === undefined ? {} : { wish }),
    ...(notes.length === 0 ? {} : { notes }),
    ...(tell === null ? {} : { toBeTold: tell }),
    ...(reachOf(unit, order).by === "text" ? { mayText: true } : {}),
    ...(texted === undefined ? {} : { texted: { say: texted.say, at: iso(texted.at) } }),
  };
}

/** The open orders, oldest first; only the latest if there are too many to show. */
export function openOrders(unit: UnitOfWork, menu: Menu, bindings: Bindings): OpenOrders {
  const open = [...unit.state.orders.values()].sort(
    (one, other) => one.placedAt - other.placedAt || one.number - other.number,
  );
  const shown = open.slice(-MOST_OPEN_SHOWN);
  return {
    version: unit.state.version,
    orders: shown.map((order) => openOrder(unit, menu, order, bindings)),
    more: open.length - shown.length,
  };
}

/** The number at which the crew can reach an order's customer; null if none is known. */
export function phoneOf({ people }: UnitOfWork, { number, customer }: Order): PhoneNumber | null {
  return people.atOrder(number).confirmed?.phone ?? ownNumber(people.person(customer));
}

function lastFourOf(unit: UnitOfWork, order: Order): string | null {
  const phone = phoneOf(unit, order);
  return phone === null ? null : lastFour(phone);
}

/**
 * What a customer has to text to get news by text, and where to: the order's code. The answer does not depend on
 * whether a number was typed or has written here. Null if there is nothing to text.
 */
export function toBeTold(unit: UnitOfWork, order: Order, bindings: Bindings): ToBeTold | null {
  const { identity } = unit.state;
  const sending = unit.people.sending.get("");
  if (identity === null || sending === undefined) return null;
  const to = numberOf(sending.from, bindings);
  if (to === null || to === "") return null;
  if (unit.state.order(order.number) === undefined || identity.rehearsal === true) return null;
  if (unit.people.atOrder(order.number).confirmed !== undefined) return null;
  // A web order's reply must not reveal whether the typed number has written here. The crew has a number from the
  // customer.
  if (order.takenBy !== "web" && reachOf(unit, order).by === "text") return null;
  return { text: `${identity.stall} ${order.number} ${order.word}`.toUpperCase(), to };
}

/** A customer's latest order, as a conversation shows it. */
export type LatestOrder = Pick<
  PlacedReply,
  "number" | "place" | "quoteMinutes" | "stage" | "word" | "total" | "tax" | "taxInPrice" | "toBeTold"
> & { readonly paused: boolean };

/** A customer's latest order; `bindings` hold the number to text, for a page that shows the order's code. */
export function latestOrderOf(
  unit: UnitOfWork,
  customer: CustomerId,
  now: Instant,
  bindings?: Bindings,
): LatestOrder | null {
  const { menu } = unit.state;
  const number = unit.people.person(customer).lastOrder;
  const order = number === null ? undefined : unit.state.anyOrder(number);
  if (menu === null || order === undefined) return null;
  const { place, quoteMinutes, stage, word, total, tax, taxInPrice } = orderView(
    unit.state,
    menu,
    order,
    now,
  );
  const tell = bindings === undefined ? null : toBeTold(unit, order, bindings);
  const paused = stoppedSince(unit.state.status) !== null;
  const standing = { number: order.number, place, quoteMinutes, stage, word, total, tax, taxInPrice, paused };
  return tell === null ? standing : { ...standing, toBeTold: tell };
}
