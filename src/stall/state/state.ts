/** One stall's state: its rows, and the values derived from them. Only apply.ts changes it. */

import type { Identity } from "../../fair/reports.ts";
import type { DayCosts } from "../../model/accounts/day-costs.ts";
import type { Lessons } from "../../model/accounts/lessons.ts";
import type { CustomerId, PressId } from "../../model/basics/ids.ts";
import type { PictureFacts } from "../../model/garment/picture.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { Numbered } from "../../model/orders/counter.ts";
import type { KeptPlan } from "../../model/planning/kept-plan.ts";
import type { Bucket } from "../../time/bucket.ts";
import type { Instant } from "../../time/instants.ts";
import { type Account, NOTHING_CLOSED } from "./account.ts";
import { NOTHING_COUNTED, onHand } from "./counts.ts";
import type { DayChoice, DayPiece, DayTotals } from "./day-rows.ts";
import { OrderIndex } from "./order-index.ts";
import { orderKey } from "./orders.ts";
import { NOTHING_TIMED, type Pace } from "./pace.ts";
import type { Announced } from "./shapes/event.ts";
import type { PlatenHeat } from "./shapes/job.ts";
import type { RackItem } from "./shapes/line.ts";
import type { Hold, Order } from "./shapes/order.ts";
import type { Count, PieceKey } from "./shapes/piece.ts";
import { Table, type Write } from "./table.ts";
import { type StoredRows, WriteBehindTable } from "./write-behind-table.ts";

/** The stall as a whole: the next pickup number, the people at the presses, and whether intake is stopped. */
export type StallStatus = {
  readonly nextNumber: number;
  readonly paused: { readonly reason: string; readonly since: Instant } | null;
  /** Set while the organiser has stopped all orders of the fair. */
  readonly fairStop?: FairStop | null;
  /** The number of people at the presses; null if there is one for each. */
  readonly hands: number | null;
  /** The closing time up to which the crew keeps intake open, whatever the line. */
  readonly keptOpen: Instant | null;
  /** The closing time for which last orders were called. */
  readonly lastOrders: Instant | null;
  /** Whether web orders are taken now. */
  readonly webOrders: boolean;
  /** Until when the crew lets web orders in without limit; absent or null: they are limited. */
  readonly claimsLiftedUntil?: Instant | null;
  /** How often the menu was set; absent before the first. */
  readonly menuVersion?: number;
  /** Pieces the crew took off the menu: no new order can have them. */
  readonly offMenu: readonly PieceKey[];
};

/** A stop of all orders by the organiser. */
export type FairStop = {
  readonly reason: string;
  /** When pressing, and so every wait, stopped; or when orders stopped, if the presses go on. */
  readonly since: Instant;
  readonly pressing: boolean;
};

/** An announcement of the organiser; `readAt` is null until the crew has read it. */
export type KeptAnnouncement = Announced & { readonly readAt: Instant | null };

export type PressState = {
  readonly downSince: Instant | null;
  /** Null until something was pulled for it: its temperature is unknown. */
  readonly heat: PlatenHeat | null;
  /** Whether garments are reserved for it. */
  readonly reserves: boolean;
  /** When its tablet last asked for the queue, to within two minutes; absent if it never did. */
  readonly heardAt?: Instant;
  /** The garments released after silence, until the tablet has shown them. */
  readonly letGo?: {
    readonly at: Instant;
    readonly silentSince: Instant;
    readonly jobs: readonly { readonly number: number; readonly n: number }[];
  };
};

export const FIRST_STATUS: StallStatus = {
  nextNumber: 101,
  paused: null,
  hands: null,
  keptOpen: null,
  lastOrders: null,
  webOrders: true,
  offMenu: [],
};
const UNTOUCHED_PRESS: PressState = { downSince: null, heat: null, reserves: false };
const ONLY = "";
/** The prefix of what is known of each design's picture. */
export const PICTURE = "picture:";

export class StallState {
  /** How many commands were accepted: the sequence of the last journal entry. */
  version = 0;
  /** The last entry at which every row was written out; the entries after it carry those that were not. */
  writtenOut = 0;
  readonly orderIndex = new OrderIndex();
  readonly #identity = new Table<Identity>("identity");
  readonly #menu = new Table<Menu>("menu");
  readonly #status = new Table<StallStatus>("desk");
  readonly #pace = new Table<Pace>("pace");
  readonly #account = new Table<Account>("account");
  readonly counts = new Table<Count>("stock:");
  readonly orders = new Table<Order>("order:", {
    changed: (before, after) => this.orderIndex.orderChanged(before, after),
  });
  readonly holds = new Table<Hold>("hold:", {
    changed: (before, after) => this.orderIndex.holdChanged(before, after),
  });
  readonly presses = new Table<PressState>("press:");
  /** The unused pickup numbers of each counter device, lowest first. */
  readonly blocks = new Table<readonly Numbered[]>("block:");
  /** Pressed garments that nobody took, by job id. */
  readonly rack = new Table<RackItem>("rack:");
  /** The money to give back on orders that are over, by number, in minor units. */
  readonly owed = new Table<number>("owed:");
  /** The latest announcements of the organiser, by id. */
  readonly announcements = new Table<KeptAnnouncement>("announcement:");
  /** By design; the bytes are rows of their own, read when a page asks for them. */
  readonly pictures = new Table<PictureFacts>(PICTURE);
  readonly past: Table<Order>;
  readonly buckets: Table<Bucket>;
  readonly dayTotals: WriteBehindTable<DayTotals>;
  readonly dayPieces: WriteBehindTable<DayPiece>;
  readonly dayChoices: WriteBehindTable<DayChoice>;
  readonly dayCosts: Table<DayCosts>;
  /** What other fairs taught. */
  readonly lessons: Table<Lessons>;
  readonly #plan: Table<KeptPlan>;

