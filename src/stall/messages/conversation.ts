/** One turn of a customer's conversation, and what is kept of it. */

import { converse } from "../../chat/converse.ts";
import { askedLately } from "../../chat/talk/asks.ts";
import { withoutCardNumbers } from "../../model/basics/card-number.ts";
import type { CustomerId } from "../../model/basics/ids.ts";
import { ok, type Result, refused } from "../../model/basics/result.ts";
import type { Language } from "../../model/basics/words.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { ChatMessage } from "../../model/orders/chat.ts";
import type { PhoneNumber } from "../../model/orders/order.ts";
import type { WriteRefusal } from "../../model/orders/refusal.ts";
import { bucketKey } from "../../time/bucket.ts";
import type { Instant } from "../../time/instants.ts";
import type { Conversation, Person, TextCounts } from "../storage/people.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import { ordersOf } from "./confirm-number.ts";
import { forget } from "./erasing.ts";
import { conversationOf, remember } from "./kept-turns.ts";
import { tell } from "./notices.ts";
import { orderingPortFor, type TurnEvents } from "./ordering-port.ts";
import { dropQueued, queueText } from "./text-queue.ts";
import { noteAddress } from "./unclaimed.ts";

export type Spoken = {
  readonly id: string;
  readonly text: string;
  readonly customer: CustomerId;
  /** Keyed hash of the number it came from: leads to the customer, who is `customer` if the number is new here. */
  readonly number?: CustomerId;
  /** The number it came from; null on the web. */
  readonly phone: PhoneNumber | null;
  readonly language?: Language;
  /** Keyed hash of the address it came from on the web. */
  readonly address?: string;
  readonly chance: number;
};

/** What the fair sends along with a text. */
export type FromFair = {
  /** Whether the number has opted out of texts, according to the fair. */
  readonly stopped: boolean;
  /** The gateway's version as the stall should have it. */
  readonly gateway: number;
  /** Replies go into the answer to the gateway instead of out as texts. */
  readonly inAnswer: boolean;
};

export type Answered = {
  readonly replies: readonly string[];
  readonly optedOut: boolean;
  /** False if the message was answered before and this is the recorded answer. */
  readonly fresh: boolean;
  /** Whether the message was STOP or START. */
  readonly answersStop: boolean;
};

/** Answers a message. A message that was answered before gets its recorded answer. */
export function answerMessage(unit: UnitOfWork, given: Spoken, now: Instant): Result<Answered, WriteRefusal> {
  // What a customer typed is kept for a while; a card's number among it never is.
  const spoken = { ...given, text: withoutCardNumbers(given.text) };
  const { menu } = unit.state;
  if (menu === null) return ok({ replies: [], optedOut: false, fresh: false, answersStop: false });
  const { customer, phone } = spoken;
  const before = conversationOf(unit, menu, customer);
  const earlier = before.turns.find(({ id }) => id === spoken.id);
  const person = unit.people.person(customer);
  if (earlier !== undefined) {
    if (earlier.text !== spoken.text) return refused({ code: "key-reused" });
    return ok({ replies: earlier.replies, optedOut: person.optedOut, fresh: false, answersStop: false });
  }
  const doing: TurnEvents = { events: [] };
  const channel = phone === null ? "web" : "text";
  // A rehearsal shows what a text would say, without one being sent.
  const wording = unit.state.identity?.rehearsal === true ? "text" : channel;
  const fresh = !askedLately(before.talk, now);
  const instead = before.talk.step.at === "instead";
  const { number } = spoken;
  const from = phone === null ? {} : { phone, ...(number === undefined ? {} : { number }) };
  const speaker = {
    customer,
    ...from,
    takenBy: channel,
    now,
    chance: spoken.chance,
    fresh,
    instead,
    ...(spoken.address === undefined ? {} : { address: spoken.address }),
  } as const;
  const port = orderingPortFor(unit, menu, speaker, doing);
  const language = spoken.language === undefined ? {} : { language: spoken.language };
  const turn = converse(port, before.talk, { text: spoken.text, channel: wording, ...language });
  const placed = doing.events.findLast((event) => event.type === "placed")?.order.number ?? null;
  if (placed !== null && spoken.address !== undefined) noteAddress(unit, placed, spoken.address);
  const optedOut = turn.optOut === true ? true : turn.optIn === true ? false : person.optedOut;
  // Confirming a number changed it.
  const since = unit.people.person(customer);
  const after: Person = {
    ...since,
    phone: phone ?? since.phone,
    wroteFirst: since.wroteFirst || phone !== null,
    optedOut,
    lastOrder: placed ?? since.lastOrder,
    ...(number === undefined ? {} : { number }),
  };
  if (turn.erase === true) {
    forget(unit, customer);
    countTexts(unit, now, { textsIn: 1, textsOut: phone === null ? turn.replies.length : 0 });
    return ok({ replies: turn.replies, optedOut, fresh: true, answersStop: false });
  }
  if (!samePerson(since, after)) unit.people.persons.set(customer, after);
  remember(
    unit,
    customer,
    { ...before, talk: turn.talk },
    {
      id: spoken.id,
      text: spoken.text,
      replies: turn.replies,
      order: placed,
    },
  );
  // What is sent as a text is counted when it has been sent.
  countTexts(unit, now, { textsIn: 1, textsOut: phone === null ? turn.replies.length : 0 });
  if (turn.optOut === true && phone !== null) dropQueued(unit, customer);
  // Its own drop is answered in the reply; the others' news goes out as usual.
  tell(
    unit,
    menu,
    doing.events.filter((event) => event.type !== "closed"),
    now,
  );
  const answersStop = turn.optOut === true || turn.optIn === true;
  return ok({ replies: turn.replies, optedOut, fresh: true, answersStop });
}

const samePerson = (one: Person, other: Person): boolean =>
  one.phone === other.phone &&
  one.wroteFirst === other.wroteFirst &&
  one.optedOut === other.optedOut &&
  one.number === other.number &&
  one.lastOrder === other.lastOrder;

/** The replies to a text, to be sent as texts themselves. */
export function reply(
  unit: UnitOfWork,
  menu: Menu,
  spoken: Spoken,
  replies: readonly string[],
  now: Instant,
  answersStop = false,
): void {
  const { customer, phone } = spoken;
  replies.forEach((text, index) => {
    const id = `${spoken.id}-${index + 1}`;
    const own = ordersOf(unit, customer).length > 0;
    const stop = answersStop ? { answersStop } : {};
    queueText(
      unit,
      menu,
      { id, customer, lane: customer, to: phone, text, whileReady: null, dueAt: now, own, ...stop },
      now,
    );
  });
}

/** The messages after a given turn, as a page shows them. */
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

export function countTexts(unit: UnitOfWork, now: Instant, more: Partial<Omit<TextCounts, "at">>): void {
  const key = bucketKey(now);
  const before = unit.people.textCounts.get(key) ?? { textsIn: 0, textsOut: 0, segmentsOut: 0 };
  unit.noticed.textsAt = now;
  unit.people.textCounts.set(key, {
    at: now,
    textsIn: before.textsIn + (more.textsIn ?? 0),
    textsOut: before.textsOut + (more.textsOut ?? 0),
    segmentsOut: before.segmentsOut + (more.segmentsOut ?? 0),
  });
}
