/** The stall's conversations, by text and on the web, with the fair's opt-outs. */

import { asksSilence } from "../../chat/converse.ts";
import { fitted, type Say } from "../../chat/fitting/fit.ts";
import { shownBy } from "../../chat/talk/shown.ts";
import { sentencesOf } from "../../chat/wording/languages.ts";
import type { Sentences } from "../../chat/wording/shape.ts";
import type { CustomerId } from "../../model/basics/ids.ts";
import { ok } from "../../model/basics/result.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { ChatMessage, PeopleKept, Shown } from "../../model/orders/chat.ts";
import type { Answer } from "../../model/orders/refusal.ts";
import type { Bindings } from "../../texting/bindings.ts";
import { type Instant, isoOrNull } from "../../time/instants.ts";
import { answerMessage, type FromFair, messagesAfter, reply, type Spoken } from "../messages/conversation.ts";
import { forget, keptAgain, whenErased } from "../messages/erasing.ts";
import { conversationOf, remember } from "../messages/kept-turns.ts";
import { customerOfNumber, knownCustomer } from "../messages/known-numbers.ts";
import { readyOrderOf, recordReadyText } from "../messages/notices.ts";
import { setStopped } from "../messages/text-queue.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import type { Transactions } from "../transact.ts";
import { type LatestOrder, latestOrderOf } from "./replies.ts";

export type ChatAnswer = {
  readonly replies: readonly string[];
  readonly order: LatestOrder | null;
  readonly optedOut: boolean;
  /** Pictures and sizes to tap, on the web only. */
  readonly shows?: Shown;
};
export type ChatPage = {
  readonly messages: ChatMessage[];
  readonly last: number;
  readonly order: LatestOrder | null;
  readonly shows: Shown;
};
export type Said = Omit<Spoken, "chance">;
export type ListedStall = {
  readonly number: number;
  readonly name: string;
  readonly minutes?: number | null;
};

/** Answers one message of a customer on the web. */
export function chat(transactions: Transactions, said: Said, bindings: Bindings): Answer<ChatAnswer> {
  const open = transactions.readAsCustomer(() => null);
  if (!open.ok) return open;
  return transactions.transact((unit, now) => {
    const { menu } = unit.state;
    const heard = answerMessage(unit, { ...said, chance: transactions.chance() }, now);
    if (!heard.ok) return heard;
    keptAgain(unit, now);
    const { replies, optedOut } = heard.value;
    const order = latestOrderOf(unit, said.customer, now, bindings);
    const shows = menu === null ? {} : { shows: shownBy(conversationOf(unit, menu, said.customer).talk) };
    return ok({ replies, optedOut, order, ...shows });
  });
}

/** Answers one text. Replies go out as texts, once only, however often the text is delivered to us. */
export function text(transactions: Transactions, said: Said, fair: FromFair): Answer<ChatAnswer> {
  return answerOnce(transactions, said, fair, (unit, menu, now, byCustomer) => {
    const to = transactions.movedTo;
    return to === null
      ? hearText(transactions, unit, menu, byCustomer, fair, now)
      : tell(transactions, unit, menu, byCustomer, fair, now, ({ movedTo }, stall) => movedTo({ stall, to }));
  });
}

/** Asks which stall a text is meant for, on behalf of all stalls that it might mean. */
export function askWhich(
  transactions: Transactions,
  given: Said,
  fair: FromFair,
  stalls: readonly ListedStall[],
): Answer<ChatAnswer> {
  const items = stalls.map(({ number, name, minutes = null }) => ({ number, name, minutes }));
  return answerOnce(transactions, given, fair, (unit, menu, now, said) =>
    tell(transactions, unit, menu, said, fair, now, ({ whichStall }) => whichStall({ items })),
  );
}

/** Answers any text with one fixed sentence, except STOP and START, which work as usual. */
function tell(
  transactions: Transactions,
  unit: UnitOfWork,
  menu: Menu,
  said: Said,
  fair: FromFair,
  now: Instant,
  sentence: (sentences: Sentences, stall: string) => Say,
): Answer<ChatAnswer> {
  const conversation = conversationOf(unit, menu, said.customer);
  const { talk } = conversation;
  if (asksSilence(menu, talk, said.text)) return hearText(transactions, unit, menu, said, fair, now);
  const say = sentence(sentencesOf({ menu }, talk), unit.state.identity?.name ?? "");
  const replies = talk.optedOut ? [] : [fitted(say, false)];
  remember(unit, said.customer, conversation, { id: said.id, text: said.text, replies, order: null });
  if (!fair.inAnswer) reply(unit, menu, { ...said, chance: 0 }, replies, now);
  return ok({ replies, order: null, optedOut: talk.optedOut });
}

