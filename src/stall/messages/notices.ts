/** Queues the texts that tell customers what happened, in the same write as the events. */

import type { ChatOrder } from "../../chat/talk/ordering-port.ts";
import { type Notice, notify } from "../../chat/wording/notices.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { CrewSentence } from "../../model/orders/crew-sentences.ts";
import type { Refusal } from "../../model/orders/refusal.ts";
import type { Instant } from "../../time/instants.ts";
import { isNotQueued, stageOf } from "../state/orders.ts";
import type { StallEvent } from "../state/shapes/event.ts";
import type { Order } from "../state/shapes/order.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import { conversationOf } from "./kept-turns.ts";
import { chatOrder, orderingPortFor } from "./ordering-port.ts";
import { type Reach, reachOf } from "./reach.ts";
import { queueText } from "./text-queue.ts";

type NoticeType = "ready" | "late" | "short" | "dropped" | "not-dropped" | "paid";
type Telling =
  | { readonly order: Order; readonly type: NoticeType }
  | { readonly order: Order; readonly type: "closing-soon"; readonly closes: Instant };

/** The orders that some events concern, each with the last thing that happened to it. */
function tellings(unit: UnitOfWork, events: readonly StallEvent[]): readonly Telling[] {
  const found = new Map<number, Telling>();
  for (const event of events) {
    if (event.type === "last-orders") {
      for (const order of readyOrders(unit))
        found.set(order.number, { order, type: "closing-soon", closes: event.closes });
      continue;
    }
    const type = typeOf(unit, event);
    const order = type !== null && "number" in event ? unit.state.anyOrder(event.number) : undefined;
    if (type === null || order === undefined) continue;
    // "Runs late" is only sent if nothing more important happened to the order.
    if (type !== "late" || !found.has(order.number)) found.set(order.number, { order, type });
  }
  return [...found.values()];
}

/** The ready orders, whose customers are reminded when last orders are called. */
function readyOrders({ state }: UnitOfWork): readonly Order[] {
  return [...state.orderIndex.ready].flatMap(({ key }) => state.order(Number(key)) ?? []);
}

/** The notice that an event needs; null if its customer need not be told. */
function typeOf({ state }: UnitOfWork, event: StallEvent): NoticeType | null {
  switch (event.type) {
    case "left-out":
    case "changed":
    case "pressed": {
      // Who exchanges a garment stands at the counter.
      if (event.type === "changed" && event.exchanged !== undefined) return null;
      const order = state.order(event.number);
      return order !== undefined && stageOf(order) === "ready" ? "ready" : null;
    }
    case "fell-short":
      return "short";
    case "ran-late":
      return "late";
    case "closed":
      return event.as === "dropped" && event.unexchanged === undefined ? "dropped" : null;
    case "closing-declined":
      return event.byCustomer ? "not-dropped" : null;
    case "paid":
      // If payment comes first, paying starts the wait. At hand-over the customer is at the counter anyway.
      return state.menu?.rules.payment === "before-pressing" ? "paid" : null;
    default:
      return null;
  }
}

const WHY_DROPPED = { "to-pay": "unpaid", "to-claim": "unclaimed", "in-line": "stock-gone" } as const;

function noticeOf(menu: Menu, telling: Telling, chat: ChatOrder): Notice {
  const { order, type } = telling;
  const tracked = menu.rules.payment !== "not-tracked";
  switch (type) {
    case "ready":
      return { type, order: chat, owed: order.due ?? (tracked && order.paid === null ? order.total : 0) };
    case "late":
      return { type, order: chat };
    case "short":
      return { type, order: chat, paid: order.paid !== null };
    case "dropped":
      return {
        type,
        order: chat,
        why:
          order.closing?.byCustomer === true
            ? "as-asked"
            : WHY_DROPPED[order.jobs.find(isNotQueued)?.stage ?? "in-line"],
      };
    case "not-dropped":
      return { type, order: chat };
    case "paid":
      return { type, order: chat };
    case "closing-soon":
      return { type, order: chat, closes: telling.closes };
    default:
      return type satisfies never;
  }
}

