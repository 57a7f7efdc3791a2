/** A stall's press floor on a virtual clock: the real `step` decides, this only lets time pass. */
import type { Random } from "../../src/maths/random.ts";
import { jobId, type PressId } from "../../src/model/basics/ids.ts";
import type { WantedLine } from "../../src/model/orders/order.ts";
import { quoteSeconds } from "../../src/stall/line/quote.ts";
import { step } from "../../src/stall/rules/step.ts";
import type { StallState } from "../../src/stall/state/state.ts";
import { lineFor } from "../../src/stall/stock/offers.ts";
import { carryOut, customerOf } from "./stall.ts";

type Arrival = { readonly at: number; readonly lines: readonly WantedLine[] };
/** A press that stops for a while; if nobody reports it, the garment on it stays there as long. */
type Breakdown = {
  readonly press: PressId;
  readonly from: number;
  readonly until: number;
  readonly told: boolean;
};

export type Floor = {
  readonly state: StallState;
  readonly arrivals: readonly Arrival[];
  readonly breakdowns: readonly Breakdown[];
  /** Whether customers order by text and may be refused, or the crew accepts everybody. */
  readonly takenBy: "text" | "counter";
  readonly handlingSeconds: (at: number) => number;
  /** How many garments can be worked on at once, whatever the presses; and what the crew reports of it, when. */
  readonly hands: (at: number) => number;
  readonly handsTold: readonly { readonly at: number; readonly hands: number }[];
  /** The real time of a platen from one temperature to another. */
  readonly changeSeconds: (press: PressId, fromFahrenheit: number, toFahrenheit: number) => number;
  readonly spoilShare: number;
  readonly chance: Random;
};

/** One order as it went; times in milliseconds, the unrounded quote in seconds. */
export type Lived = {
  readonly placedAt: number;
  readonly readyAt: number;
  readonly garments: number;
  readonly quotedSeconds: number;
  readonly dueBy: number;
};

export type Day = {
  readonly orders: readonly Lived[];
  readonly turnedAway: number;
  readonly endsAt: number;
  /** Events by type, for what a test wants to count. */
  readonly counts: ReadonlyMap<string, number>;
};

type Due =
  | { readonly at: number; readonly what: "arrival"; readonly arrival: Arrival }
  | { readonly at: number; readonly what: "done"; readonly press: PressId; readonly job: string }
  | { readonly at: number; readonly what: "breaks" | "mended"; readonly breakdown: Breakdown }
  | { readonly at: number; readonly what: "told"; readonly hands: number };