function hearText(
  transactions: Transactions,
  unit: UnitOfWork,
  menu: Menu,
  said: Said,
  fair: FromFair,
  now: Instant,
): Answer<ChatAnswer> {
  const heard = answerMessage(unit, { ...said, chance: transactions.chance() }, now);
  if (!heard.ok) return heard;
  if (heard.value.fresh && !fair.inAnswer)
    reply(unit, menu, { ...said, chance: 0 }, heard.value.replies, now, heard.value.answersStop);
  const { replies, optedOut } = heard.value;
  return ok({ replies, optedOut, order: latestOrderOf(unit, said.customer, now) });
}

/** Answers a text once; a repeated text gets the recorded answer. */
function answerOnce(
  transactions: Transactions,
  said: Said,
  { stopped }: FromFair,
  work: (unit: UnitOfWork, menu: Menu, now: Instant, byCustomer: Said) => Answer<ChatAnswer>,
): Answer<ChatAnswer> {
  const open = transactions.read((_, menu) => menu);
  if (!open.ok) return open;
  const menu = open.value;
  const { id, number } = said;
  const answer = transactions.once({ scope: `text ${id}`, fingerprint: "" }, (unit, now) => {
    const customer = number === undefined ? said.customer : customerOfNumber(unit, number, said.customer);
    if (stopped) setStopped(unit, menu, customer, true);
    const answered = work(unit, menu, now, { ...said, customer });
    keptAgain(unit, now);
    return answered;
  });
  // Report what the number wants now: a late repeat must not undo a later STOP.
  const { unit } = transactions;
  const writer = number === undefined ? said.customer : knownCustomer(unit, number);
  // Of a number that was erased only the fair knows.
  const optedOut = writer === undefined ? stopped : unit.people.person(writer).optedOut;
  return answer.ok ? ok({ ...answer.value, optedOut }) : answer;
}

/** Notes that the number has opted out of texts, or in again, at another stall of the fair. */
export function stopTexts(transactions: Transactions, number: CustomerId, stopped: boolean): void {
  transactions.transact((unit) => {
    const { menu } = unit.state;
    const customer = knownCustomer(unit, number);
    if (menu !== null && customer !== undefined) setStopped(unit, menu, customer, stopped);
  });
}

/** Erases a customer of the page: conversation, name, and the number that texted an order's code. */
export function eraseCustomer(transactions: Transactions, customer: CustomerId): Answer<null> {
  const open = transactions.readAsCustomer(() => null);
  if (!open.ok) return open;
  return transactions.transact((unit) => {
    forget(unit, customer);
    return ok(null);
  });
}

/** Who keeps what people say and until when. */
export const peopleKept = (transactions: Transactions): Answer<PeopleKept> =>
  transactions.readAsCustomer((unit, { rules }) => ({
    stall: unit.state.identity?.name ?? "",
    fair: unit.state.identity?.fairName ?? "",
    contact: rules.contact ?? null,
    eraseAfterDays: rules.eraseAfterDays,
    erasedAt: isoOrNull(whenErased(unit)),
  }));

/** Notes whether a sent text was delivered. Only the text that an order is ready is tracked. */
export function receipt(transactions: Transactions, id: string, how: "delivered" | "failed"): void {
  const number = readyOrderOf(id);
  if (number === null || transactions.unit.state.identity === null) return;
  transactions.transact((unit, now) => recordReadyText(unit, number, how, now));
}

/** The messages after a given turn, for a page that reads on. */
export function history(
  transactions: Transactions,
  customer: CustomerId,
  after: number,
  bindings: Bindings,
): Answer<ChatPage> {
  return transactions.readAsCustomer((unit, menu, now) => {
    const conversation = conversationOf(unit, menu, customer);
    return {
      ...messagesAfter(conversation, after),
      order: latestOrderOf(unit, customer, now, bindings),
      shows: shownBy(conversation.talk),
    };
  });
}
