/**
 * One stall as a Durable Object: the single writer of its stock. Each call reads memory, decides, and
 * writes in one synchronous transaction (see shell.ts); the reply leaves once the write is durable.
 */
import type { Menu } from "../model/catalogue.ts";
import { type CustomerId, jobParts } from "../model/ids.ts";
import type {
  BoardView,
  CrewOrderView,
  FloorView,
  JobView,
  MenuView,
  OrderView,
  PhoneNumber,
} from "../model/order.ts";
import type { Answer } from "../model/refusal.ts";
import type { StockView } from "../model/stock.ts";
import type { ChatMessage } from "../model/text.ts";
import type { Books } from "./books.ts";
import type { Command, FloorCommand } from "./commands.ts";
import { hear, messagesAfter, remember, reply, type Spoken } from "./conversing.ts";
import { send, settleText, takeDue } from "./delivery.ts";
import type { Identity, Instant, Order } from "./facts.ts";
import { log } from "./log.ts";
import { outlived, type WriteKey } from "./once.ts";
import { floorView, pressView, queueView } from "./queue-view.ts";
import {
  crewOrderView,
  type JobReply,
  jobReply,
  type PlacedReply,
  placedReply,
  type Standing,
  standingOf,
} from "./replies.ts";
import { reportOf } from "./reporting.ts";
import { done, refused, StallShell } from "./shell.ts";
import { conversationOf, tell } from "./telling.ts";
import { hasVersion, type Versioned, type Versions } from "./versions.ts";
import { boardView, menuView, orderView, stockView } from "./views.ts";

type Of<T extends Command["type"]> = Extract<Command, { readonly type: T }>;

export type PlaceRequest = {
  readonly command: Omit<Of<"place">, "chance">;
  readonly name: string | null;
  readonly phone: PhoneNumber | null;
  /** The crew key's generation where the crew keys it in; null for a customer. */
  readonly generation: number | null;
};

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

const AFTER_FAILURE = 5000;

export class Stall extends StallShell {
  #queue: Versioned<string> | null = null;

  // ---- the crew's commands

  /** Makes the stall, or gives it the fair's new name and hours; `generation` is the crew key's. */
  open(identity: Identity, generation: number, earlierUntil: Instant): void {
    const now = Date.now();
    const { books } = this;
    const same = JSON.stringify(books.state.identity) === JSON.stringify(identity);
    if (!same) books.carryOut({ type: "open", identity }, now);
    books.people.access.set("", { generation, earlierUntil });
    this.commit(now);
  }

  setMenu(generation: number, key: WriteKey, menu: Menu): Answer<{ readonly version: number }> {
    return this.crew(generation, key, { type: "set-menu", menu }, ({ state }) => ({
      version: state.version,
    }));
  }

  changeStock(
    generation: number,
    key: WriteKey,
    command: Extract<Command, { type: "change-stock" }>,
  ): Answer<StockView> {
    return this.crew(generation, key, command, ({ state }, menu) => stockView(state, menu));
  }

  pull(
    generation: number,
    key: WriteKey,
    command: Extract<Command, { type: "pull" }>,
  ): Answer<JobView | null> {
    return this.crew(generation, key, command, ({ state }, menu) => pressView(state, menu, command.press));
  }

  onJob(
    generation: number,
    key: WriteKey,
    command: Extract<Command, { type: "finish" | "unfinish" | "spoil" | "hand-back" }>,
  ): Answer<JobReply> {
    const { number, n } = jobParts(command.job);
    return this.crew(generation, key, command, (books) => jobReply(books, number, n));
  }

  onOrder(
    generation: number,
    key: WriteKey,
    command: Extract<Command, { type: "pay" | "unpay" | "close" | "reopen" }>,
  ): Answer<CrewOrderView> {
    return this.crew(generation, key, command, (books, menu, now) => {
      const order = books.state.anyOrder(command.number);
      if (order === undefined) throw new Error(`order ${command.number} is gone after its own command`);
      return crewOrderView(books, menu, order, now);
    });
  }

  /** The presses, the hands at them, and whether orders are taken. */
  onFloor(generation: number, key: WriteKey, command: FloorCommand): Answer<FloorView> {
    return this.crew(generation, key, command, ({ state }, menu, now) => floorView(state, menu, now));
  }

  /** A whole order at once, by the crew for a walk-up or by a customer. */
  place(key: WriteKey, request: PlaceRequest): Answer<PlacedReply> {
    if (request.generation !== null && !this.keyWorks(request.generation))
      return refused({ code: "old-key" });
    const { customer } = request.command;
    return this.once(key, (books, now) => {
      const { events, refusal } = books.carryOut({ ...request.command, chance: Math.random() }, now);
      if (refusal !== null) return refused(refusal);
      const { menu } = books.state;
      if (menu === null) throw new Error("an order was accepted without a menu");
      const placed = placedReply(books, menu, events, now);
      const { name, phone } = request;
      // Nobody will ask after a walk-up who gave no name and has no token.
      const unknown = name === null && phone === null && request.generation !== null;
      if (unknown) return done(placed);
      const person = books.people.person(customer);
      books.people.persons.set(customer, {
        ...person,
        name: name ?? person.name,
        phone: phone ?? person.phone,
        lastOrder: placed.number,
      });
      return done(placed);
    });
  }

  // ---- what readers see

  /** The queue as JSON: one rendering serves every screen until something changes. */
  pressQueue(generation: number, have: Versions): Answer<Versioned<string>> {
    return this.readAsCrew(generation, ({ state }, menu) => {
      const { version } = state;
      if (hasVersion(have, version)) return { version, view: null };
      if (this.#queue?.version !== version) {
        this.#queue = { version, view: JSON.stringify(queueView(state, menu, Date.now())) };
      }
      return this.#queue;
    });
  }

