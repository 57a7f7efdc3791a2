/**
 * One stall as a Durable Object: the single writer of its stock. Each call reads memory, decides, and
 * writes in one synchronous transaction (see shell.ts); the reply leaves once the write is durable.
 */
import type { PlanTaken } from "../model/accepted-plan.ts";
import type { Menu } from "../model/catalogue.ts";
import type { Fault } from "../model/faults.ts";
import { type CustomerId, jobParts } from "../model/ids.ts";
import type { MenuView } from "../model/menu-view.ts";
import type { OpenNeeds } from "../model/open-needs.ts";
import type { BoardView, CrewOrderView, FloorView, JobView, OrderView, PhoneNumber } from "../model/order.ts";
import type { Answer } from "../model/refusal.ts";
import type { RefusalView } from "../model/refusals.ts";
import type { StockView } from "../model/stock.ts";
import { bindingsOf } from "../texting/bindings.ts";
import type { Books } from "./books.ts";
import type { Command, FloorCommand } from "./commands.ts";
import { menuObstacles } from "./decide/setting-up.ts";
import { keptAgain, keptByNewHours } from "./erasing.ts";
import type { Identity, Instant, Order } from "./facts.ts";
import type { WriteKey } from "./once.ts";
import { openNeeds } from "./open-needs.ts";
import { floorView, pressView, queueView } from "./queue-view.ts";
import { refusalView } from "./refusals.ts";
import { RehearsingStall } from "./rehearsing.ts";
import {
  crewOrderView,
  type JobReply,
  jobReply,
  type PlacedReply,
  phoneOf,
  placedReply,
  toBeTold,
} from "./replies.ts";
import { done, refused } from "./shell.ts";
import { hasVersion, type Versioned, type Versions } from "./versions.ts";
import { boardView, menuView, orderView, stockView } from "./views.ts";

type Of<T extends Command["type"]> = Extract<Command, { readonly type: T }>;

export type PlaceRequest = {
  readonly command: Omit<Of<"place">, "chance">;
  readonly name: string | null;
  readonly phone: PhoneNumber | null;
  /** The customer that a number typed on the web writes as: it has to confirm the order by a text first. */
  readonly writesAs: CustomerId | null;
  /** The crew key's generation where the crew keys it in; null for a customer. */
  readonly generation: number | null;
};

/**
 * Whether a reader has the state as it is. Nobody has a rehearsal's: each begins its versions again, and one that was
 * wiped had the same.
 */
const isKnown = ({ identity, version }: Books["state"], have: Versions): boolean =>
  identity?.rehearsal !== true && hasVersion(have, version);

export class Stall extends RehearsingStall {
  #queue: Versioned<string> | null = null;

  // ---- the crew's commands

  /** Makes the stall, or gives it the fair's new name and hours; `generation` is the crew key's. */
  open(identity: Identity, generation: number, earlierUntil: Instant): void {
    const now = Date.now();
    const { books } = this;
    const before = books.state.identity;
    const isOlder = (identity.edition ?? 0) < (before?.edition ?? 0);
    if (!isOlder && JSON.stringify(before) !== JSON.stringify(identity)) {
      books.carryOut({ type: "open", identity }, now);
      keptByNewHours(books, now);
    }
    // An older key that arrives late must not lock the newer one out.
    if (generation >= (books.people.access.get("")?.generation ?? 0))
      books.people.access.set("", { generation, earlierUntil });
    this.commit(now);
  }

  setMenu(
    generation: number,
    key: WriteKey,
    command: Of<"set-menu">,
  ): Answer<{ readonly version: number; readonly menuVersion: number }> {
    return this.crew(generation, key, command, ({ state: { version, menuVersion } }) => ({
      version,
      menuVersion,
    }));
  }

  /** What would keep a menu from being used now; changes nothing. */
  tryMenu(generation: number, menu: Menu): Answer<readonly Fault[]> {
    if (!this.keyWorks(generation)) return refused({ code: "old-key" });
    return done(menuObstacles(this.books.state, menu));
  }