/** Lives through everything that is due, in order of time, until nothing is. */
export function live(floor: Floor): Day {
  const { state, chance } = floor;
  const { menu } = state;
  if (menu === null) throw new Error("the stall has no menu");
  const comes: Due[] = [
    ...floor.arrivals.map((arrival): Due => ({ at: arrival.at, what: "arrival", arrival })),
    ...floor.breakdowns.flatMap((breakdown): Due[] => [
      { at: breakdown.from, what: "breaks", breakdown },
      { at: breakdown.until, what: "mended", breakdown },
    ]),
    ...floor.handsTold.map(({ at, hands }): Due => ({ at, what: "told", hands })),
  ].sort((one, other) => one.at - other.at);
  const done = new Map<PressId, Extract<Due, { what: "done" }>>();
  const silent = new Set<PressId>();
  const open = new Map<number, Omit<Lived, "readyAt" | "dueBy">>();
  const orders: Lived[] = [];
  const counts = new Map<string, number>();
  let turnedAway = 0;
  let endsAt = 0;

  const run = (command: Parameters<typeof step>[1], now: number) => {
    const outcome = carryOut(state, command, now);
    for (const { type } of outcome.events) counts.set(type, (counts.get(type) ?? 0) + 1);
    return outcome;
  };

  function arrive({ at, lines }: Arrival): void {
    const priced = lines.map((wanted, index) => lineFor(menu as NonNullable<typeof menu>, wanted, index)); // seen above
    const quotedSeconds = quoteSeconds(
      state,
      menu as NonNullable<typeof menu>, // seen above
      priced.flatMap((line) => (line.ok ? [line.value] : [])),
      at,
    );
    const customer = customerOf(open.size + orders.length + turnedAway);
    const { events, refusal } = step(
      state,
      { type: "place", customer, takenBy: floor.takenBy, lines, asks: [], chance: chance.next() },
      at,
    );
    state.drain();
    for (const { type } of events) counts.set(type, (counts.get(type) ?? 0) + 1);
    if (refusal !== null) {
      if (refusal.code !== "line-too-long" && refusal.code !== "not-open")
        throw new Error(`place: ${JSON.stringify(refusal)}`);
      turnedAway += 1;
      return;
    }
    const placed = events.find((event) => event.type === "placed");
    if (placed === undefined) throw new Error("an accepted order left no event");
    open.set(placed.order.number, { placedAt: at, garments: placed.order.jobs.length, quotedSeconds });
  }

  function finish(press: PressId, job: string, now: number): void {
    done.delete(press);
    const { number, n } = state.orderIndex.onPress.get(press) ?? { number: 0, n: 0 };
    const id = jobId(number, n);
    if (id !== job) throw new Error(`press ${press} was thought to have ${job}`);
    if (chance.chance(floor.spoilShare)) {
      run({ type: "spoiled", job: id, lost: "both", reason: "crooked" }, now);
      return;
    }
    run({ type: "pressed", job: id }, now);
    const order = state.order(number);
    const lived = open.get(number);
    if (order?.readyAt == null || lived === undefined) return;
    orders.push({ ...lived, readyAt: now, dueBy: order.dueBy ?? 0 });
    open.delete(number);
    endsAt = now;
    run({ type: "closed", number, as: "collected" }, now);
  }

  function pull(press: PressId, now: number): void {
    const heat = state.press(press).heat?.fahrenheit ?? null;
    const { events } = run({ type: "pull", press }, now);
    const pulled = events.find((event) => event.type === "pulled");
    if (pulled === undefined) return;
    const change =
      pulled.set === null || heat === null ? 0 : floor.changeSeconds(press, heat, pulled.set.fahrenheit);
    const at = now + Math.round((change + floor.handlingSeconds(now)) * 1000);
    done.set(press, { at, what: "done", press, job: jobId(pulled.number, pulled.n) });
  }

  function breaks({ press, from, until, told }: Breakdown, now: number): void {
    const lying = done.get(press);
    if (told) {
      done.delete(press);
      run({ type: "press-down", press }, now);
    } else {
      silent.add(press);
      if (lying !== undefined) done.set(press, { ...lying, at: lying.at + until - from });
    }
  }

  function mended({ press, told }: Breakdown, now: number): void {
    silent.delete(press);
    if (told) run({ type: "press-up", press }, now);
  }

  for (let index = 0; index < comes.length || done.size > 0; ) {
    const next: Due | undefined = [...done.values()].reduce<Due | undefined>(
      (first, due) => (first === undefined || due.at < first.at ? due : first),
      comes[index],
    );
    if (next === undefined) break;
    const now = next.at;
    if (next.what === "done") finish(next.press, next.job, now);
    else {
      index += 1;
      if (next.what === "arrival") arrive(next.arrival);
      else if (next.what === "told") run({ type: "set-hands", hands: next.hands }, now);
      else if (next.what === "mended") mended(next.breakdown, now);
      else breaks(next.breakdown, now);
    }
    for (const { id } of menu.presses) {
      if (done.size >= floor.hands(now)) break;
      if (!done.has(id) && !silent.has(id) && state.press(id).downSince === null) pull(id, now);
    }
  }
  if (open.size > 0) throw new Error(`${open.size} orders never became ready`);
  return { orders, turnedAway, endsAt, counts };
}
