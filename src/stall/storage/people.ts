/**
 * A stall's customers and their messages, apart from the facts: the journal and the orders hold only opaque ids, so
 * these rows can be erased without changing a count.
 */

import type { Talk } from "../../chat/talk/talk.ts";
import type { CustomerId } from "../../model/basics/ids.ts";
import type { Currency } from "../../model/basics/money.ts";
import type { CrewSentence } from "../../model/orders/crew-sentences.ts";
import type { PhoneNumber, Tender } from "../../model/orders/order.ts";
import type { RefusalCounts } from "../../model/orders/refusal-counts.ts";
import { Outbox, type Waiting } from "../../texting/sending/outbox.ts";
import type { Sending } from "../../texting/sending/sending.ts";
import type { Instant } from "../../time/instants.ts";
import type { PaidPart } from "../state/payments.ts";
import { Table, type Write } from "../state/table.ts";

export type Person = {
  readonly phone: PhoneNumber | null;
  readonly name: string | null;
  /** Only a number that wrote first is ever sent a text. */
  readonly wroteFirst: boolean;
  readonly optedOut: boolean;
  /** Only in rows of earlier versions: the number was typed on the web and never confirmed, so nothing is sent to it. */
  readonly writesAs?: CustomerId | null;
  /** Keyed hash of the number: leads to the row that leads here. */
  readonly number?: CustomerId;
  /** The latest order, open or ended. */
  readonly lastOrder: number | null;
  /** Orders from the web that this number confirmed, latest last. */
  readonly confirmed?: readonly number[];
  /** Orders for which this number texted a code that did not fit, one entry a text. */
  readonly wrongCodes?: readonly number[];
};

/** What is known of people at one order. */
export type AtOrder = {
  /** Keyed hash of the address a web order came from: counts what one address has in line unclaimed. */
  readonly address?: string;
  /** Set if it was placed without a token: all such orders of an address are one sender's. */
  readonly keyless?: true;
  /** Keyed hash of a number typed on the web: nothing is sent to it before it has texted the order's code. */
  readonly given?: CustomerId;
  /** The number that texted the code; the order's texts go there. */
  readonly confirmed?: { readonly phone: PhoneNumber; readonly customer: CustomerId };
  /** Which crew member took the payment, and what of it. */
  readonly paidTo?: string;
  readonly took?: readonly PaidPart[];
  /** The customer's wish for something that is not on the menu, in their words; the crew sees it. */
  readonly wish?: string;
  /** The crew's latest sentence to the customer. */
  readonly texted?: { readonly say: CrewSentence; readonly at: Instant };
  /** Wishes in free words, by the garment's number in the order. */
  readonly notes?: Readonly<Record<number, string>>;
};

type Takers = Readonly<Record<string, Readonly<Partial<Record<Tender, number>>>>>;

/** Whom a number writes as; the row's key is the number's keyed hash. */
export type Known = { readonly customer: CustomerId };

export const NOBODY: Person = {
  phone: null,
  name: null,
  wroteFirst: false,
  optedOut: false,
  lastOrder: null,
};

export type SaidTurn = {
  /** The message's own id: the same id again gets the same replies and changes nothing. */
  readonly id: string;
  /** The customer's message; null if the stall spoke first. */
  readonly text: string | null;
  readonly replies: readonly string[];
  /** The order placed in this turn. */
  readonly order: number | null;
};

/** A conversation with its latest turns, oldest first. */
export type Conversation = {
  readonly talk: Talk;
  /** The number of turns so far: it numbers the messages for a page that reads on. */
  readonly said: number;
  readonly turns: readonly SaidTurn[];
  /** Segments put into the outbox for this number on the latest day there were any. */
  readonly segments?: { readonly day: string; readonly count: number };
};

/** A text that waits to be sent. */
export type OutRow = Waiting & {
  readonly customer: CustomerId;
  readonly lane: CustomerId;
  /** Null for a customer on the web, who reads it in the conversation. */
  readonly to: PhoneNumber | null;
  readonly text: string;
  /** Set for a text that is worth nothing once its order is collected. */
  readonly whileReady: number | null;
  /** Whether its segments have been taken from the day's budget. */
  readonly charged: boolean;
  /** Whether it is about an order of this number's own: part of the day's cap is kept for those. */
  readonly own?: true;
  /** Whether it answers STOP or START: the one text that a number gets after STOP. */
  readonly answersStop?: true;
};

/** Segments of the fair's cap that the stall may still send on a day. */
export type Budget = {
  readonly day: string;
  readonly segments: number;
  /** Of the part that is kept for texts about a number's own orders. */
  readonly own?: number;
};

/** When names, numbers and talk were last erased; null while there is something to erase since. */
export type Erased = { readonly at: Instant; readonly again: Instant | null };

/** When names, numbers and talk are to be erased. */
export type Erasing = {
  /** When hours and menu say so. */
  readonly due: Instant;
  /** When the countdown of 48 hours began; null while the day is further off. */
  readonly since: Instant | null;
  /** Set if the countdown began once more, because its end was long past when it was noticed. */
  readonly late?: true;
};

/** Which crew keys work: the current generation, and the last one until its overlap ends. */
export type Access = { readonly generation: number; readonly earlierUntil: Instant };

/** Where the stall has moved to: the address of its customers' page there. */
export type Moved = { readonly to: string; readonly at: Instant };

