/**
 * The only way to read a stall, decide, change, commit, and forget: one synchronous transaction a call, and the one
 * alarm. Memory is a cache of the records: whatever breaks off half-way leaves it ahead of them, so it is thrown away.
 */

import { ok, refused } from "../model/basics/result.ts";
import type { WriteKey } from "../model/basics/write-key.ts";
import type { Menu } from "../model/menu/catalogue.ts";
import type { Answer } from "../model/orders/refusal.ts";
import type { Instant } from "../time/instants.ts";
import { nextDue } from "./messages/agenda.ts";
import { noteErasing } from "./messages/erasing.ts";
import { tell } from "./messages/notices.ts";
import { reportDue } from "./messages/report-to-fair.ts";
import type { Command } from "./rules/commands.ts";
import type { StallEvent } from "./state/shapes/event.ts";
import type { Write } from "./state/table.ts";
import { Homes, type Loading } from "./storage/homes.ts";
import { recorded, recording } from "./storage/recorded-answers.ts";
import { type Store, write } from "./storage/records.ts";
import { countRefusal } from "./storage/refusal-counts.ts";
import { UnitOfWork } from "./storage/unit-of-work.ts";

/** The part of the platform's storage that a stall uses. */
export type StallStorage = Pick<DurableObjectStorage, "kv" | "transactionSync" | "setAlarm" | "deleteAlarm">;

/** Adds rows to the call's transaction that are outside the stall's own tables. */
type MoreWrites = (writes: readonly Write[]) => void;

/**
 * An alarm overdue by this much, in milliseconds, is set again: after a clock was moved forward, a local runtime still
 * waits by the old clock.
 */
const OVERDUE = 10_000;

const earliest = (one: Instant | null, other: Instant | null): Instant | null =>
  one === null || other === null ? (one ?? other) : Math.min(one, other);

export class Transactions {
  readonly #storage: StallStorage;
  #unit: UnitOfWork | null = null;
  #alarmAt: Instant | null = null;
  readonly #homes: Homes;

  constructor(storage: StallStorage) {
    this.#storage = storage;
    this.#homes = new Homes(storage.kv);
  }

  get store(): Store {
    return this.#homes.store;
  }

  /** The stall as it is; read from the records if memory has none. To change it, use `transact`. */
  get unit(): UnitOfWork {
    if (this.#unit !== null) return this.#unit;
    const unit = new UnitOfWork(this.store);
    this.#unit = unit;
    if (!unit.forward.isDone) this.schedule(this.now());
    return unit;
  }

  /** The time of this call: nothing below asks for it again. */
  now(): Instant {
    return Date.now();
  }

  /** A number in [0, 1) for what the rules leave to chance. */
  chance(): number {
    return Math.random();
  }

  /**
   * Does one piece of work and writes all that it changed in one transaction. If the work or the write throws, nothing
   * is written and memory is forgotten: the records are right.
   */
  transact<T>(work: (unit: UnitOfWork, now: Instant, also: MoreWrites) => T): T {
    const now = this.now();
    const more: Write[] = [];
    try {
      const { unit } = this;
      const value = work(unit, now, (writes) => more.push(...writes));
      noteErasing(unit, now);
      const writes = [...unit.drain(), ...more];
      if (writes.length > 0) this.#storage.transactionSync(() => write(this.store, writes));
      this.schedule(now);
      return value;
    } catch (error) {
      this.#forget();
      throw error;
    }
  }

  #forget(): void {
    this.#unit = null;
    this.#homes.forget();
  }