  /** The menu and the opening stock of a plan, both or neither; `check` is kept with the answer. */
  acceptPlan(
    generation: number,
    key: WriteKey,
    command: Of<"accept-plan">,
    check: PlanTaken["check"],
  ): Answer<PlanTaken> {
    return this.crew(generation, key, command, ({ state }, menu) => ({
      version: state.version,
      stock: stockView(state, menu),
      check,
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
    command: Extract<Command, { type: "finish" | "unfinish" | "spoil" | "unspoil" | "hand-back" }>,
  ): Answer<JobReply> {
    const { number, n } = jobParts(command.job);
    return this.crew(generation, key, command, (books) => jobReply(books, number, n));
  }

  onOrder(
    generation: number,
    key: WriteKey,
    command: Extract<Command, { type: "pay" | "unpay" | "close" | "reopen" | "leave-out" | "give-back" }>,
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

  /** Stops web orders, or takes them again; texts and the counter go on. */
  setWebOrders(
    generation: number,
    key: WriteKey,
    command: Of<"set-web-orders">,
  ): Answer<{ readonly open: boolean }> {
    return this.crew(generation, key, command, ({ state }) => ({ open: state.desk.webOrders }));
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
        // The crew has the number from whoever stands there; one typed on the web has to confirm it first.
        phone: request.generation === null ? person.phone : (phone ?? person.phone),
        lastOrder: placed.number,
      });
      if (request.writesAs !== null)
        books.people.atOrders.set(String(placed.number), { given: request.writesAs });
      keptAgain(books, now);
      const order = books.state.order(placed.number);
      const isToBeTold = order !== undefined && (phone !== null || request.generation === null);
      const tell = isToBeTold ? toBeTold(books, order, bindingsOf(this.env)) : null;
      return done(tell === null ? placed : { ...placed, toBeTold: tell });
    });
  }

  protected override wipe(): void {
    super.wipe();
    this.#queue = null;
  }

  // ---- what readers see

  /** How often the stall refused, by reason. */
  refusals(generation: number): Answer<RefusalView> {
    return this.keyWorks(generation) ? done(refusalView(this.books.people)) : refused({ code: "old-key" });
  }

  /** Writes and reads a row of its own, so that a health check has really been to storage. */
  touch(): number {
    const touched = Number(this.store.get("touched") ?? 0) + 1;
    this.store.put("touched", touched);
    return Number(this.store.get("touched"));
  }

  /** The queue as JSON: one rendering serves every screen until something changes. */
  pressQueue(generation: number, have: Versions): Answer<Versioned<string>> {
    return this.readAsCrew(generation, ({ state }, menu) => {
      const { version } = state;
      if (isKnown(state, have)) return { version, view: null };
      if (this.#queue?.version !== version) {
        this.#queue = { version, view: JSON.stringify(queueView(state, menu, Date.now())) };
      }
      return this.#queue;
    });
  }

  board(have: Versions): Answer<Versioned<BoardView>> {
    return this.read(({ state }) => {
      const { version } = state;
      return { version, view: isKnown(state, have) ? null : boardView(state, Date.now()) };
    });
  }

  menu(): Answer<MenuView> {
    return this.read(({ state }, menu) => menuView(state, menu, Date.now()));
  }

  /** The menu as it was set and its version, for the crew's own pages; null before the first. */
  wholeMenu(generation: number): Answer<{ readonly menu: Menu | null; readonly version: number }> {
    if (!this.keyWorks(generation)) return refused({ code: "old-key" });
    const { menu, menuVersion: version } = this.books.state;
    return done({ menu, version });
  }

  /** What the open orders need. */
  needs(generation: number): Answer<OpenNeeds> {
    return this.readAsCrew(generation, ({ state }) => openNeeds(state));
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

  /** The whole number of an order's customer, for a crew that has to call; the screens show its end only. */
  phone(generation: number, number: number): Answer<PhoneNumber | null> {
    return this.#withOrder(
      this.readAsCrew(generation, (books, menu) => ({ books, menu })),
      number,
      (books, _, order) => phoneOf(books, order),
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
}
