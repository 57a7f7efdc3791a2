/** One turn of a customer's conversation, and what is kept of it. */
import { converse } from "../chat/converse.ts";
import { bucketKey } from "../fair/bucket.ts";
import type { CustomerId } from "../model/ids.ts";
import type { PhoneNumber } from "../model/order.ts";
import type { WriteRefusal } from "../model/refusal.ts";
import type { ChatMessage } from "../model/text.ts";
import type { Language } from "../model/words.ts";
import type { Books } from "./books.ts";
import { counterFor, type Doing } from "./counter.ts";
import type { Instant } from "./facts.ts";
import type { Conversation, Person, SaidTurn } from "./people.ts";
import { conversationOf, tell } from "./telling.ts";

/** How many turns are kept: enough for a page to show and for a late repeat to be known. */
const KEPT_TURNS = 40;

export type Spoken = {
  readonly id: string;
  readonly text: string;
  readonly customer: CustomerId;
  /** The number it came from; null on the web. */
  readonly phone: PhoneNumber | null;
  readonly language?: Language;
  readonly chance: number;
};

export type Heard = {
  readonly replies: readonly string[];
  readonly optedOut: boolean;
  /** False where the message was heard before and the answer is the recorded one. */
  readonly fresh: boolean;
};

/** Answers a message, or gives the recorded answer where the very same one was answered before. */
export function hear(books: Books, spoken: Spoken, now: Instant): Heard | WriteRefusal {
  const { menu } = books.state;
  if (menu === null) return { replies: [], optedOut: false, fresh: false };
  const { customer, phone } = spoken;
  const before = conversationOf(books, menu, customer);
  const earlier = before.turns.find(({ id }) => id === spoken.id);
  const person = books.people.person(customer);
  if (earlier !== undefined) {
    if (earlier.text !== spoken.text) return { code: "key-reused" };
    return { replies: earlier.replies, optedOut: person.optedOut, fresh: false };
  }
  const doing: Doing = { events: [] };
  const channel = phone === null ? "web" : "text";
  const counter = counterFor(books, menu, { customer, takenBy: channel, now, chance: spoken.chance }, doing);
  const language = spoken.language === undefined ? {} : { language: spoken.language };
  const turn = converse(counter, before.talk, { text: spoken.text, channel, ...language });
  const placed = doing.events.findLast((event) => event.type === "placed")?.order.number ?? null;
  const optedOut = turn.optOut === true ? true : turn.optIn === true ? false : person.optedOut;
  const after: Person = {
    ...person,
    phone: phone ?? person.phone,
    wroteFirst: person.wroteFirst || phone !== null,
    optedOut,
    lastOrder: placed ?? person.lastOrder,
  };
  if (!samePerson(person, after)) books.people.persons.set(customer, after);
  remember(
    books,
    customer,
    { ...before, talk: turn.talk },
    {
      id: spoken.id,
      text: spoken.text,
      replies: turn.replies,
      order: placed,
    },
  );
  countTexts(books, now, 1, phone === null ? turn.replies.length : 0);
  // Its own drop is answered in the reply; the others' news goes out as usual.
  tell(
    books,
    menu,
    doing.events.filter((event) => event.type !== "closed"),
    now,
  );
  return { replies: turn.replies, optedOut, fresh: true };
}

const samePerson = (one: Person, other: Person): boolean =>
  one.phone === other.phone &&
  one.wroteFirst === other.wroteFirst &&
  one.optedOut === other.optedOut &&
  one.lastOrder === other.lastOrder;

/** Adds a turn to what is kept of a conversation. */
export function remember(
  books: Books,
  customer: CustomerId,
  conversation: Conversation,
  turn: SaidTurn,
): void {
  books.people.conversations.set(customer, {
    ...conversation,
    said: conversation.said + 1,
    turns: [...conversation.turns, turn].slice(-KEPT_TURNS),
  });
}

/** The replies to a text, to be sent as texts themselves. */
export function reply(books: Books, spoken: Spoken, replies: readonly string[], now: Instant): void {
  replies.forEach((text, index) => {
    const id = `${spoken.id}-${index + 1}`;
    const row = { id, customer: spoken.customer, to: spoken.phone, text, whileReady: null };
    books.people.out.set(id, { ...row, dueAt: now, attempts: 0, since: now });
  });
}

/** What was said after a given turn, as a page shows it. */
export function messagesAfter(conversation: Conversation, after: number) {
  const first = conversation.said - conversation.turns.length + 1;
  const messages = conversation.turns.flatMap((turn, index): ChatMessage[] => {
    const sequence = first + index;
    if (sequence <= after) return [];
    const own: ChatMessage[] =
      turn.text === null ? [] : [{ sequence, id: turn.id, from: "customer", text: turn.text }];
    const replies = turn.replies.map(
      (text, n): ChatMessage => ({ sequence, id: `${turn.id}-${n + 1}`, from: "stall", text }),
    );
    return [...own, ...replies];
  });
  return { messages, last: conversation.said };
}

export function countTexts(books: Books, now: Instant, textsIn: number, textsOut: number): void {
  const key = bucketKey(now);
  const before = books.people.textCounts.get(key) ?? { textsIn: 0, textsOut: 0 };
  books.people.textCounts.set(key, {
    textsIn: before.textsIn + textsIn,
    textsOut: before.textsOut + textsOut,
  });
}
