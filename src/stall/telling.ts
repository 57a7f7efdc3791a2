/** What the customers must be told of what happened, put into the outbox with the same write. */
import type { ChatOrder } from "../chat/counter.ts";
import { type Notice, notify } from "../chat/notify.ts";
import { newTalk } from "../chat/talk.ts";
import type { Menu } from "../model/catalogue.ts";
import type { CustomerId } from "../model/ids.ts";
import type { Books } from "./books.ts";
import { chatOrder, counterFor } from "./counter.ts";
import type { Instant, Order, StallEvent } from "./facts.ts";
import { stageOf } from "./orders.ts";
import type { Conversation } from "./people.ts";

type Kind = "ready" | "late" | "short" | "dropped" | "paid";
type Telling = { readonly order: Order; readonly kind: Kind };

/** Whom some events concern, and how: each order is told of the last thing that happened to it. */
function tellings(books: Books, events: readonly StallEvent[]): readonly Telling[] {
  const found = new Map<number, Telling>();
  for (const event of events) {
    const kind = kindOf(books, event);
    const order = kind !== null && "number" in event ? books.state.anyOrder(event.number) : undefined;
    if (kind === null || order === undefined) continue;
    // That it runs late is said where nothing weightier is.
    if (kind !== "late" || !found.has(order.number)) found.set(order.number, { order, kind });
  }
  return [...found.values()];
}

/** What an event is to the customer of its order; null where it is nothing to be told of. */
function kindOf({ state }: Books, event: StallEvent): Kind | null {
  switch (event.type) {
    case "pressed": {
      const order = state.order(event.number);
      return order !== undefined && stageOf(order) === "ready" ? "ready" : null;
    }
    case "fell-short":
      return "short";
    case "ran-late":
      return "late";
    case "closed":
      return event.as === "dropped" ? "dropped" : null;
    case "paid":
      // Where payment comes first it starts the wait; at hand-over the customer stands there anyway.
      return state.menu?.rules.payment === "before-pressing" ? "paid" : null;
    default:
      return null;
  }
}

function noticeOf(menu: Menu, { order, kind }: Telling, chat: ChatOrder): Notice {
  const tracked = menu.rules.payment !== "not-tracked";
  switch (kind) {
    case "ready":
      return { kind, order: chat, owed: tracked && order.paid === null ? order.total : 0 };
    case "late":
      return { kind, order: chat };
    case "short":
      return { kind, order: chat, paid: order.paid !== null };
    case "dropped":
      return {
        kind,
        order: chat,
        why: order.jobs.some(({ stage }) => stage === "to-pay") ? "unpaid" : "stock-gone",
      };
    case "paid":
      return { kind, order: chat };
    default:
      return kind satisfies never;
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
  for (const telling of tellings(books, events)) {
    const { order, kind } = telling;
    const { customer, takenBy } = order;
    const person = books.people.person(customer);
    const reachable = takenBy === "web" || (person.phone !== null && person.wroteFirst && !person.optedOut);
    if (!reachable) continue;
    const before = conversationOf(books, menu, customer);
    const channel = takenBy === "web" ? "web" : "text";
    const counter = counterFor(books, menu, { customer, takenBy: channel, now, chance: 0 }, { events: [] });
    const notice = noticeOf(menu, telling, chatOrder(books, menu, order, now));
    const { talk, text } = notify(counter, before.talk, notice, channel);
    if (text === "") continue;
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
