/** The stall's conversations, by text and on the web, and what the fair tells it of its gateway. */
import { asksSilence } from "../chat/converse.ts";
import { fitted } from "../chat/fit.ts";
import { sentencesOf } from "../chat/wording.ts";
import type { Menu } from "../model/catalogue.ts";
import type { CustomerId } from "../model/ids.ts";
import type { Answer } from "../model/refusal.ts";
import type { ChatMessage } from "../model/text.ts";
import { bindingsOf } from "../texting/bindings.ts";
import type { Sending } from "../texting/sending.ts";
import type { Books } from "./books.ts";
import { conversationOf, remember } from "./conversations.ts";
import { type FromFair, hear, messagesAfter, reply, type Spoken, setStopped } from "./conversing.ts";
import { DeliveringStall } from "./delivering.ts";
import { keptAgain } from "./erasing.ts";
import type { Instant } from "./facts.ts";
import { recorded, recording } from "./once.ts";
import { type Standing, standingOf } from "./replies.ts";
import { done, refused } from "./shell.ts";
import { noteTold, readyOrderOf } from "./telling.ts";

export type ChatAnswer = {
  readonly replies: readonly string[];
  readonly order: Standing | null;
  readonly optedOut: boolean;
};
export type ChatPage = {
  readonly messages: ChatMessage[];
  readonly last: number;
  readonly order: Standing | null;
};
type Listed = { readonly number: number; readonly name: string };
type Said = Omit<Spoken, "chance">;

export abstract class TextingStall extends DeliveringStall {
  /** One message of a customer on the web, and the stall's replies. */
  chat(said: Said): Answer<ChatAnswer> {
    const open = this.read(() => null);
    if (!open.done) return open;
    const { books } = this;
    const now = Date.now();
    const heard = hear(books, { ...said, chance: Math.random() }, now);
    if ("code" in heard) return refused(heard);
    keptAgain(books, now);
    this.commit(now);
    const { replies, optedOut } = heard;
    const order = standingOf(books, said.customer, now, bindingsOf(this.env));
    return done({ replies, optedOut, order });
  }

  /** One text of a customer; its replies go out as texts, once however often the text comes. */
  text(said: Said, fair: FromFair): Answer<ChatAnswer> {
    return this.#once(said, fair, (books, menu, now) => this.#hear(books, menu, said, fair, now));
  }

  /** A text that could be meant for any of several stalls: this one asks which, on behalf of all. */
  askWhich(said: Said, fair: FromFair, stalls: readonly Listed[]): Answer<ChatAnswer> {
    return this.#once(said, fair, (books, menu, now) => {
      const conversation = conversationOf(books, menu, said.customer);
      const { talk } = conversation;
      if (asksSilence(menu, talk, said.text)) return this.#hear(books, menu, said, fair, now);
      const items = stalls.map(({ number, name }) => ({ number, name }));
      const question = talk.optedOut ? [] : [fitted(sentencesOf(talk.language).whichStall({ items }), false)];
      remember(books, said.customer, conversation, {
        id: said.id,
        text: said.text,
        replies: question,
        order: null,
      });
      if (!fair.inAnswer) reply(books, menu, { ...said, chance: 0 }, question, now);
      return done({ replies: question, order: null, optedOut: talk.optedOut });
    });
  }

  #hear(books: Books, menu: Menu, said: Said, fair: FromFair, now: Instant): Answer<ChatAnswer> {
    const heard = hear(books, { ...said, chance: Math.random() }, now);
    if ("code" in heard) return refused(heard);
    if (heard.fresh && !fair.inAnswer) reply(books, menu, { ...said, chance: 0 }, heard.replies, now);
    const { replies, optedOut } = heard;
    return done({ replies, optedOut, order: standingOf(books, said.customer, now) });
  }

  /** A recorded answer, with what the number wants now: a late repeat must not take back a later STOP. */
  #asOfNow(answer: Answer<ChatAnswer>, customer: CustomerId): Answer<ChatAnswer> {
    const { optedOut } = this.books.people.person(customer);
    return answer.done ? done({ ...answer.value, optedOut }) : answer;
  }

  /** Answers a text, or gives the answer that was recorded with what it changed. */
  #once(
    said: Said,
    { stopped, gateway }: FromFair,
    work: (books: Books, menu: Menu, now: Instant) => Answer<ChatAnswer>,
  ): Answer<ChatAnswer> {
    this.heardOfGateway(gateway);
    const open = this.read((books, menu) => ({ books, menu }));
    if (!open.done) return open;
    const { books, menu } = open.value;
    const now = Date.now();
    const key = { scope: `text ${said.id}`, fingerprint: "" };
    // A scope of this form records answers to texts only.
    const before = recorded(this.store, key, now) as Answer<ChatAnswer> | null;
    if (before !== null) return this.#asOfNow(before, said.customer);
    if (stopped) setStopped(books, menu, said.customer, true);
    const answer = work(books, menu, now);
    keptAgain(books, now);
    this.commit(now, [recording(key, answer, now)]);
    return answer;
  }

  /** The number said to another stall of the fair that it wants no more texts, or wants them again. */
  setStopped(customer: CustomerId, stopped: boolean): void {
    const { books } = this;
    const { menu } = books.state;
    if (menu === null) return;
    setStopped(books, menu, customer, stopped);
    this.commit(Date.now());
  }

  /** What became of a text that was sent. Only "it is ready" is kept track of. */
  receipt(id: string, how: "delivered" | "failed"): void {
    const { books } = this;
    const number = readyOrderOf(id);
    if (books.state.identity === null || number === null) return;
    const now = Date.now();
    noteTold(books, number, how, now);
    this.commit(now);
  }

  /** The fair's gateway as it is now. */
  setSending(sending: Sending): void {
    const { books } = this;
    if (books.state.identity === null) return;
    if ((books.people.sending.get("")?.version ?? 0) >= sending.version) return;
    books.people.sending.set("", sending);
    this.commit(Date.now());
  }

  /** What was said after a given turn, for a page that reads on. */
  history(customer: CustomerId, after: number): Answer<ChatPage> {
    return this.read((books, menu) => ({
      ...messagesAfter(conversationOf(books, menu, customer), after),
      order: standingOf(books, customer, Date.now(), bindingsOf(this.env)),
    }));
  }
}
