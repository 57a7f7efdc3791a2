/** Counters that lose their signal: they number orders from their blocks, keep them, and send them later, each once. */

import type { Random } from "../../../src/maths/random.ts";
import type { StallId } from "../../../src/model/basics/ids.ts";
import type { DeviceId, Numbered } from "../../../src/model/orders/counter.ts";
import {
  type Block,
  begunAgain,
  numbersWanted,
  takeNumber,
  withNumbers,
} from "../../../src/screens/client/crew/offline.ts";
import type { PlaceRequest } from "../../../src/stall/calls/customer.ts";
import { ids } from "../../ids.ts";
import type { Crews } from "./crew.ts";
import { RuleBroken } from "./fault.ts";
import { Lost } from "./host.ts";
import { type House, idFor, STALLS } from "./house.ts";
import { mark } from "./marks.ts";
import { atCounter } from "./menu.ts";

/** The allowed refusals of a late order: its garment was removed from the menu. */
const MENU_CHANGED: ReadonlySet<string> = new Set(["no-menu", "no-such-offer", "no-such-choice"]);

type Kept = {
  readonly id: string;
  readonly numbered: Numbered | null;
  readonly command: PlaceRequest["command"];
  late: boolean;
  once: string;
};

type Till = { block: Block; orders: Kept[]; offlineUntil: number; sending: boolean; asked: number };

export class Counters {
  /** Orders that have no answer yet. */
  pending = 0;
  readonly #house: House;
  readonly #crews: Crews;
  readonly #fail: (error: unknown) => void;
  readonly #tills = new Map<string, Till>();

  constructor(house: House, crews: Crews, fail: (error: unknown) => void) {
    this.#house = house;
    this.#crews = crews;
    this.#fail = fail;
  }

  act(index: number, random: Random): void {
    const stall = ids.stall(random.pick(STALLS));
    const device = `counter_${stall}_${random.below(2)}`.padEnd(22, "_");
    const till = this.#tills.get(device) ?? {
      block: begunAgain(device),
      orders: [],
      offlineUntil: 0,
      sending: false,
      asked: 0,
    };
    this.#tills.set(device, till);
    const { world } = this.#house;
    if (random.chance(0.3)) till.offlineUntil = world.clock + random.below(600_000);
    const isOffline = till.offlineUntil > world.clock;
    if (!isOffline) this.#run(this.#fill(stall, till));
    for (let n = 1 + random.below(3); n > 0; n--) this.#take(till, `${index}-${n}`, isOffline, random);
    if (!till.sending) this.#run(this.#send(stall, till));
  }

  #run(work: Promise<void>): void {
    this.pending += 1;
    work.catch(this.#fail).finally(() => {
      this.pending -= 1;
    });
  }

  #take(till: Till, id: string, late: boolean, random: Random): void {
    const { block, taken } = takeNumber(till.block);
    till.block = block;
    const paid = random.chance(0.7) ? { paid: { tender: random.pick(["cash", "card"] as const) } } : {};
    const command = {
      type: "place",
      customer: idFor(`counter ${id}`),
      takenBy: "counter",
      lines: [{ ...atCounter(random), quantity: 1 + random.below(2) }],
      asks: [0],
      takenAt: this.#house.world.clock,
      ...(taken === null ? {} : { block: { ...taken, device: block.device as DeviceId } }),
      ...paid,
    } as unknown as Kept["command"]; // plain ids
    till.orders.push({ id, numbered: taken, command, late, once: `counter ${id}` });
  }

  async #fill(stall: StallId, till: Till): Promise<void> {
    const wanted = numbersWanted(till.block);
    if (wanted === null) return;
    till.asked += 1;
    const id = `numbers ${till.block.device} ${till.asked}`;
    const cell = this.#house.stall(stall);
    try {
      const answer = await this.#house.between(() =>
        cell.call((object) =>
          object.giveNumbers(this.#crews.generation(stall), { scope: id, fingerprint: id }, wanted),
        ),
      );
      mark(answer);
      if (answer.ok) till.block = withNumbers(till.block, wanted.device, answer.value);
    } catch (error) {
      if (!(error instanceof Lost)) throw error;
    }
  }

  /** Sends the kept orders, in order, until all are answered. */
  async #send(stall: StallId, till: Till): Promise<void> {
    const { world } = this.#house;
    till.sending = true;
    for (let order = till.orders[0]; order !== undefined; order = till.orders[0]) {
      const wait = till.offlineUntil - world.clock;
      // A clock that is set back must not keep a counter from its signal.
      if (wait > 0) {
        till.offlineUntil = 0;
        await world.sleep(Math.min(wait, 600_000));
      }
      if (await this.#sendOne(stall, order)) till.orders.shift();
      else await world.sleep(700);
    }
    till.sending = false;
  }

  /** Sends one order. Returns whether none of it is left to send. */
  async #sendOne(stall: StallId, order: Kept): Promise<boolean> {
    const { numbered, late, once } = order;
    const cell = this.#house.stall(stall);
    const key = { scope: `crew ${once}`, fingerprint: once };
    const command = { ...order.command, ...(late ? { late: true as const } : {}) };
    const given = { name: null, phone: null, number: null, address: null, isUnknown: false };
    try {
      const generation = this.#crews.generation(stall);
      const answer = await this.#house.between(() =>
        cell.call((object) => object.place(key, { command, ...given, generation })),
      );
      this.#house.world.note(`${stall} ${once} ${JSON.stringify(answer)}`);
      mark(answer);
      if (!answer.ok) return this.#refused(order, answer.refusal.code);
      const { number, word, short = 0 } = answer.value;
      if (numbered !== null && (numbered.number !== number || numbered.word !== word))
        throw new RuleBroken(
          "pickup numbers",
          `${numbered.number} ${numbered.word} became ${number} ${word}`,
        );
      if (short > 0 && !late) throw new RuleBroken("late orders", `${number} is short and was not late`);
      const watch = this.#house.watch(stall);
      watch.acknowledge(answer.value);
      watch.look();
      const orders = watch.tally.ordersOf.get(order.command.customer) ?? 0;
      if (orders !== 1) throw new RuleBroken("nothing twice", `${number} stands ${orders} times`);
      return true;
    } catch (error) {
      if (!(error instanceof Lost)) throw error;
      return false;
    }
  }

  #refused(order: Kept, code: string): boolean {
    // The tablet is given the new link, and sends with that.
    if (code === "old-key") return false;
    if (order.late && !MENU_CHANGED.has(code))
      throw new RuleBroken("late orders", `${order.id} was refused: ${code}`);
    if (order.late || code !== "sold-out") return true;
    // Its customer has left with the number by now.
    order.late = true;
    order.once = `${order.once} late`;
    return false;
  }
}
