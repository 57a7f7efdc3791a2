/** What the customers must be told of what happened, put into the outbox with the same write. */
import type { ChatOrder } from "../chat/counter.ts";
import type { Notice } from "../chat/notify.ts";
import { notify } from "../chat/notify.ts";
import { newTalk } from "../chat/talk.ts";
import type { Menu } from "../model/catalogue.ts";
import type { CustomerId } from "../model/ids.ts";
import type { Books } from "./books.ts";
import { chatOrder, counterFor } from "./counter.ts";
import type { Instant, Order, StallEvent } from "./facts.ts";
import { stageOf } from "./orders.ts";
import type { Conversation } from "./people.ts";

type Telling = { readonly order: Order; readonly kind: Exclude<Notice["kind"], "closing-soon"> };

/** Whom some events concern, and how: each order is told of the last thing that happened to it. */
function tellings(books: Books, events: readonly StallEvent[]): readonly Telling[] {
  const found = new Map<number, Telling>();
  for (const event of events) {
    if (event.type === "pressed" || event.type === "fell-short") {
      const order = books.state.order(event.number);
      if (order === undefined) continue;
      if (event.type === "fell-short") found.set(order.number, { order, kind: "short" });
      else if (stageOf(order) === "ready") found.set(order.number, { order, kind: "ready" });
    }
    if (event.type === "closed" && event.as === "dropped") {
      const order = books.state.anyOrder(event.number);
      if (order !== undefined) found.set(order.number, { order, kind: "dropped" });
    }
  }
  return [...found.values()];
}

/** What the customer is told, with the money it concerns. */
function noticeOf(kind: Telling["kind"], { paid, total }: Order, order: ChatOrder, menu: Menu): Notice {
  switch (kind) {
    case "ready":
      return { kind, order, owed: paid !== null || menu.rules.payment === "not-tracked" ? 0 : total };
    case "short":
      return { kind, order, paid: paid !== null };
    case "dropped":
      return { kind, order, why: "unpaid" };
    default:
      return { kind, order };
  }
}

export function conversationOf(books: Books, menu: Menu, customer: CustomerId): Conversation {
  return books.people.conversations.get(customer) ?? { talk: newTalk(menu.language), said: 0, turns: [] };
}

/**
 * Puts what the customers must hear into the outbox. A customer on the web reads it in the conversation
 * instead; one who opted out, or whose number never wrote first, is sent nothing.
 */
export function tell(books: Books, menu: Menu, events: readonly StallEvent[], now: Instant): void {
  for (const { order, kind } of tellings(books, events)) {
    const { customer, takenBy } = order;
    const person = books.people.person(customer);
    const reachable = takenBy === "web" || (person.phone !== null && person.wroteFirst && !person.optedOut);
    if (!reachable) continue;
    const before = conversationOf(books, menu, customer);
    const speaker = { customer, takenBy: takenBy === "web" ? "web" : "text", now, chance: 0 } as const;
    const counter = counterFor(books, menu, speaker, { events: [] });
    const notice = noticeOf(kind, order, chatOrder(books, menu, order, now), menu);
    const { talk, text } = notify(counter, before.talk, notice, speaker.takenBy);
    books.people.conversations.set(customer, { ...before, talk });
    const delay = kind === "ready" ? menu.rules.readyTextSeconds * 1000 : 0;
    // The same thing may happen to an order twice; the journal's sequence tells the texts apart.
    const id = `${order.number}-${kind}-${books.state.version}`;
    const row = { id, customer, text, attempts: 0, since: now, dueAt: now + delay };
    books.people.out.set(id, {
      ...row,
      to: takenBy === "web" ? null : person.phone,
      whileReady: kind === "ready" ? order.number : null,
    });
  }
}
