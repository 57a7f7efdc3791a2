/** What each accepted command answers. */
import type { Menu } from "../model/catalogue.ts";
import { type CustomerId, type JobId, jobId } from "../model/ids.ts";
import type { CrewOrderView, JobView, OrderStage, ToBeTold } from "../model/order.ts";
import type { Bindings } from "../texting/bindings.ts";
import { lastFour } from "../texting/numbers.ts";
import { numberOf } from "../texting/sending.ts";
import type { Books } from "./books.ts";
import type { Instant, Order, StallEvent } from "./facts.ts";
import { jobIn, stageOf } from "./orders.ts";
import { reachOf } from "./reach.ts";
import { orderView } from "./views.ts";
import { placeOf } from "./wait.ts";

/** An order as it stood when it was placed, before its claim is added. */
export type PlacedReply = {
  readonly number: number;
  readonly place: number;
  readonly quoteMinutes: number;
  readonly stage: OrderStage;
  readonly word: string;
  readonly customer: CustomerId;
  readonly total: { readonly amount: number; readonly currency: Menu["currency"] };
  readonly tax: { readonly amount: number; readonly currency: Menu["currency"] };
  /** Set where a number was given that has not written yet. */
  readonly toBeTold?: ToBeTold;
};

const MINUTE = 60_000;

/** Placing answers with the promise itself, not with a fresh estimate. */
export function placedReply(
  books: Books,
  menu: Menu,
  events: readonly StallEvent[],
  now: Instant,
): PlacedReply {
  const placed = events.find((event) => event.type === "placed");
  if (placed === undefined) throw new Error("an accepted order left no event");
  const { order } = placed;
  const money = (amount: number) => ({ amount, currency: menu.currency });
  return {
    number: order.number,
    place: placeOf(books.state, order),
    quoteMinutes:
      order.dueBy === null
        ? orderView(books.state, menu, order, now).quoteMinutes
        : Math.round((order.dueBy - now) / MINUTE),
    stage: stageOf(order),
    word: order.word,
    customer: order.customer,
    total: money(order.total),
    tax: money(order.tax),
  };
}

export type JobReply = {
  readonly job: JobId;
  readonly stage: JobView["stage"];
  readonly number: number;
  readonly orderStage: OrderStage;
};

export function jobReply(books: Books, number: number, n: number): JobReply {
  const order = books.state.order(number);
  const job = jobIn(order, n);
  if (order === undefined || job === undefined)
    throw new Error(`garment ${number}-${n} is gone after its own command`);
  return { job: jobId(number, n), stage: job.stage, number, orderStage: stageOf(order) };
}

/** How the customer hears of it, as far as this stall knows. */
function toldOf(books: Books, order: Order): CrewOrderView["told"] {
  if (order.told !== null) return order.told;
  const reach = reachOf(books, order);
  if (reach.by === "nothing") return reach.why;
  const waiting = books.people.outbox.of(reach.lane).some(({ whileReady }) => whileReady === order.number);
  if (waiting) return "waiting";
  return stageOf(order) === "ready" ? "sent" : "nothing";
}

export function crewOrderView(books: Books, menu: Menu, order: Order, now: Instant): CrewOrderView {
  const person = books.people.person(order.customer);
  const sumOf = (amount: number | undefined) =>
    amount === undefined ? null : { amount, currency: menu.currency };
  return {
    ...orderView(books.state, menu, order, now),
    takenBy: order.takenBy,
    name: person.name,
    phone: person.phone && lastFour(person.phone),
    told: toldOf(books, order),
    paidTo: order.paid?.by ?? null,
    giveBack: sumOf(order.giveBack),
    gaveBack: sumOf(order.gaveBack),
  };
}

/** What a customer whose number never wrote has to text to be told; null where there is nothing to text. */
export function toBeTold(books: Books, order: Order, bindings: Bindings): ToBeTold | null {
  const { identity } = books.state;
  const sending = books.people.sending.get("");
  const person = books.people.person(order.customer);
  if (person.phone === null || identity === null || sending === undefined) return null;
  if (reachOf(books, order).by === "text") return null;
  const to = numberOf(sending.from, bindings);
  return to === null ? null : { text: sending.shared ? identity.stall : "status", to };
}

/** A customer's latest order, as a conversation shows it. */
export type Standing = Pick<PlacedReply, "number" | "place" | "quoteMinutes" | "stage" | "word">;

export function standingOf(books: Books, customer: CustomerId, now: Instant): Standing | null {
  const { menu } = books.state;
  const number = books.people.person(customer).lastOrder;
  const order = number === null ? undefined : books.state.anyOrder(number);
  if (menu === null || order === undefined) return null;
  const { place, quoteMinutes, stage, word } = orderView(books.state, menu, order, now);
  return { number: order.number, place, quoteMinutes, stage, word };
}
