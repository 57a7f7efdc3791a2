/** Simulated time: happenings in order of their instant, and a clock that may be set forward or back. */

import { type Random, seededRandom } from "../../../src/maths/random.ts";
import { RuleBroken } from "./fault.ts";

/** More than this at one instant is something that sets itself off again and again. */
const SPINNING = 2000;

type Happening = { readonly at: number; readonly sequence: number; readonly happen: () => void };

const before = (one: Happening, other: Happening): boolean =>
  one.at < other.at || (one.at === other.at && one.sequence < other.sequence);

export class World {
  /** Chance for everything that is not a plan's own. */
  readonly random: Random;
  /** Called after everything that happened, once all that follows at the same instant has run. */
  after: () => void = () => {};
  #at: number;
  #offset = 0;
  #latest = 0;
  #sequence = 0;
  #trace = 0x811c9dc5;
  readonly #heap: Happening[] = [];

  constructor(seed: number, starts: number) {
    this.random = seededRandom(seed);
    this.#at = starts;
  }

  /** The time on the objects' clock. */
  get clock(): number {
    return this.#at + this.#offset;
  }

  /** Moves the clock by this many milliseconds; running waits take as long as before. */
  jump(milliseconds: number): void {
    this.#latest = Math.max(this.#latest, this.clock);
    this.#offset += milliseconds;
  }

  /** The clock is right again: no earlier than it ever showed. */
  putRight(): void {
    this.#offset += Math.max(0, this.#latest - this.clock);
  }

  /** Runs something after this many milliseconds. */
  later(milliseconds: number, happen: () => void): void {
    const item = { at: this.#at + Math.max(0, milliseconds), sequence: this.#sequence++, happen };
    let place = this.#heap.push(item) - 1;
    while (place > 0) {
      const parent = (place - 1) >> 1;
      const above = this.#heap[parent];
      if (above === undefined || before(above, item)) break;
      this.#heap[place] = above;
      place = parent;
    }
    this.#heap[place] = item;
  }

  readonly sleep = (milliseconds: number): Promise<void> =>
    new Promise((resolve) => this.later(milliseconds, resolve));

  /** Lets this many milliseconds pass, with everything due in them. */
  async pass(milliseconds: number): Promise<void> {
    const until = this.#at + milliseconds;
    let still = 0;
    for (let next = this.#heap[0]; next !== undefined && next.at <= until; next = this.#heap[0]) {
      this.#take();
      still = next.at === this.#at ? still + 1 : 0;
      if (still > SPINNING)
        throw new RuleBroken("time goes on", "something happens again and again at one instant");
      this.#at = next.at;
      next.happen();
      await settled();
      this.after();
    }
    this.#at = until;
  }

  /** Adds to the trace of the run: two runs that did the same have the same trace (FNV-1a, 32 bits). */
  note(what: string): void {
    const said = `${this.clock} ${what}`;
    for (let at = 0; at < said.length; at++)
      this.#trace = Math.imul(this.#trace ^ said.charCodeAt(at), 0x01000193);
  }

  get trace(): string {
    return (this.#trace >>> 0).toString(16).padStart(8, "0");
  }

  #take(): void {
    const last = this.#heap.pop();
    if (last === undefined || this.#heap.length === 0) return;
    let place = 0;
    for (;;) {
      let child = 2 * place + 1;
      const right = this.#heap[child + 1];
      let least = this.#heap[child];
      if (least === undefined) break;
      if (right !== undefined && before(right, least)) {
        child += 1;
        least = right;
      }
      if (before(last, least)) break;
      this.#heap[place] = least;
      place = child;
    }
    this.#heap[place] = last;
  }
}

/** All that follows from what happened and waits for nothing has run. */
export const settled = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
