/**
 * The only way to read a fair's rows, change them, and forget: one synchronous transaction a change, and the one alarm.
 * Memory is a cache of the rows: if a change breaks off half-way, memory is thrown away and read back.
 */

import type { StallId } from "../model/basics/ids.ts";
import type { Currency } from "../model/basics/money.ts";
import type { WriteKey } from "../model/basics/write-key.ts";
import type { CreateFair } from "../model/fair/fair.ts";
import type { Instant } from "../time/instants.ts";
import { BucketRows } from "./bucket-rows.ts";
import { GatewayRows } from "./gateway-rows.ts";
import { Contacts } from "./organiser/contacts.ts";
import { OrganiserRows } from "./organiser/organiser-rows.ts";
import { mayBeOpened } from "./records.ts";
import type { SeenStall } from "./reports.ts";
import type { Rows } from "./rows.ts";
import { TellOutbox } from "./tell-outbox.ts";
import { TextRouting } from "./text-routing.ts";

export type FairRow = CreateFair & {
  readonly generation: number;
  readonly earlierUntil: Instant;
  /** The write that made it, so that its repeat is known. */
  readonly madeBy: WriteKey;
  /** The write that gave it its present key. */
  readonly rotatedBy: string | null;
  /** How often the name or hours were changed; absent until the first change. */
  readonly edition?: number;
  /** The write that changed them last, so that its repeat is known. */
  readonly changedBy?: WriteKey;
};

export type StallRow = {
  readonly stall: StallId;
  readonly name: string;
  /** The number of stalls added before it: its place in lists, which stays the same. */
  readonly added: number;
  readonly generation: number;
  readonly earlierUntil: Instant;
  /** The write that gave it its present key. */
  readonly rotatedBy: string | null;
  /** How often the row was written: the sum over the stalls is the version of the pace. */
  readonly changes: number;
  readonly heardAt: Instant | null;
  readonly crewAt: Instant | null;
  readonly paused: boolean;
  /** Whether the stall has a menu; absent if the stall never reported it. */
  readonly setUp?: boolean;
  readonly shares: Currency | null;
  /** What visitors see of it; absent if the stall never reported it. */
  readonly seen?: SeenStall | null;
  readonly version: number;
  readonly backlog: number;
  readonly soldOut: number;
  /** When all that waits is expected to be pressed. */
  readonly backlogEnds: Instant | null;
};

/** The part of the platform's storage that a fair uses. */
export type FairStorage = {
  readonly kv: Rows;
  readonly transactionSync: <T>(work: () => T) => T;
  readonly setAlarm: (at: Instant) => Promise<void>;
};

/** Values derived from the rows, kept in memory. */
class FairMemory {
  readonly gatewayRows: GatewayRows;
  readonly buckets: BucketRows;
  readonly stalls: Map<StallId, StallRow>;

  constructor(kv: FairStorage["kv"], now: Instant) {
    this.gatewayRows = new GatewayRows(kv);
    this.buckets = new BucketRows(kv, now);
    const rows = [...kv.list<StallRow>({ prefix: "stall:" })].map(([, row]) => row);
    rows.sort((one, other) => one.added - other.added);
    this.stalls = new Map(rows.map((row) => [row.stall, row]));
  }
}

export class FairTransactions {
  readonly #storage: FairStorage;
  readonly routing: TextRouting;
  readonly outbox: TellOutbox;
  readonly organiser: OrganiserRows;
  readonly contacts: Contacts;
  #memory: FairMemory | null = null;
  #alarmAt: Instant | null = null;

  constructor(storage: FairStorage) {
    mayBeOpened(storage.kv);
    this.#storage = storage;
    this.routing = new TextRouting(storage.kv);
    this.outbox = new TellOutbox(storage.kv);
    this.organiser = new OrganiserRows(storage.kv);
    this.contacts = new Contacts(storage.kv);
  }

  get kv(): FairStorage["kv"] {
    return this.#storage.kv;
  }

  get #known(): FairMemory {
    this.#memory ??= new FairMemory(this.kv, this.now());
    return this.#memory;
  }

  get gatewayRows(): GatewayRows {
    return this.#known.gatewayRows;
  }

  get buckets(): BucketRows {
    return this.#known.buckets;
  }

  /** The time of this call: nothing below asks for it again. */
  now(): Instant {
    return Date.now();
  }

  /** Changes rows in one transaction. If the work throws, none is changed and memory is forgotten. */
  transact<T>(work: (now: Instant) => T): T {
    const now = this.now();
    try {
      const value = this.#storage.transactionSync(() => work(now));
      this.schedule(now);
      return value;
    } catch (error) {
      this.#memory = null;
      throw error;
    }
  }

  fair(): FairRow | undefined {
    return this.kv.get<FairRow>("fair");
  }

  stall(stall: StallId): StallRow | undefined {
    return this.#known.stalls.get(stall);
  }

  stalls(): readonly StallRow[] {
    return [...this.#known.stalls.values()];
  }

  /** Writes a stall's row; call it inside a change. */
  saveStall(given: StallRow): void {
    const row = { ...given, changes: given.changes + 1 };
    this.kv.put(`stall:${row.stall}`, row);
    this.#known.stalls.set(row.stall, row);
  }

  /** Whether an organiser key of this generation still works. */
  admits(generation: number): boolean {
    const fair = this.fair();
    if (fair === undefined) return false;
    return (
      generation === fair.generation || (generation === fair.generation - 1 && this.now() < fair.earlierUntil)
    );
  }

  /** Sets the alarm to the earliest thing due, unless it is set to that already. */
  schedule(now: Instant): void {
    const due = [this.outbox.nextDue(), this.kv.get<Instant>("erase-at")].filter((at) => at !== undefined);
    if (due.length === 0) return;
    const at = Math.max(now, Math.min(...due));
    if (this.#alarmAt !== null && this.#alarmAt <= at && this.#alarmAt > now) return;
    this.#alarmAt = at;
    void this.#storage.setAlarm(at);
  }

  /** The alarm that was set has rung. */
  rang(): void {
    this.#alarmAt = null;
  }
}