/** What the fair was last told. */
export type Pushed = {
  readonly version: number;
  /** When it was last tried. */
  readonly at: Instant;
  /** Up to when it knows of texts. */
  readonly toldAt: Instant;
  readonly shares: Currency | null;
};

/** How often the stall refused, and when the counts were last written on their own. */
export type Refused = { readonly writtenAt: Instant; readonly counts: RefusalCounts };

export type TextCounts = {
  readonly textsIn: number;
  readonly textsOut: number;
  readonly segmentsOut: number;
  /** When it last grew. */
  readonly at: Instant;
};

type ReadRow = (recordKey: string) => unknown;

/** The rows beside the state: people, talk, texts to send, and what the object has to remember for itself. */
export class People {
  readonly persons: Table<Person>;
  readonly conversations: Table<Conversation>;
  readonly atOrders: Table<AtOrder>;
  readonly known: Table<Known>;
  /** What each of the crew took on a day, by name and tender, in minor units. */
  readonly takers: Table<Takers>;
  readonly textCounts: Table<TextCounts>;
  readonly outbox = new Outbox<OutRow>();
  readonly out = new Table<OutRow>("out:", {
    changed: (before, after) => this.outbox.changed(before, after),
  });
  readonly sending = new Table<Sending>("sending");
  readonly budget = new Table<Budget>("budget");
  /** Until when the gateway asked to be left alone. */
  readonly rests = new Table<Instant>("rests");
  readonly erased = new Table<Erased>("erased");
  readonly erasing = new Table<Erasing>("erase-at");
  readonly access = new Table<Access>("access");
  readonly pushed = new Table<Pushed>("pushed");
  readonly moved = new Table<Moved>("moved");
  /** Which edition of the organiser's word was heard last. */
  readonly organiser = new Table<{ readonly edition: number }>("organiser");
  readonly refusals = new Table<Refused>("refusals");

  constructor(read: ReadRow) {
    // Each prefix is only ever written with rows of its own type.
    this.persons = new Table<Person>("person:", { read: (key) => read(key) as Person | undefined });
    this.conversations = new Table<Conversation>("talk:", {
      read: (key) => read(key) as Conversation | undefined,
    });
    this.atOrders = new Table<AtOrder>("at-order:", { read: (key) => read(key) as AtOrder | undefined });
    this.takers = new Table<Takers>("taker:", { read: (key) => read(key) as Takers | undefined });
    this.known = new Table<Known>("known:", { read: (key) => read(key) as Known | undefined });
    this.textCounts = new Table<TextCounts>("texts:", { read: (key) => read(key) as TextCounts | undefined });
  }

  person(customer: CustomerId): Person {
    return this.persons.get(customer) ?? NOBODY;
  }

  atOrder(number: number): AtOrder {
    return this.atOrders.get(String(number)) ?? {};
  }

  /** A customer's words for something that is not on the menu. */
  readonly wishOf = (number: number): string | undefined => this.atOrder(number).wish;

  /** Notes a customer's words for something that is not on the menu. */
  noteWish(number: number, wish: string): void {
    this.atOrders.set(String(number), { ...this.atOrder(number), wish });
  }

  /** A wish on one garment in free words. */
  readonly noteOf = (number: number, n: number): string | undefined => this.atOrder(number).notes?.[n];

  /** Notes wishes in free words on garments of an order; null takes one back. */
  noteGarments(number: number, words: ReadonlyMap<number, string | null>): void {
    if (words.size === 0) return;
    const { notes: before = {}, ...rest } = this.atOrder(number);
    const notes: Record<number, string> = { ...before };
    for (const [n, said] of words) {
      if (said === null) delete notes[n];
      else notes[n] = said;
    }
    const some = Object.keys(notes).length > 0;
    this.atOrders.set(String(number), some ? { ...rest, notes } : rest);
  }

  /** Notes what one of the crew took for an order, in sum with what they took on the day; taken back if `times` is -1. */
  noteTaken(day: string, number: number, who: string, parts: readonly PaidPart[], times: 1 | -1): void {
    const before = this.takers.get(day) ?? {};
    const own = { ...before[who] };
    for (const { tender, amount } of parts) own[tender] = (own[tender] ?? 0) + times * amount;
    this.takers.set(day, { ...before, [who]: own });
    const { took = [], ...at } = this.atOrder(number);
    this.atOrders.set(String(number), times === 1 ? { ...at, took: [...took, ...parts] } : at);
  }

  /** Notes who of the crew took the payment of an order; null forgets it. */
  notePaidTo(number: number, who: string | null): void {
    const { paidTo, ...before } = this.atOrder(number);
    if (who !== null) this.atOrders.set(String(number), { ...before, paidTo: who });
    else if (paidTo !== undefined) this.atOrders.set(String(number), before);
  }

  /** Writes an order's row of people with the next change: the order's own row is about to lose a name. */
  keepAtOrder(number: number): void {
    const known = this.atOrders.get(String(number));
    if (known !== undefined) this.atOrders.set(String(number), known);
  }

  /** The tables whose rows are all in memory. */
  get tables() {
    return [
      this.out,
      this.sending,
      this.budget,
      this.rests,
      this.erased,
      this.erasing,
      this.access,
      this.pushed,
      this.moved,
      this.organiser,
      this.refusals,
    ] as const;
  }

  drain(): Write[] {
    const read = [this.persons, this.conversations, this.atOrders, this.known, this.takers, this.textCounts];
    return [...this.tables, ...read].flatMap((table) => table.drain());
  }
}
