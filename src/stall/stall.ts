/**
 * One stall as a Durable Object: the single writer of its stock. A method is one call and delegates it: what changes
 * anything goes through `Transactions`, and the reply leaves once the write is durable.
 */

import { DurableObject } from "cloudflare:workers";
import type { Identity, OrganiserWord, ReportsTo } from "../fair/reports.ts";
import type { Closeout } from "../model/accounts/closeout.ts";
import type { DaySoFar } from "../model/accounts/day-so-far.ts";
import type { DrawerView } from "../model/accounts/drawer.ts";
import type { Lessons } from "../model/accounts/lessons.ts";
import type { MovedTo } from "../model/accounts/moved.ts";
import type { CarriedStall } from "../model/accounts/whole-stall.ts";
import type { Fault } from "../model/basics/faults.ts";
import { type CustomerId, type DesignId, jobParts, type PressId } from "../model/basics/ids.ts";
import { ok, refused } from "../model/basics/result.ts";
import type { WriteKey } from "../model/basics/write-key.ts";
import type { AnnouncementId } from "../model/fair/organising.ts";
import type { PictureMark, PicturesView } from "../model/garment/picture.ts";
import type { Menu } from "../model/menu/catalogue.ts";
import type { MenuView } from "../model/menu/menu-view.ts";
import { BLOCK_SIZE } from "../model/orders/block-size.ts";
import type { PeopleKept } from "../model/orders/chat.ts";
import type { Numbered, NumbersWanted } from "../model/orders/counter.ts";
import type { CrewSentence } from "../model/orders/crew-sentences.ts";
import type { OpenNeeds } from "../model/orders/open-needs.ts";
import type { OpenOrders } from "../model/orders/open-orders.ts";
import type { CrewOrderView, OrderView, PhoneNumber } from "../model/orders/order.ts";
import type { BoardView, FloorView, JobView } from "../model/orders/queue.ts";
import type { RackView } from "../model/orders/rack.ts";
import type { Answer } from "../model/orders/refusal.ts";
import type { RefusalView } from "../model/orders/refusal-counts.ts";
import type { StockView } from "../model/orders/stock.ts";
import type { PlanTaken } from "../model/planning/accepted-plan.ts";
import type { KeptPlan } from "../model/planning/kept-plan.ts";
import type { KeptPicture } from "../pictures/kept-picture.ts";
import { bindingsOf } from "../texting/bindings.ts";
import { pinnedHosts } from "../texting/mapping/hosts.ts";
import type { Sending } from "../texting/sending/sending.ts";
import type { Day } from "../time/fair-day.ts";
import type { Instant } from "../time/instants.ts";
import { carryOut } from "../tracing/calls.ts";
import * as accounts from "./calls/accounts.ts";
import { AlarmWork } from "./calls/alarm.ts";
import { drawerView } from "./calls/counter/drawer-view.ts";
import { exchange, undoExchange } from "./calls/counter/exchange.ts";
import { rackView } from "./calls/counter/rack-view.ts";
import { stockView } from "./calls/counter/stock-view.ts";
import { textCustomer } from "./calls/counter/text-customer.ts";
import { type PlaceRequest, place, seeOrder } from "./calls/customer.ts";
import { open, readAnnouncement } from "./calls/from-fair.ts";
import * as moving from "./calls/moving/carry-and-save.ts";
import * as loading from "./calls/moving/loading.ts";
import { setMoved } from "./calls/moving/moved.ts";
import { openNeeds } from "./calls/open-needs.ts";
import * as pictures from "./calls/pictures.ts";
import { floorView, pressView, queueView } from "./calls/queue-view.ts";
import * as rehearsal from "./calls/rehearsal.ts";
import type { Rehearsal } from "./calls/rehearsal-twin.ts";
import {
  crewOrderView,
  type JobReply,
  jobReply,
  openOrders,
  type PlacedReply,
  phoneOf,
} from "./calls/replies.ts";
import { hearPress } from "./calls/reserve.ts";
import * as texts from "./calls/texts.ts";
import { hasVersion, type Versioned, type Versions } from "./calls/versions.ts";
import { boardView, menuView, orderView } from "./calls/views.ts";
import type { FromFair } from "./messages/conversation.ts";
import { restsUntil } from "./messages/delivery.ts";
import { noteChanged } from "./messages/notes.ts";
import { noteTakers } from "./messages/takers.ts";
import type { DayCommand, DrawerCommand } from "./rules/account-commands.ts";
import type { FloorCommand, JobCommand, Of, OrderCommand } from "./rules/commands.ts";
import { liftedUntil } from "./rules/decide/intake.ts";
import { menuObstacles } from "./rules/decide/setting-up.ts";
import { isClosed } from "./state/account.ts";
import { blockOf } from "./state/pickup-numbers.ts";
import { wasIssued } from "./storage/issued.ts";
import type { Access } from "./storage/people.ts";
import type { PictureOf } from "./storage/picture-bytes.ts";
import { refusalIn, refusalView } from "./storage/refusal-counts.ts";
import type { Cursor, SavedPage } from "./storage/snapshot.ts";
import type { UnitOfWork } from "./storage/unit-of-work.ts";
import { Transactions } from "./transact.ts";

