/**
 * Who a stall's customers are and what was said, kept apart from the facts: the journal and the orders
 * hold only opaque ids, so these rows can be erased without touching a count.
 */
import type { Talk } from "../chat/talk.ts";
import type { CustomerId } from "../model/ids.ts";
import type { PhoneNumber } from "../model/order.ts";
import type { Instant } from "./facts.ts";
import { Table, type Write } from "./table.ts";

export type Person = {
  readonly phone: PhoneNumber | null;
  readonly name: string | null;
  /** Only a number that wrote first is ever sent a text. */
  readonly wroteFirst: boolean;
  readonly optedOut: boolean;
  /** The latest order, open or ended. */
  readonly lastOrder: number | null;
};

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
  /** What the customer wrote; null where the stall spoke by itself. */
  readonly text: string | null;
  readonly replies: readonly string[];
  /** The order placed in this turn. */
  readonly order: number | null;
};

/** A conversation with what was said last, oldest first. */
export type Conversation = {
  readonly talk: Talk;
  /** How many turns there ever were: numbers the messages for a page that reads on. */
  readonly said: number;
  readonly turns: readonly SaidTurn[];
};

/** A text that waits to be sent. */
export type OutRow = {
  readonly id: string;
  readonly customer: CustomerId;
  /** Null for a customer on the web, who reads it in the conversation. */
  readonly to: PhoneNumber | null;
  readonly text: string;
  /** Set for a text that is worth nothing once its order is collected. */
  readonly whileReady: number | null;
  readonly dueAt: Instant;
  readonly attempts: number;
  readonly since: Instant;
};

/** Which crew keys work: the current generation, and the last one until its overlap ends. */
export type Access = { readonly generation: number; readonly earlierUntil: Instant };

/** How far the fair has been told. */
export type Pushed = { readonly version: number; readonly at: Instant };

export type TextCounts = { readonly textsIn: number; readonly textsOut: number };

type ReadRow = (recordKey: string) => unknown;

/** The rows beside the state: people, talk, texts to send, and what the object has to remember for itself. */
export class People {
  readonly persons: Table<Person>;
  readonly conversations: Table<Conversation>;
  readonly textCounts: Table<TextCounts>;
  readonly out = new Table<OutRow>("out:");
  /** Orders whose customer could not be told: the crew calls their numbers out. */
  readonly untold = new Table<true>("untold:");
  readonly access = new Table<Access>("access");
  readonly pushed = new Table<Pushed>("pushed");

  constructor(read: ReadRow) {
    // Each prefix is only ever written with rows of its own type.
    this.persons = new Table<Person>("person:", { read: (key) => read(key) as Person | undefined });
    this.conversations = new Table<Conversation>("talk:", {
      read: (key) => read(key) as Conversation | undefined,
    });
    this.textCounts = new Table<TextCounts>("texts:", { read: (key) => read(key) as TextCounts | undefined });
  }

  person(customer: CustomerId): Person {
    return this.persons.get(customer) ?? NOBODY;
  }

  /** The tables whose rows are all in memory. */
  get tables() {
    return [this.out, this.untold, this.access, this.pushed] as const;
  }

  take(): Write[] {
    return [...this.tables, this.persons, this.conversations, this.textCounts].flatMap((table) =>
      table.take(),
    );
  }
}