/**
 * Puts what the customers must hear into the outbox. A customer on the web reads it in the conversation
 * instead; one who opted out, or whose number never wrote first, is sent nothing.
 */
export function tell(unit: UnitOfWork, menu: Menu, events: readonly StallEvent[], now: Instant): void {
  for (const telling of tellings(unit, events)) {
    const { order, type } = telling;
    const reach = reachOf(unit, order);
    if (reach.by === "nothing") continue;
    const { lane } = reach;
    const text = textFor(unit, menu, reach, noticeOf(menu, telling, chatOrder(unit, menu, order, now)), now);
    if (text === "") continue;
    const delay = type === "ready" ? menu.rules.readyTextSeconds * 1000 : 0;
    // The same thing may happen to an order twice; the journal's sequence number keeps the text ids apart.
    const id = textId(order.number, type, unit.state.version);
    const to = reach.by === "text" ? reach.to : null;
    const whileReady = type === "ready" ? order.number : null;
    const row = { id, customer: order.customer, lane, to, text, whileReady, dueAt: now + delay, own: true };
    if (!queueText(unit, menu, row, now) && whileReady !== null) markToCallOut(unit, whileReady, now);
  }
}

/**
 * The words of a notice in the reader's language; empty if none is wanted. A list in it is noted in the conversation.
 */
function textFor(
  unit: UnitOfWork,
  menu: Menu,
  { by, lane }: Exclude<Reach, { readonly by: "nothing" }>,
  notice: Notice,
  now: Instant,
): string {
  const before = conversationOf(unit, menu, lane);
  const speaker = { customer: lane, takenBy: by, now, chance: 0, fresh: false, instead: false } as const;
  const port = orderingPortFor(unit, menu, speaker, { events: [] });
  const { talk, text } = notify(port, before.talk, notice, by);
  if (text !== "") unit.people.conversations.set(lane, { ...before, talk });
  return text;
}

/**
 * Puts one of the crew's sentences to an order's customer into the outbox, open or over. Returns why that is not done: only
 * a number that has written is texted.
 */
export function tellFromCrew(
  unit: UnitOfWork,
  menu: Menu,
  order: Order,
  said: CrewSentence,
  now: Instant,
): Extract<Refusal, { readonly code: "cannot-text" }>["why"] | null {
  const reach = reachOf(unit, order);
  if (reach.by !== "text")
    return reach.by === "nothing" && reach.why === "opted-out" ? "opted-out" : "not-written";
  const { number, customer } = order;
  const text = textFor(
    unit,
    menu,
    reach,
    { type: "from-crew", order: chatOrder(unit, menu, order, now), said },
    now,
  );
  if (text === "") return "opted-out";
  const row = {
    id: `${number}-${said}-${now}`,
    customer,
    lane: reach.lane,
    to: reach.to,
    text,
    whileReady: null,
    dueAt: now,
    own: true,
  };
  if (!queueText(unit, menu, row, now)) return "day-limit";
  unit.people.atOrders.set(String(number), {
    ...unit.people.atOrder(number),
    texted: { say: said, at: now },
  });
  return null;
}

const textId = (number: number, type: Telling["type"], version: number): string =>
  `${number}-${type}-${version}`;

/** The order a text was about, if that text said it is ready: receipts name texts by their ids. */
export function readyOrderOf(id: string): number | null {
  const number = /^([0-9]{3,6})-ready-[0-9]+$/.exec(id)?.[1];
  return number === undefined ? null : Number(number);
}

/** Puts down what became of the text that says an order is ready. */
export function recordReadyText(
  unit: UnitOfWork,
  number: number,
  how: "delivered" | "failed",
  now: Instant,
): void {
  const { events } = unit.carryOut({ type: "note-told", number, how }, now);
  if (unit.state.menu !== null) tell(unit, unit.state.menu, events, now);
}

/**
 * Marks that the customer of a ready order could not be reached: the press screen shows it, and the crew calls the
 * number out.
 */
export function markToCallOut(unit: UnitOfWork, number: number, now: Instant): void {
  recordReadyText(unit, number, "failed", now);
}
