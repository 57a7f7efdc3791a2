/** A press's tablet and what really lies on its press: signal comes and goes, taps wait, and garments get pressed. */
import type { JobId, PressId } from "../../src/model/basics/ids.ts";
import { jobId } from "../../src/model/basics/ids.ts";
import { SILENT_FOR } from "../../src/stall/line/reserve.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { hearingChanges } from "../../src/stall/rules/decide/reserving.ts";
import type { StallState } from "../../src/stall/state/state.ts";
import type { TestStall } from "./test-stall.ts";

/** What really happened to the garments of a day, whatever the stall knows. */
export type World = {
  readonly stall: TestStall;
  now: number;
  /** How often each garment was pressed. */
  readonly pressed: Map<JobId, number>;
  /** Garments that lie on each press. */
  readonly lies: Map<PressId, JobId>;
};

const stageOf = (state: StallState, job: JobId): string | undefined => {
  const [number = 0, n = 0] = job.split("-").map(Number);
  return state.order(number)?.jobs.find((one) => one.n === n)?.stage;
};

/** A press's tablet, with an operator who believes it and looks at the other press when told to. */
export class Tablet {
  signal = true;
  readonly #world: World;
  readonly #press: PressId;
  readonly #taps: Command[] = [];
  /** The reserve as the tablet last saw it, without the garments it has taken or given back since. */
  #reserve: readonly JobId[] = [];
  #heardAt = Number.NEGATIVE_INFINITY;
  /** An answer to a pull was lost on its way: what the stall put on the press, unknown here. */
  #unheard: JobId | null = null;

  constructor(world: World, press: PressId) {
    this.#world = world;
    this.#press = press;
    world.stall.run({ type: "set-reserve", press, on: true }, world.now);
  }

  get waiting(): number {
    return this.#taps.length;
  }

  #run(command: Command) {
    return this.#world.stall.run(command, this.#world.now);
  }

  #onPress(): JobId | null {
    const on = this.#world.stall.state.orderIndex.onPress.get(this.#press);
    return on === undefined ? null : jobId(on.number, on.n);
  }

  /** Sends the taps that wait, in order. */
  flush(): void {
    if (this.signal) this.#hearPull();
    while (this.signal && this.#taps.length > 0) this.#sendFirst();
  }

  /** The pull that was under way is answered as it was the first time; if the operator took another garment, that goes back. */
  #hearPull(): void {
    const got = this.#unheard;
    this.#unheard = null;
    if (got === null) return;
    const then = this.#taps.find(({ type }) => type === "pull");
    if (then === undefined) return this.#lay(got);
    if (then.type === "pull" && then.job !== got && this.#onPress() === got)
      this.#run({ type: "returned", job: got });
  }

  /** Lays on the press what the stall pulled for it. */
  #lay(job: JobId): void {
    this.#reserve = this.#reserve.filter((other) => other !== job);
    const tap = this.#lookFirst(job);
    if (tap === null) this.#world.lies.set(this.#press, job);
    else this.#run(tap);
  }

  #sendFirst(): void {
    const tap = this.#taps.shift();
    if (tap === undefined) return;
    const { refusal } = this.#run(tap);
    // What follows of a garment that never came onto this press is not sent.
    const refused = refusal !== null || (tap.type === "pull" && this.#onPress() !== tap.job);
    if (tap.type !== "pull" || !refused) return;
    for (let at = this.#taps.length - 1; at >= 0; at -= 1) {
      const other = this.#taps[at];
      if ((other?.type === "pressed" || other?.type === "returned") && other.job === tap.job)
        this.#taps.splice(at, 1);
    }
  }

  /** Asks for the queue: that may come before the taps are sent, or after. */
  look(): void {
    if (!this.signal) return;
    const { stall, now } = this.#world;
    const { menu } = stall.state;
    if (menu !== null && hearingChanges(stall.state, menu, this.#press, now))
      this.#run({ type: "fill-reserve", press: this.#press });
    this.#heardAt = now;
    const { state } = this.#world.stall;
    const takes = new Set(this.#taps.flatMap((tap) => (tap.type === "pull" ? [tap.job] : [])));
    const gives = new Set(this.#taps.flatMap((tap) => (tap.type === "reserve-returned" ? tap.jobs : [])));
    const own = [...(state.orderIndex.reserved.get(this.#press) ?? [])].map(({ number, n }) =>
      jobId(number, n),
    );
    this.#reserve = own.filter((job) => !takes.has(job) && !gives.has(job));
    if (state.press(this.#press).letGo !== undefined)
      this.#taps.push({ type: "set-reserve", press: this.#press, on: true });
    const asked = this.#reserve.filter((job) => {
      const [number = 0, n = 0] = job.split("-").map(Number);
      const found = state.order(number)?.jobs.find((one) => one.n === n);
      return found?.stage === "reserved" && found.askedBack === true;
    });
    if (asked.length === 0) return;
    this.#taps.push({ type: "reserve-returned", press: this.#press, jobs: asked });
    this.#reserve = this.#reserve.filter((job) => !asked.includes(job));
  }

  /** Takes the next garment, by the stall's answer or from the reserve; `lost`: the answer does not arrive. */
  take(lost: boolean): void {
    const { lies, now } = this.#world;
    if (lies.has(this.#press)) return;
    if (!this.signal) {
      const [first, ...rest] = this.#reserve;
      if (first === undefined || now - this.#heardAt >= SILENT_FOR) return;
      this.#reserve = rest;
      this.#taps.push({ type: "pull", press: this.#press, job: first, at: now });
      const tap = this.#lookFirst(first);
      if (tap === null) lies.set(this.#press, first);
      else this.#taps.push(tap);
      return;
    }
    this.flush();
    if (lies.has(this.#press)) return;
    this.#run({ type: "pull", press: this.#press });
    const got = this.#onPress();
    if (lost) {
      this.signal = false;
      this.#unheard = got;
      return;
    }
    if (got !== null) this.#lay(got);
  }

  /** The operator looks where the tag says. Returns the tap if the garment is pressed or lies there, else null. */
  #lookFirst(job: JobId): Command | null {
    const { pressed, lies, stall } = this.#world;
    const [number = 0, n = 0] = job.split("-").map(Number);
    const silent = stall.state.order(number)?.jobs.find((one) => one.n === n)?.letGo ?? [];
    if (silent.length === 0) return null;
    const at = { job, press: this.#press, at: this.#world.now };
    if ((pressed.get(job) ?? 0) > 0) return { type: "pressed", ...at };
    const isThere = silent.some(({ press }) => press !== this.#press && lies.get(press) === job);
    return isThere ? { type: "returned", ...at } : null;
  }

  /** The garment on the press is pressed. */
  press(): void {
    const { lies, pressed, now } = this.#world;
    const job = lies.get(this.#press);
    if (job === undefined) return;
    lies.delete(this.#press);
    pressed.set(job, (pressed.get(job) ?? 0) + 1);
    this.#taps.push({ type: "pressed", job, press: this.#press, at: now });
    this.flush();
  }
}

/** Garments that wait, are reserved or lie on a press, as the stall has it. */
export const unpressed = ({ stall }: World, jobs: readonly JobId[]): readonly JobId[] =>
  jobs.filter((job) => stageOf(stall.state, job) !== "pressed");