  board(have: Versions): Answer<Versioned<BoardView>> {
    return this.read(({ state }) => {
      const { version } = state;
      return { version, view: hasVersion(have, version) ? null : boardView(state, Date.now()) };
    });
  }

  menu(): Answer<MenuView> {
    return this.read(({ state }, menu) => menuView(state, menu, Date.now()));
  }

  /** The menu as it was set, for the crew's own pages; null before the first. */
  wholeMenu(generation: number): Answer<Menu | null> {
    return this.keyWorks(generation) ? done(this.books.state.menu) : refused({ code: "old-key" });
  }

  stock(generation: number): Answer<StockView> {
    return this.readAsCrew(generation, ({ state }, menu) => stockView(state, menu));
  }

  /** An order as its customer sees it; whoever asks has shown its claim. */
  order(number: number): Answer<OrderView> {
    return this.#withOrder(
      this.read((books, menu) => ({ books, menu })),
      number,
      (books, menu, order, now) => orderView(books.state, menu, order, now),
    );
  }

  crewOrder(generation: number, number: number): Answer<CrewOrderView> {
    return this.#withOrder(
      this.readAsCrew(generation, (books, menu) => ({ books, menu })),
      number,
      crewOrderView,
    );
  }

  #withOrder<T>(
    open: Answer<{ readonly books: Books; readonly menu: Menu }>,
    number: number,
    view: (books: Books, menu: Menu, order: Order, now: Instant) => T,
  ): Answer<T> {
    if (!open.done) return open;
    const { books, menu } = open.value;
    const order = books.state.anyOrder(number);
    return order === undefined
      ? refused({ code: "no-such-order", number })
      : done(view(books, menu, order, Date.now()));
  }

  // ---- the conversation

  /** One message of a customer, by text or on the web, and the stall's replies. */
  chat(spoken: Omit<Spoken, "chance">): Answer<ChatAnswer> {
    const open = this.read(() => null);
    if (!open.done) return open;
    const { books } = this;
    const now = Date.now();
    const heard = hear(books, { ...spoken, chance: Math.random() }, now);
    if ("code" in heard) return refused(heard);
    if (spoken.phone !== null && heard.fresh) reply(books, { ...spoken, chance: 0 }, heard.replies, now);
    this.commit(now);
    return done({
      replies: heard.replies,
      order: standingOf(books, spoken.customer, now),
      optedOut: heard.optedOut,
    });
  }

  /** Sends one text that the conversation has no part in, once for each message it answers. */
  answer(spoken: Omit<Spoken, "chance">, text: string): Answer<null> {
    const now = Date.now();
    const open = this.read((books, menu) => {
      const conversation = conversationOf(books, menu, spoken.customer);
      if (conversation.turns.some(({ id }) => id === spoken.id)) return null;
      remember(books, spoken.customer, conversation, {
        id: spoken.id,
        text: spoken.text,
        replies: [text],
        order: null,
      });
      reply(books, { ...spoken, chance: 0 }, [text], now);
      return null;
    });
    if (open.done) this.commit(now);
    return open;
  }

  /** What was said after a given turn, for a page that reads on. */
  history(customer: CustomerId, after: number): Answer<ChatPage> {
    return this.read((books, menu) => ({
      ...messagesAfter(conversationOf(books, menu, customer), after),
      order: standingOf(books, customer, Date.now()),
    }));
  }

  // ---- what is due

  /** What fell due. Never throws: a thrown alarm is retried a few times and then lost for good. */
  override async alarm(): Promise<void> {
    this.rang();
    try {
      await this.#doDue();
      this.schedule(Date.now());
    } catch (error) {
      log("error", "the alarm failed and will ring again", { error: String(error) });
      void this.ctx.storage.setAlarm(Date.now() + AFTER_FAILURE);
    }
  }

  /** Applies what is overdue, sends texts, tells the fair. A text that cannot be sent is due again later. */
  async #doDue(): Promise<void> {
    const now = Date.now();
    const { books } = this;
    if (books.state.identity === null) return;
    const { events } = books.carryOut({ type: "tick" }, now);
    if (books.state.menu !== null) tell(books, books.state.menu, events, now);
    const due = takeDue(books, now);
    this.commit(now, this.#sweep(now));
    await send(this.env, due, (row, sent) => {
      settleText(this.books, row, sent, Date.now(), Math.random());
      this.commit(Date.now());
    });
    await this.#report();
  }

  /** Tells the fair what changed since it was last told; what cannot be told now is due again later. */
  async #report(): Promise<void> {
    const { identity, version } = this.books.state;
    const told = this.books.people.pushed.get("") ?? { version: 0, at: 0 };
    if (identity === null || version <= told.version) return;
    const now = Date.now();
    const report = reportOf(this.books, this.store, told.version, now);
    if (report === null) return;
    let reached = told.version;
    try {
      await this.env.FAIR.getByName(identity.fair).report(report);
      reached = report.version;
    } catch (error) {
      log("warn", "the fair could not be told", { stall: identity.stall, error: String(error) });
    }
    this.books.people.pushed.set("", { version: reached, at: Date.now() });
    this.commit(Date.now());
  }

  #sweepFrom: string | null = null;

  /** A page of recorded answers that are past keeping; the next alarm takes the next page. */
  #sweep(now: Instant) {
    const { deletes, last } = outlived(this.store, this.#sweepFrom, now, 50);
    this.#sweepFrom = last;
    return deletes;
  }
}