  /** Moves the stall's rows, in one transaction; they are read again when they are next needed. */
  rehouse<T>(now: Instant, work: (homes: Homes) => T): T {
    try {
      const value = this.#storage.transactionSync(() => {
        const before = this.store;
        const done = work(this.#homes);
        if (this.store !== before) {
          this.#unit = null;
          noteErasing(this.unit, now);
          write(this.store, this.unit.drain());
        }
        return done;
      });
      this.schedule(now);
      return value;
    } catch (error) {
      this.#forget();
      throw error;
    }
  }

  /** The whole stall that is being loaded here, part by part. */
  get loading(): Loading | null {
    return this.#homes.loading;
  }

  /** Clears a page of what a load that was broken off has left. */
  clearLeft(now: Instant): void {
    const due = this.#homes.due(now);
    if (due !== null && due <= now) this.rehouse(now, (homes) => homes.clear(now));
  }

  /** The stall and its menu for a reader, or why there is nothing to read. */
  read<T>(view: (unit: UnitOfWork, menu: Menu, now: Instant) => T): Answer<T> {
    const { unit } = this;
    if (unit.state.identity === null) return refused({ code: "no-such-stall" });
    const { menu } = unit.state;
    return menu === null ? refused({ code: "no-menu" }) : ok(view(unit, menu, this.now()));
  }

  /** Where the stall has moved to; null while it is here. */
  get movedTo(): string | null {
    return this.unit.people.moved.get("")?.to ?? null;
  }

  /** Why nothing is taken here any more; null while the stall is here. */
  get gone(): Answer<never> | null {
    const to = this.movedTo;
    return to === null ? null : refused({ code: "moved", to });
  }

  /** The same for customers, who are sent on if the stall has moved. */
  readAsCustomer<T>(view: (unit: UnitOfWork, menu: Menu, now: Instant) => T): Answer<T> {
    return this.gone ?? this.read(view);
  }

  /** The same for the crew, whose key must still be good. */
  readAsCrew<T>(generation: number, view: (unit: UnitOfWork, menu: Menu, now: Instant) => T): Answer<T> {
    return this.admits(generation) ? this.read(view) : refused({ code: "old-key" });
  }

  /** Whether a crew key of this generation opens the stall. If so, the crew counts as present. */
  admits(generation: number): boolean {
    const { unit } = this;
    const access = unit.people.access.get("");
    if (access === undefined) return false;
    const now = this.now();
    const earlier = generation === access.generation - 1 && now < access.earlierUntil;
    if (generation !== access.generation && !earlier) return false;
    unit.noticed.crewAt = now;
    // Nothing is written here, so nothing else would set the alarm that reports to the fair.
    if (reportDue(unit, now) === now) this.schedule(now);
    return true;
  }

  /** Does a write once. A repeated write gets the recorded answer and changes nothing. */
  once<T>(key: WriteKey, work: (unit: UnitOfWork, now: Instant, also: MoreWrites) => Answer<T>): Answer<T> {
    // The scope names the route, and a route records answers of one type only.
    const before = recorded(this.store, key, this.now()) as Answer<T> | null;
    if (before !== null) return before;
    return this.transact((unit, now, also) => {
      const answer = work(unit, now, also);
      // Asked of a place without a stall it writes nothing.
      if (unit.state.identity !== null) also([recording(key, answer, now)]);
      return answer;
    });
  }

  /** Carries out a command of the crew, queues texts to the customers it concerns, and answers. */
  command<T>(
    generation: number,
    key: WriteKey,
    command: Command,
    reply: (unit: UnitOfWork, menu: Menu, now: Instant, also: MoreWrites, events: readonly StallEvent[]) => T,
  ): Answer<T> {
    if (!this.admits(generation)) return refused({ code: "old-key" });
    if (this.gone !== null) return this.gone;
    return this.once(key, (unit, now, also) => {
      const { events, refusal } = unit.carryOut(command, now);
      const { menu } = unit.state;
      if (menu !== null) tell(unit, menu, events, now);
      if (refusal !== null) return refused(refusal);
      return menu === null ? refused({ code: "no-menu" }) : ok(reply(unit, menu, now, also, events));
    });
  }

  /** Counts a refusal by its reason; the counts are written now and then, else with the next change. */
  count(code: string): void {
    const { state, people } = this.unit;
    if (state.identity !== null && countRefusal(people, code, this.now())) this.transact(() => undefined);
  }

  /** Sets the object's only alarm to the earliest thing due, unless it is set to that already. */
  schedule(now: Instant): void {
    const due = earliest(nextDue(this.unit, now), this.#homes.due(now));
    if (due === null) return;
    const set = this.#alarmAt;
    if (set !== null && set <= due && set > now - OVERDUE) return;
    this.ring(Math.max(due, now));
  }

  /** Sets the alarm to an instant. */
  ring(at: Instant): void {
    this.#alarmAt = at;
    void this.#storage.setAlarm(at);
  }

  /** The alarm that was set has rung. */
  rang(): void {
    this.#alarmAt = null;
  }

  /** Forgets everything that was ever written here: only a rehearsal's object ever does. */
  wipe(): void {
    const { kv } = this.#storage;
    const keys = [...kv.list({ prefix: "" })].map(([key]) => key);
    this.#storage.transactionSync(() => {
      for (const key of keys) kv.delete(key);
    });
    this.#forget();
    this.#alarmAt = null;
    void this.#storage.deleteAlarm();
  }
}
