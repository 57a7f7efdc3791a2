/** Runs objects as the platform does: one of each name, started when called, gone between any two calls. */
import { Life, Rows, StorageFailed, storageFor } from "./storage.ts";
import type { World } from "./world.ts";

/** The call got no answer: it may have been carried out or not. */
export class Lost extends Error {}

type Alarming = { readonly alarm: () => Promise<void> };
type Started<T> = { readonly object: T; readonly life: Life };

export type Faultiness = {
  /** The delay of alarms, in milliseconds. */
  alarmLate: number;
  alarmTwice: number;
  /** The time of a call between objects. */
  callTakes: number;
};

/** One object's rows and alarm, and its present life. */
export class Cell<T extends Alarming> {
  readonly rows = new Rows();
  readonly name: string;
  alarmAt: number | null = null;
  readonly #world: World;
  readonly #faults: Faultiness;
  readonly #make: (ctx: unknown) => T;
  #started: Started<T> | null = null;
  #busy = 0;
  #ringing = false;
  #set = 0;

  constructor(name: string, world: World, faults: Faultiness, make: (ctx: unknown) => T) {
    this.name = name;
    this.#world = world;
    this.#faults = faults;
    this.#make = make;
  }

  /** The object if it is in memory. */
  get awake(): T | null {
    return this.#started === null || this.#started.life.over ? null : this.#started.object;
  }

  /** Calls the object. Rejects with `Lost` if it died before it answered. */
  async call<R>(work: (object: T) => R | Promise<R>): Promise<R> {
    const { object, life } = this.#start();
    this.#busy += 1;
    try {
      const answer = await Promise.race([work(object), life.ended]);
      if (life.over) throw new Lost(`${this.name} died before it answered`);
      return answer;
    } catch (error) {
      if (error instanceof StorageFailed) throw new Lost(`${this.name}: ${error.message}`);
      throw error;
    } finally {
      this.#busy -= 1;
    }
  }

  /** Removes it from memory if it is idle. */
  evict(): boolean {
    if (this.#busy > 0 || this.#ringing) return false;
    this.#started = null;
    return true;
  }

  /** Ends it at once, whatever it was doing. */
  kill(): void {
    this.#started?.life.end();
    this.#started = null;
  }

  /** Ends it for good: its alarm rings no more. */
  leave(): void {
    this.kill();
    this.#clearAlarm();
  }

  /** Ends it right after its next write. */
  killAfterCommit(): void {
    this.#start().life.endsAfterCommit = true;
  }

  refuseWrite(): void {
    this.rows.refusals += 1;
  }

  /** The clock was set: the platform looks at its alarms again. */
  lookAtAlarm(): void {
    if (this.alarmAt !== null) this.#set_(this.alarmAt);
  }

  #start(): Started<T> {
    if (this.#started?.life.over) this.#started = null;
    this.#started ??= this.#begin();
    return this.#started;
  }

  #begin(): Started<T> {
    const life = new Life();
    const cell = this;
    const alarm = {
      get at() {
        return cell.alarmAt;
      },
      set: (at: number) => cell.#set_(at),
      clear: () => cell.#clearAlarm(),
    };
    const storage = storageFor(this.rows, life, alarm);
    return { object: this.#make({ storage }), life };
  }

  #clearAlarm(): void {
    this.alarmAt = null;
    this.#set += 1;
  }

  #set_(at: number): void {
    this.alarmAt = at;
    this.#set += 1;
    const mine = this.#set;
    const late = this.#faults.alarmLate === 0 ? 0 : this.#world.random.below(this.#faults.alarmLate);
    this.#world.later(at - this.#world.clock + late, () => {
      if (mine === this.#set && this.alarmAt !== null) void this.#ring();
    });
  }

  async #ring(): Promise<void> {
    const due = this.alarmAt;
    if (due === null) return;
    // One alarm at a time; and a clock set back makes it wait again.
    if (this.#ringing || this.#world.clock < due) {
      this.#set_(Math.max(due, this.#world.clock + 100));
      return;
    }
    this.#ringing = true;
    this.alarmAt = null;
    const again = this.#world.random.chance(this.#faults.alarmTwice);
    const { object, life } = this.#start();
    this.#world.note(`alarm ${this.name}`);
    try {
      await Promise.race([object.alarm(), life.ended]);
    } catch (error) {
      if (!(error instanceof StorageFailed)) throw error;
    }
    this.#ringing = false;
    // The platform repeats an alarm that did not end, and may repeat one that did.
    if ((life.over || again) && this.alarmAt === null) this.#set_(this.#world.clock + 2000);
  }
}