  /** `stored` gives the rows that are not held in memory: a finished order, an older bucket, a day's account. */
  constructor(stored?: StoredRows) {
    const read = stored && ((key: string) => stored.get(key));
    // The rows under these prefixes were written from these very types.
    this.past = new Table<Order>("past:", read && { read: (key) => read(key) as Order | undefined });
    this.buckets = new Table<Bucket>("bucket:", read && { read: (key) => read(key) as Bucket | undefined });
    this.dayTotals = new WriteBehindTable<DayTotals>("day:", stored);
    this.dayPieces = new WriteBehindTable<DayPiece>("day-piece:", stored);
    this.dayChoices = new WriteBehindTable<DayChoice>("day-choice:", stored);
    this.dayCosts = new Table<DayCosts>(
      "day-costs:",
      read && { read: (key) => read(key) as DayCosts | undefined },
    );
    this.#plan = new Table<KeptPlan>("plan", read && { read: (key) => read(key) as KeptPlan | undefined });
    this.lessons = new Table<Lessons>("lesson:", read && { read: (key) => read(key) as Lessons | undefined });
  }

  /** Null until the stall was opened: an object asked about a stall that does not exist. */
  get identity(): Identity | null {
    return this.#identity.get(ONLY) ?? null;
  }

  /** Null until a menu was set. */
  get menu(): Menu | null {
    return this.#menu.get(ONLY) ?? null;
  }

  get status(): StallStatus {
    return this.#status.get(ONLY) ?? FIRST_STATUS;
  }

  get pace(): Pace {
    return this.#pace.get(ONLY) ?? NOTHING_TIMED;
  }

  get account(): Account {
    return this.#account.get(ONLY) ?? NOTHING_CLOSED;
  }

  press(press: PressId): PressState {
    return this.presses.get(press) ?? UNTOUCHED_PRESS;
  }

  count(piece: PieceKey): Count {
    return this.counts.get(piece) ?? NOTHING_COUNTED;
  }

  free(piece: PieceKey): number {
    return onHand(this.count(piece)) - this.orderIndex.promises.of(piece);
  }

  order(number: number): Order | undefined {
    return this.orders.get(orderKey(number));
  }

  hold(customer: CustomerId): Hold | undefined {
    return this.holds.get(customer);
  }

  /** An order that is open or finished. */
  anyOrder(number: number): Order | undefined {
    return this.order(number) ?? this.past.get(orderKey(number));
  }

  setIdentity(identity: Identity): void {
    this.#identity.set(ONLY, identity);
  }

  /** How often the menu was set: what an edit of it is based on. */
  get menuVersion(): number {
    return this.status.menuVersion ?? 0;
  }

  setMenu(menu: Menu): void {
    this.#menu.set(ONLY, menu);
    this.setStatus({ ...this.status, menuVersion: this.menuVersion + 1 });
  }

  setStatus(status: StallStatus): void {
    this.#status.set(ONLY, status);
  }

  setPace(pace: Pace): void {
    this.#pace.set(ONLY, pace);
  }

  setAccount(account: Account): void {
    this.#account.set(ONLY, account);
  }

  /** The plan that the stall was filled from; null if it was filled from none. */
  get plan(): KeptPlan | null {
    return this.#plan.get(ONLY) ?? null;
  }

  keepPlan(plan: KeptPlan): void {
    this.#plan.set(ONLY, plan);
  }

  /** The tables whose rows are all in memory, by record prefix: what loading fills and checking compares. */
  get tables() {
    return [
      this.#identity,
      this.#menu,
      this.#status,
      this.#pace,
      this.#account,
      this.counts,
      this.orders,
      this.holds,
      this.presses,
      this.blocks,
      this.rack,
      this.owed,
      this.pictures,
      this.announcements,
    ] as const;
  }

  /** The tables whose rows are read by key: they grow with history, and memory does not. */
  get readByKey() {
    return [this.past, this.buckets, this.dayCosts, this.lessons, this.#plan] as const;
  }

  /** The account of the days, written behind: it changes with nearly every command. */
  get writeBehind() {
    return [this.dayTotals, this.dayPieces, this.dayChoices] as const;
  }

  /** The rows to write since the last call, without those written behind. */
  drain(): Write[] {
    return [...this.tables, ...this.readByKey].flatMap((table) => table.drain());
  }
}