export type StallEnv = {
  readonly FAIR: { readonly getByName: (name: string) => ReportsTo };
};

/**
 * Whether a reader already has this state. Always false for a rehearsal: each one counts its versions from the start,
 * so a wiped one had the same versions.
 */
const isKnown = ({ identity, version }: UnitOfWork["state"], have: Versions): boolean =>
  identity?.rehearsal !== true && hasVersion(have, version);

export class Stall extends DurableObject<StallEnv> {
  protected readonly transactions = new Transactions(this.ctx.storage);
  readonly #alarm = new AlarmWork(this.transactions, {
    fairOf: ({ fair }) => this.env.FAIR.getByName(fair),
    deployment: { bindings: bindingsOf(this.env), hosts: pinnedHosts(this.env) },
  });
  #queue: Versioned<string> | null = null;

  /** A call that carries the id of the request it serves; a refusal it ends in is counted. */
  async under(request: string, method: string, values: readonly unknown[]): Promise<unknown> {
    const answer = await carryOut(this, request, method, values);
    const code = refusalIn(answer);
    if (code !== null) this.transactions.count(code);
    return answer;
  }

  /** Whether there is a stall here. */
  exists(): boolean {
    return this.transactions.unit.state.identity !== null;
  }

  /** Whether crew keys of this generation still work. */
  admits(generation: number): boolean {
    return this.transactions.admits(generation);
  }

  /** Writes and reads a row of its own, so that a health check reaches the storage. */
  touch(): number {
    const { store } = this.transactions;
    store.put("touched", Number(store.get("touched") ?? 0) + 1);
    return Number(store.get("touched"));
  }

  override alarm(): Promise<void> {
    return this.#alarm.ring();
  }

  // ---- the fair

  open(
    identity: Identity,
    generation: number,
    earlierUntil: Instant,
    sending?: Sending,
    organiser?: OrganiserWord,
  ): void {
    open(this.transactions, identity, generation, earlierUntil, sending, organiser);
  }

  readAnnouncement(
    generation: number,
    key: WriteKey,
    id: AnnouncementId,
  ): Answer<{ readonly version: number }> {
    return readAnnouncement(this.transactions, generation, key, id);
  }

  // ---- the crew's commands

  setMenu(
    generation: number,
    key: WriteKey,
    command: Of<"set-menu">,
  ): Answer<{ readonly version: number; readonly menuVersion: number }> {
    return this.transactions.command(generation, key, command, ({ state: { version, menuVersion } }) => ({
      version,
      menuVersion,
    }));
  }

  /** What would keep a menu from being used now; changes nothing. */
  tryMenu(generation: number, menu: Menu): Answer<readonly Fault[]> {
    const { transactions } = this;
    if (!transactions.admits(generation)) return refused({ code: "old-key" });
    return ok(menuObstacles(transactions.unit.state, menu));
  }

  /** The menu and the opening stock of a plan, both or neither; `check` is kept with the answer. */
  acceptPlan(
    generation: number,
    key: WriteKey,
    command: Of<"accept-plan">,
    check: PlanTaken["check"],
  ): Answer<PlanTaken> {
    return this.transactions.command(generation, key, command, ({ state }, menu) => ({
      version: state.version,
      stock: stockView(state, menu),
      check,
    }));
  }

  changeStock(generation: number, key: WriteKey, command: Of<"change-stock">): Answer<StockView> {
    return this.transactions.command(generation, key, command, ({ state }, menu) => stockView(state, menu));
  }

  pull(generation: number, key: WriteKey, command: Of<"pull">): Answer<JobView | null> {
    return this.transactions.command(generation, key, command, ({ state, people }, menu) =>
      pressView(state, menu, command.press, people),
    );
  }

  onJob(generation: number, key: WriteKey, command: JobCommand): Answer<JobReply> {
    const { number, n } = jobParts(command.job);
    return this.transactions.command(generation, key, command, (unit) => jobReply(unit, number, n));
  }

  onOrder(generation: number, key: WriteKey, command: OrderCommand, paidTo?: string): Answer<CrewOrderView> {
    return this.transactions.command(generation, key, command, (unit, menu, now, _, events) => {
      noteTakers(unit, events, paidTo ?? null, now);
      if (command.type === "changed") noteChanged(unit, command.number, command.changes);
      const order = unit.state.anyOrder(command.number);
      if (order === undefined) throw new Error(`order ${command.number} is gone after its own command`);
      return crewOrderView(unit, menu, order, now, bindingsOf(this.env));
    });
  }

  exchange(
    generation: number,
    key: WriteKey,
    command: Omit<Of<"garment-exchanged">, "chance">,
  ): Answer<CrewOrderView> {
    return exchange(this.transactions, generation, key, command, bindingsOf(this.env));
  }

  undoExchange(
    generation: number,
    key: WriteKey,
    command: Of<"undo-garment-exchanged">,
  ): Answer<CrewOrderView> {
    return undoExchange(this.transactions, generation, key, command, bindingsOf(this.env));
  }

  /** Texts one of the crew's sentences to an order's customer. */
  textCustomer(generation: number, key: WriteKey, number: number, say: CrewSentence): Answer<CrewOrderView> {
    return textCustomer(this.transactions, generation, key, { number, say }, bindingsOf(this.env));
  }

  /** The drawer of a day, of today if none is named; null if it was never opened. */
  drawer(generation: number, day: Day | null): Answer<DrawerView | null> {
    return this.transactions.readAsCrew(generation, (unit, _, now) => drawerView(unit, day, now));
  }

  onDrawer(generation: number, key: WriteKey, command: DrawerCommand): Answer<DrawerView | null> {
    return this.transactions.command(generation, key, command, (unit, _, now) => drawerView(unit, null, now));
  }

  /** Throws a garment of the rack away, or lets it be sold. */
  unracked(generation: number, key: WriteKey, command: Of<"unracked">): Answer<RackView> {
    return this.transactions.command(generation, key, command, ({ state }, menu) => rackView(state, menu));
  }

  rack(generation: number): Answer<RackView> {
    return this.transactions.readAsCrew(generation, ({ state }, menu) => rackView(state, menu));
  }

  /** Fills the block of a counter's device up, and gives what the device does not have of it. */
  giveNumbers(generation: number, key: WriteKey, wanted: NumbersWanted): Answer<readonly Numbered[]> {
    const chances = Array.from({ length: BLOCK_SIZE }, () => this.transactions.chance());
    const command = { type: "give-numbers", ...wanted, chances } as const;
    return this.transactions.command(generation, key, command, ({ state }) =>
      blockOf(state, wanted.device).filter(({ number }) => number > wanted.after),
    );
  }

  /** The presses, the hands at them, and whether orders are taken. */
  onFloor(generation: number, key: WriteKey, command: FloorCommand): Answer<FloorView> {
    return this.transactions.command(generation, key, command, ({ state }, menu, now) =>
      floorView(state, menu, now),
    );
  }

  /** Stops web orders, or takes them again; texts and the counter go on. */
  setWebOrders(
    generation: number,
    key: WriteKey,
    command: Of<"set-web-orders">,
  ): Answer<{ readonly open: boolean }> {
    return this.transactions.command(generation, key, command, ({ state }) => ({
      open: state.status.webOrders,
    }));
  }

  takeLessons(
    generation: number,
    key: WriteKey,
    command: Of<"take-lessons">,
  ): Answer<{ readonly taken: number }> {
    return this.transactions.command(generation, key, command, () => ({ taken: command.lessons.length }));
  }

  onAccount(generation: number, key: WriteKey, command: DayCommand): Answer<accounts.DayStanding> {
    return this.transactions.command(generation, key, command, ({ state }) => ({
      day: command.day,
      closed: isClosed(state.account, command.day),
    }));
  }

  countPassersBy(
    generation: number,
    key: WriteKey,
    command: Of<"count-passers-by">,
  ): Answer<accounts.PassersByCounted> {
    return this.transactions.command(generation, key, command, (unit, _, now) =>
      accounts.passersByCounted(unit, now),
    );
  }

  // ---- pictures of designs

  setPicture(
    generation: number,
    key: WriteKey,
    design: DesignId,
    kept: KeptPicture | null,
  ): Answer<PicturesView> {
    return pictures.setPicture(this.transactions, generation, key, design, kept);
  }

  picturesOf(generation: number): Answer<PicturesView> {
    return this.transactions.readAsCrew(generation, ({ state }) => pictures.picturesView(state));
  }

  picture(mark: PictureMark): Answer<pictures.SeenPicture | null> {
    return pictures.seePicture(this.transactions, mark);
  }

  // ---- customers

  /** A whole order at once, by the crew for a walk-up or by a customer. */
  place(key: WriteKey, request: PlaceRequest): Answer<PlacedReply> {
    return place(this.transactions, key, request, bindingsOf(this.env));
  }

  chat(said: texts.Said): Answer<texts.ChatAnswer> {
    return texts.chat(this.transactions, said, bindingsOf(this.env));
  }

  history(customer: CustomerId, after: number): Answer<texts.ChatPage> {
    return texts.history(this.transactions, customer, after, bindingsOf(this.env));
  }

  eraseCustomer(customer: CustomerId): Answer<null> {
    return texts.eraseCustomer(this.transactions, customer);
  }

  peopleKept(): Answer<PeopleKept> {
    return texts.peopleKept(this.transactions);
  }

  text(said: texts.Said, fair: FromFair): Answer<texts.ChatAnswer> {
    this.#alarm.noteGateway(fair.gateway);
    return texts.text(this.transactions, said, fair);
  }

  askWhich(said: texts.Said, fair: FromFair, stalls: readonly texts.ListedStall[]): Answer<texts.ChatAnswer> {
    this.#alarm.noteGateway(fair.gateway);
    return texts.askWhich(this.transactions, said, fair, stalls);
  }

  setStopped(number: CustomerId, stopped: boolean): void {
    texts.stopTexts(this.transactions, number, stopped);
  }

  receipt(id: string, how: "delivered" | "failed"): void {
    texts.receipt(this.transactions, id, how);
  }

  // ---- the stall on the move

  carry(generation: number): Answer<CarriedStall> {
    return moving.carry(this.transactions, generation);
  }

  takeCarried(
    generation: number,
    key: WriteKey,
    carried: CarriedStall,
    kept: readonly PictureOf[],
  ): Answer<{ readonly version: number }> {
    return moving.takeCarried(this.transactions, generation, key, carried, kept);
  }

  everything(generation: number, from: Cursor | null): Answer<SavedPage> {
    return moving.everything(this.transactions, generation, from);
  }

  /** Whether a customer's token or an order's claim was given out at the stall's earlier place. */
  wasIssued(name: string, hash: string): boolean {
    return wasIssued(this.transactions.store, name, hash);
  }

  takeEverything(generation: number, key: WriteKey, read: loading.ReadPart): Answer<loading.WholeTaken> {
    return loading.takeEverything(this.transactions, generation, key, read);
  }

  takePart(
    generation: number,
    which: { readonly upload: string; readonly part: number },
    read: loading.ReadPart,
  ): Answer<loading.PartsTaken> {
    return loading.takePart(this.transactions, generation, which, read);
  }

  takeWhole(
    generation: number,
    key: WriteKey,
    all: { readonly upload: string; readonly parts: number },
  ): Answer<loading.WholeTaken> {
    return loading.takeWhole(this.transactions, generation, key, all);
  }

  /** Where the stall has moved to; null while it is here. Open to all, as its page is. */
  movedTo(): string | null {
    return this.transactions.movedTo;
  }

  moved(generation: number): Answer<MovedTo> {
    return this.transactions.admits(generation) ? ok({ to: this.movedTo() }) : refused({ code: "old-key" });
  }

  setMoved(generation: number, key: WriteKey, to: string | null): Answer<MovedTo> {
    return setMoved(this.transactions, generation, key, to);
  }

  forRehearsal(generation: number): Answer<rehearsal.ForRehearsal> {
    return rehearsal.forRehearsal(this.transactions, generation);
  }

  rehearse(key: WriteKey, given: Rehearsal, access: Access): Answer<null> {
    this.#queue = null;
    return rehearsal.rehearse(this.transactions, key, given, access);
  }

  endRehearsal(): void {
    this.#queue = null;
    rehearsal.endRehearsal(this.transactions);
  }

  // ---- what readers see

  /** How often the stall refused, by reason. */
  refusals(generation: number): Answer<RefusalView> {
    const { transactions } = this;
    if (!transactions.admits(generation)) return refused({ code: "old-key" });
    return ok(refusalView(transactions.unit.people));
  }

  /**
   * The queue as JSON: one rendering serves every screen until something changes. If the tablet of a press asks, its
   * reserve fills first.
   */
  pressQueue(generation: number, have: Versions, press?: PressId): Answer<Versioned<string>> {
    const { gone } = this.transactions;
    if (gone !== null && this.transactions.admits(generation)) return gone;
    if (press !== undefined) hearPress(this.transactions, generation, press);
    return this.transactions.readAsCrew(generation, (unit, menu, now) => {
      const { state, people } = unit;
      const { version } = state;
      const rests = restsUntil(unit, now);
      // A pause of texts, or an hour without limit, ends without a new version: such a view must not be kept by its
      // tag.
      if (rests !== null || liftedUntil(state, now) !== null) {
        const view = JSON.stringify(queueView(state, menu, now, rests, people));
        return { version, view, lasts: false };
      }
      if (isKnown(state, have)) return { version, view: null };
      if (this.#queue?.version !== version)
        this.#queue = { version, view: JSON.stringify(queueView(state, menu, now, null, people)) };
      return this.#queue;
    });
  }

  board(have: Versions): Answer<Versioned<BoardView>> {
    return this.transactions.readAsCustomer(({ state }, _, now) => ({
      version: state.version,
      view: isKnown(state, have) ? null : boardView(state, now),
    }));
  }

  menu(): Answer<MenuView> {
    return this.transactions.readAsCustomer(({ state }, menu, now) => menuView(state, menu, now));
  }

  /** The menu as it was set and its version, for the crew's own pages; null before the first. */
  wholeMenu(generation: number): Answer<{ readonly menu: Menu | null; readonly version: number }> {
    const { transactions } = this;
    if (!transactions.admits(generation)) return refused({ code: "old-key" });
    const { menu, menuVersion: version } = transactions.unit.state;
    return ok({ menu, version });
  }

  /** What the open orders need. */
  needs(generation: number): Answer<OpenNeeds> {
    return this.transactions.readAsCrew(generation, ({ state }) => openNeeds(state));
  }

  stock(generation: number): Answer<StockView> {
    return this.transactions.readAsCrew(generation, ({ state }, menu) => stockView(state, menu));
  }

  closeout(generation: number, day: Day | null): Answer<Closeout> {
    return accounts.readCloseout(this.transactions, generation, day);
  }

  keptPlan(generation: number): Answer<KeptPlan | null> {
    return accounts.keptPlan(this.transactions, generation);
  }

  daySoFar(generation: number): Answer<DaySoFar | null> {
    return accounts.readDaySoFar(this.transactions, generation);
  }

  lessons(generation: number): Answer<readonly Lessons[]> {
    return accounts.readLessons(this.transactions, generation);
  }

  /** An order as its customer sees it; the caller has checked the claim. */
  order(number: number): Answer<OrderView> {
    const open = this.transactions.readAsCustomer((unit, menu, now) => ({ unit, menu, now }));
    return seeOrder(open, number, ({ state }, menu, order, now) => orderView(state, menu, order, now));
  }

  crewOrder(generation: number, number: number): Answer<CrewOrderView> {
    const open = this.transactions.readAsCrew(generation, (unit, menu, now) => ({ unit, menu, now }));
    return seeOrder(open, number, (unit, menu, order, now) =>
      crewOrderView(unit, menu, order, now, bindingsOf(this.env)),
    );
  }

  openOrders(generation: number): Answer<OpenOrders> {
    return this.transactions.readAsCrew(generation, (unit, menu) =>
      openOrders(unit, menu, bindingsOf(this.env)),
    );
  }

  /** The whole number of an order's customer, for a crew that has to call; the screens show its end only. */
  phone(generation: number, number: number): Answer<PhoneNumber | null> {
    const open = this.transactions.readAsCrew(generation, (unit, menu, now) => ({ unit, menu, now }));
    return seeOrder(open, number, (unit, _, order) => phoneOf(unit, order));
  }
}
