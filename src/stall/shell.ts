/**
 * What every call on a stall's object shares: the books in memory, one synchronous transaction a call,
 * recorded answers, the crew's keys, and the one alarm.
 */
import { DurableObject } from "cloudflare:workers";
import type { ReportsTo } from "../fair/reports.ts";
import type { Menu } from "../model/catalogue.ts";
import type { Answer, Refusal, WriteRefusal } from "../model/refusal.ts";
import { carryOut } from "../tracing/calls.ts";
import { nextDue } from "./agenda.ts";
import { Books } from "./books.ts";
import type { Command } from "./commands.ts";
import type { Instant } from "./facts.ts";
import { recorded, recording, type WriteKey } from "./once.ts";
import { type Store, write } from "./records.ts";
import { countRefusal, refusalIn } from "./refusals.ts";
import { reportDue } from "./reporting.ts";
import type { Write } from "./table.ts";
import { tell } from "./telling.ts";

export type StallEnv = {
  readonly FAIR: { readonly getByName: (name: string) => ReportsTo };
};

export const refused = (refusal: Refusal | WriteRefusal): Answer<never> => ({ done: false, refusal });
export const done = <T>(value: T): Answer<T> => ({ done: true, value });

/**
 * An alarm that should have rung so long ago is set anew. Where the clock was set forward, a runtime on somebody's own
 * computer still waits as long as it would have been by the old one.
 */
const OVERDUE = 10_000;

export abstract class StallShell extends DurableObject<StallEnv> {
  #books: Books | null = null;
  #alarmAt: Instant | null = null;

  protected get store(): Store {
    return this.ctx.storage.kv;
  }

  /** The books as they stand; read from the records where memory has none. */
  protected get books(): Books {
    this.#books ??= new Books(this.store);
    return this.#books;
  }

  /** The stall and its menu for a reader, or why there is nothing to read. */
  protected read<T>(view: (books: Books, menu: Menu) => T): Answer<T> {
    const { books } = this;
    if (books.state.identity === null) return refused({ code: "no-such-stall" });
    const { menu } = books.state;
    return menu === null ? refused({ code: "no-menu" }) : done(view(books, menu));
  }

  /** The same for the crew, whose key must still be good. */
  protected readAsCrew<T>(generation: number, view: (books: Books, menu: Menu) => T): Answer<T> {
    return this.keyWorks(generation) ? this.read(view) : refused({ code: "old-key" });
  }

  /** A call that carries the id of the request it serves; a refusal it ends in is counted. */
  async under(request: string, method: string, values: readonly unknown[]): Promise<unknown> {
    const answer = await carryOut(this, request, method, values);
    const code = refusalIn(answer);
    if (code !== null && this.books.state.identity !== null) {
      const now = Date.now();
      if (countRefusal(this.books.people, code, now)) this.commit(now);
    }
    return answer;
  }

  /** Whether there is a stall here. */
  exists(): boolean {
    return this.books.state.identity !== null;
  }

  /** Whether crew keys of this generation still work. */
  admits(generation: number): boolean {
    return this.keyWorks(generation);
  }

  /** Whether the crew key of a generation opens the stall; if so, a device of the crew is there. */
  protected keyWorks(generation: number): boolean {
    const access = this.books.people.access.get("");
    if (access === undefined) return false;
    const now = Date.now();
    const earlier = generation === access.generation - 1 && now < access.earlierUntil;
    if (generation !== access.generation && !earlier) return false;
    this.books.noticed.crewAt = now;
    // With nothing to write, nothing else would set the alarm that tells the fair of the crew.
    if (reportDue(this.books, now) === now) this.schedule(now);
    return true;
  }

  /** Does a write unless the very same was done before; the answer is recorded with what it changed. */
  protected once<T>(key: WriteKey, work: (books: Books, now: Instant) => Answer<T>): Answer<T> {
    const now = Date.now();
    // The scope names the route, and a route records answers of one type only.
    const before = recorded(this.store, key, now) as Answer<T> | null;
    if (before !== null) return before;
    const { books } = this;
    const answer = this.#orForget(() => work(books, now));
    if (books.state.identity !== null) this.commit(now, [recording(key, answer, now)]);
    return answer;
  }

  /** Carries out a command of the crew, tells the customers it concerns, and answers. */
  protected crew<T>(
    generation: number,
    key: WriteKey,
    command: Command,
    reply: (books: Books, menu: Menu, now: Instant) => T,
  ): Answer<T> {
    if (!this.keyWorks(generation)) return refused({ code: "old-key" });
    return this.once(key, (books, now) => {
      const { events, refusal } = books.carryOut(command, now);
      const { menu } = books.state;
      if (menu !== null) tell(books, menu, events, now);
      if (refusal !== null) return refused(refusal);
      return menu === null ? refused({ code: "no-menu" }) : done(reply(books, menu, now));
    });
  }

  /** Writes all that changed in one transaction. If that fails, memory is forgotten: the records are right. */
  protected commit(now: Instant, more: readonly Write[] = []): void {
    const { books } = this;
    this.#orForget(() =>
      this.ctx.storage.transactionSync(() => write(this.store, [...books.take(), ...more])),
    );
    this.schedule(now);
  }

  /** What breaks off half-way leaves memory ahead of the records: it is forgotten, and read back. */
  #orForget<T>(work: () => T): T {
    try {
      return work();
    } catch (error) {
      this.#books = null;
      throw error;
    }
  }

  /** Forgets memory: the records are read back when they are next needed. */
  protected forget(): void {
    this.#books = null;
  }

  /** Sets the object's only alarm to the earliest thing due, where it is not set to that already. */
  protected schedule(now: Instant): void {
    const due = nextDue(this.books, now);
    if (due === null) return;
    const set = this.#alarmAt;
    if (set !== null && set <= due && set > now - OVERDUE) return;
    this.#alarmAt = Math.max(due, now);
    void this.ctx.storage.setAlarm(this.#alarmAt);
  }

  /** Forgets everything that was ever written here: only a rehearsal's object ever does. */
  protected wipe(): void {
    const keys = [...this.store.list({ prefix: "" })].map(([key]) => key);
    this.ctx.storage.transactionSync(() => {
      for (const key of keys) this.store.delete(key);
    });
    this.#books = null;
    this.#alarmAt = null;
    void this.ctx.storage.deleteAlarm();
  }

  /** The alarm that was set has rung. */
  protected rang(): void {
    this.#alarmAt = null;
  }
}
