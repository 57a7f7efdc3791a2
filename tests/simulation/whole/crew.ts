/** The crews and the organiser: what they do, and that they do it again with the same key when no answer came. */

import type { Random } from "../../../src/maths/random.ts";
import { type JobId, jobId, type PressId, type StallId } from "../../../src/model/basics/ids.ts";
import type { WriteKey } from "../../../src/model/basics/write-key.ts";
import type { Menu } from "../../../src/model/menu/catalogue.ts";
import type { WantedLine } from "../../../src/model/orders/order.ts";
import type { Answer } from "../../../src/model/orders/refusal.ts";
import { StockEntry } from "../../../src/model/orders/stock.ts";
import type { DrawerCommand } from "../../../src/stall/rules/account-commands.ts";
import type { OrderChange, PaymentGiven } from "../../../src/stall/rules/commands.ts";
import type { RackItem } from "../../../src/stall/state/shapes/line.ts";
import type { Order } from "../../../src/stall/state/shapes/order.ts";
import { ids } from "../../ids.ts";
import { same } from "./fault.ts";
import { Lost } from "./host.ts";
import { type House, idFor, type OpenStall, STALLS } from "./house.ts";
import { mark } from "./marks.ts";
import { atCounter, CHOICES, PIECES } from "./menu.ts";
import type { ActKind } from "./plan.ts";

const TRIES = 6;
const ENDINGS = [
  "collected",
  "collected",
  "collected",
  "dropped",
  "uncollected",
  "refunded",
  "exchanged",
] as const;
/** The fair's day, and the one after: it goes on past midnight. */
const DAYS = ["2027-06-12", "2027-06-13"] as const;
export const PRESSES = ["A", "B", "C"] as const;

/** A change that a customer wants at the counter: one garment or two, not always possible ones. */
function changesOf(order: Order | undefined, random: Random): readonly OrderChange[] {
  const jobs = order?.jobs ?? [];
  const n = jobs.length === 0 ? 1 : random.pick(jobs).n;
  const garment = atCounter(random) as unknown as WantedLine; // the menu's own ids
  const one = random.pick<OrderChange>([
    { type: "instead", jobs: [n], garment },
    { type: "instead", jobs: jobs.map((job) => job.n), garment },
    { type: "add", line: { ...garment, quantity: 1 + random.below(2) } },
    { type: "take-off", jobs: [n] },
  ]);
  return random.chance(0.3) ? [one, { type: "add", line: { ...garment, quantity: 1 } }] : [one];
}

/** How an order is paid: at once, part by part, or with something on top. */
function paymentOf(order: Order | undefined, random: Random): PaymentGiven {
  const tender = random.pick(["cash", "card"] as const);
  const total = order?.due ?? order?.total ?? 2000;
  const tip = random.chance(0.2) ? { tip: 100 + random.below(400) } : {};
  if (total < 2 || random.chance(0.7)) return { tender, ...tip };
  const first = 1 + random.below(total - 1);
  const parts = [
    { tender, amount: first },
    { tender: random.pick(["cash", "card", "other"] as const), amount: total - first },
  ];
  return { tender, parts, ...tip };
}

/** A discount, sometimes more than the price, or its undo. */
function discountOf(order: Order | undefined, random: Random) {
  const by = random.pick([
    { amount: 100 + random.below(900) },
    { amount: 50_000 },
    { partsPerMillion: 100_000 },
    { partsPerMillion: 1_000_000 },
  ]);
  const off = random.chance(0.2) ? null : { by, reason: random.pick(["crew", "gift", "sorry"] as const) };
  const jobs = (order?.jobs ?? []).slice(0, 1).map(({ n }) => n);
  return random.chance(0.4) && jobs.length > 0 ? { off, jobs } : { off };
}

type Write<T> = (stall: OpenStall, key: WriteKey) => Answer<T>;

export class Crews {
  /** Writes that have no answer yet. */
  pending = 0;
  readonly generations = new Map<StallId, number>();
  readonly menus = new Map<StallId, Menu>();
  readonly #house: House;
  readonly #fail: (error: unknown) => void;
  #last: { readonly start: () => void; readonly stall: StallId; readonly key: WriteKey } | null = null;

  constructor(house: House, fail: (error: unknown) => void) {
    this.#house = house;
    this.#fail = fail;
  }

  generation(stall: StallId): number {
    return this.generations.get(stall) ?? 1;
  }

  /** The open orders of a stall, as a crew sees them on its screens. */
  orders(stall: StallId): readonly Order[] {
    const { rows } = this.#house.stall(stall);
    return rows.keysOf("order:").map((key) => rows.peek(key) as Order); // rows of that prefix
  }

  #past(stall: StallId): readonly string[] {
    return this.#house.stall(stall).rows.keysOf("past:");
  }

  /** Sends a write until it is answered; a repeat must get the same answer. */
  write<T>(stall: StallId, id: string, write: Write<T>, answered: (value: T) => void = () => {}): void {
    const { world } = this.#house;
    const key = { scope: `crew ${id}`, fingerprint: id };
    const cell = this.#house.stall(stall);
    let first: string | null = null;
    const send = async (): Promise<void> => {
      for (let attempt = 1; ; attempt++) {
        try {
          const answer = await this.#house.between(() => cell.call((object) => write(object, key)));
          world.note(`${stall} ${id} ${JSON.stringify(answer)}`);
          mark(answer);
          if (answer.ok) answered(answer.value);
          // A key that was replaced in the meantime opens nothing, not even a recorded answer.
          if (!answer.ok && answer.refusal.code === "old-key") return;
          if (first !== null) same("nothing twice", `${stall} ${id}`, answer, JSON.parse(first));
          first ??= JSON.stringify(answer);
          return;
        } catch (error) {
          if (!(error instanceof Lost)) throw error;
          if (attempt >= TRIES) return;
          await world.sleep(500 * attempt);
        }
      }
    };
    const start = (): void => {
      this.pending += 1;
      send()
        .catch(this.#fail)
        .finally(() => {
          this.pending -= 1;
        });
    };
    this.#last = { start, stall, key };
    start();
  }

  /** Sends the last write once more, as a tablet does that never heard the answer; or another one under its key. */
  again(random: Random): void {
    if (this.#last === null) return;
    const { start, stall, key } = this.#last;
    if (random.chance(0.7)) return start();
    const other = { ...key, fingerprint: "something else" };
    const cell = this.#house.stall(stall);
    cell
      .call((object) => object.onFloor(this.generation(stall), other, { type: "resume" }))
      .then(mark)
      .catch((error: unknown) => {
        if (!(error instanceof Lost)) this.#fail(error);
      });
  }

  act(kind: ActKind, index: number, random: Random): void {
    const stall = ids.stall(random.pick(STALLS));
    // Now and then somebody types something that is not there.
    const wrong = random.chance(0.03);
    const orders = this.orders(stall);
    const order = orders.length === 0 || wrong ? undefined : random.pick(orders);
    const number = order?.number ?? 100 + random.below(30);
    const pressing = orders.flatMap(({ number: of, jobs }) =>
      jobs.flatMap((job) => (job.stage === "pressing" ? [`${of}-${job.n}`] : [])),
    );
    const any = `${number}-${1 + random.below(Math.max(1, order?.jobs.length ?? 2))}`;
    const job = ids.job(pressing.length > 0 && random.chance(0.9) ? random.pick(pressing) : any);
    const press = ids.press(wrong ? "Z" : random.pick(PRESSES));
    const id = String(index);
    // A key from before the last change, now and then.
    const generation = random.chance(0.01) ? 0 : this.generation(stall);
    const onJob = (command: Parameters<OpenStall["onJob"]>[2]): void =>
      this.write(stall, id, (object, key) => object.onJob(generation, key, command));
    const onOrder = (command: Parameters<OpenStall["onOrder"]>[2]): void =>
      this.write(stall, id, (object, key) => object.onOrder(generation, key, command));
    const onFloor = (command: Parameters<OpenStall["onFloor"]>[2]): void =>
      this.write(stall, id, (object, key) => object.onFloor(generation, key, command));
    switch (kind) {
      case "pull": {
        const command = { type: "pull", press } as const;
        return this.write(stall, id, (object, key) => object.pull(generation, key, command));
      }
      case "pressed":
        return onJob({ type: "pressed", job });
      case "spoiled": {
        const lost = random.pick(["blank", "transfer", "both"] as const);
        const reason = random.pick(["crooked", "wrong-size", "peeled-badly"] as const);
        const rack = random.chance(0.3) ? { rack: random.chance(0.5) ? {} : { size: ids.size("M") } } : {};
        return onJob({ type: "spoiled", job, lost, reason, ...rack });
      }
      case "undo-spoiled":
        return onJob({ type: "undo-spoiled", job: this.#spoiled(orders, random) ?? job });
      case "returned":
        return onJob({ type: "returned", job });
      case "undo-pressed":
        return onJob({ type: "undo-pressed", job: ids.job(any) });
      case "paid":
        return onOrder({ type: "paid", number, ...paymentOf(order, random) });
      case "discounted":
        return onOrder({ type: "discounted", number, ...discountOf(order, random) });
      case "keep":
        return onOrder({ type: "kept-unpaid", number });
      case "undo-paid":
        return onOrder({ type: "undo-paid", number });
      case "claimed":
        return onOrder({ type: "claimed", number });
      case "lift-claims":
        return onFloor({ type: "lift-claims", minutes: random.pick([null, 1, 60]) });
      case "changed":
        return onOrder({ type: "changed", number, changes: changesOf(order, random) });
      case "garment-refunded": {
        const back = this.#anyOrder(stall, orders, random);
        const jobs = (back?.jobs ?? []).slice(0, 1 + random.below(2)).map((one) => one.n);
        const keeps = random.chance(0.8);
        const of = back?.number ?? number;
        return onOrder({ type: "garment-refunded", number: of, jobs: jobs.length > 0 ? jobs : [1], keeps });
      }
      case "garment-exchanged": {
        const back = this.#anyOrder(stall, orders, random);
        const n = back === undefined || back.jobs.length === 0 ? 1 : random.pick(back.jobs).n;
        const fromRack = random.chance(0.4) ? this.#hanging(stall, random) : null;
        const instead = fromRack ?? (atCounter(random) as unknown as WantedLine); // the menu's own ids
        const command = {
          type: "garment-exchanged",
          number: back?.number ?? number,
          n,
          instead,
          keeps: true,
        } as const;
        return this.write(stall, id, (object, key) => object.exchange(generation, key, command));
      }
      case "undo-returned":
        return this.#undoReturned(stall, id, generation, orders, random);
      case "drawer": {
        const command = random.pick<DrawerCommand>([
          { type: "float-set", amount: 5000 },
          { type: "paid-out", amount: 100 + random.below(900), reason: "supplies" },
          { type: "drawer-counted", counted: random.below(30_000), handOver: random.chance(0.4) },
        ]);
        return this.write(stall, id, (object, key) => object.onDrawer(generation, key, command));
      }
      case "rack":
        return this.#rack(stall, id, generation, random);
      case "texted": {
        const say = random.pick(["five-minutes", "closing-soon", "come-back"] as const);
        const to = this.#anyOrder(stall, orders, random)?.number ?? number;
        return this.write(stall, id, (object, key) => object.textCustomer(generation, key, to, say));
      }
      case "left-out":
        return onOrder({ type: "left-out", number: this.#shortOne(orders, random) ?? number });
      case "given-back":
        return onOrder({ type: random.chance(0.2) ? "undo-given-back" : "given-back", number });
      case "closed": {
        const word = random.chance(0.05) ? { word: "nonesuch" } : {};
        // Some drop an order of which a press has garments in reserve.
        const kept = orders.filter(({ jobs }) => jobs.some(({ stage }) => stage === "reserved"));
        if (kept.length > 0 && random.chance(0.5))
          return onOrder({ type: "closed", number: random.pick(kept).number, as: "dropped" });
        return onOrder({ type: "closed", number, as: random.pick(ENDINGS), ...word });
      }
      case "undo-closed":
        return this.#reopen(stall, id, generation, random, number);
      case "stock":
        return this.#stock(stall, id, generation, random);
      case "press":
        return onFloor({ type: random.pick(["press-down", "press-up"] as const), press });
      case "reserve":
        return this.#reserve(orders, press, random, onFloor);
      case "look":
        return this.#look(stall, generation, press);
      case "hands":
        return onFloor({ type: "set-hands", hands: random.pick([null, 1, 2]) });
      case "pause":
        return onFloor(random.chance(0.5) ? { type: "pause", reason: "rain" } : { type: "resume" });
      case "intake": {
        if (random.chance(0.4)) return onFloor({ type: "keep-open", open: random.chance(0.5) });
        const command = { type: "set-web-orders", open: random.chance(0.6) } as const;
        return this.write(stall, id, (object, key) => object.setWebOrders(generation, key, command));
      }
      case "menu":
        return this.#menu(stall, id, generation, random);
      case "key":
        return this.#newKey(stall, id, random);
      case "day":
        return this.#day(stall, id, generation, random);
      default:
        return this.#read(stall, generation);
    }
  }

  /** Somebody comes to a press or leaves it, wants another's reserve, or a tablet confirms what it gives back. */
  #reserve(
    orders: readonly Order[],
    press: PressId,
    random: Random,
    onFloor: (command: Parameters<OpenStall["onFloor"]>[2]) => void,
  ): void {
    if (random.chance(0.3)) return onFloor({ type: "reserve-asked-back", press });
    const asked = orders.flatMap(({ number, jobs }) =>
      jobs.flatMap((job) =>
        job.stage === "reserved" && job.press === press && job.askedBack ? [jobId(number, job.n)] : [],
      ),
    );
    if (asked.length > 0) return onFloor({ type: "reserve-returned", press, jobs: asked });
    return onFloor({ type: "set-reserve", press, on: random.chance(0.8) });
  }

  /** The tablet of a press asks for the queue. */
  #look(stall: StallId, generation: number, press: PressId): void {
    this.#house
      .stall(stall)
      .call((object) => object.pressQueue(generation, [], press))
      .catch((error: unknown) => {
        if (!(error instanceof Lost)) this.#fail(error);
      });
  }

  /** A garment that was just spoiled, if there is one. */
  #spoiled(orders: readonly Order[], random: Random): JobId | null {
    const found = orders.flatMap(({ number, jobs }) =>
      jobs.flatMap(({ n, spoiled }) => (spoiled === undefined ? [] : [`${number}-${n}`])),
    );
    return found.length === 0 ? null : ids.job(random.pick(found));
  }

  /** An order that is open, or one that is over. */
  #anyOrder(stall: StallId, orders: readonly Order[], random: Random): Order | undefined {
    const past = this.#past(stall);
    if (past.length === 0 || random.chance(0.4)) return orders.length === 0 ? undefined : random.pick(orders);
    return this.#house.stall(stall).rows.peek(random.pick(past)) as Order | undefined; // a row of that prefix
  }

  /** A refund or an exchange of a garment is undone, also such as cannot be. */
  #undoReturned(
    stall: StallId,
    id: string,
    generation: number,
    orders: readonly Order[],
    random: Random,
  ): void {
    const past = this.#past(stall).map((key) => this.#house.stall(stall).rows.peek(key) as Order); // rows of that prefix
    const refunded = [...orders, ...past].filter(({ returned = [] }) => returned.some((one) => one.refund));
    const exchanged = orders.filter(
      ({ exchangeOf, returned = [] }) => exchangeOf !== undefined || returned.some((one) => !one.refund),
    );
    if (exchanged.length > 0 && random.chance(0.6)) {
      const { number, jobs } = random.pick(exchanged);
      const n = jobs.length === 0 ? 1 : random.pick(jobs).n;
      const command = { type: "undo-garment-exchanged", number, n } as const;
      return this.write(stall, id, (object, key) => object.undoExchange(generation, key, command));
    }
    const order = refunded.length === 0 ? undefined : random.pick(refunded);
    const n = order?.returned?.at(-1)?.job.n ?? 1;
    const command = { type: "undo-garment-refunded", number: order?.number ?? 101, jobs: [n] } as const;
    this.write(stall, id, (object, key) => object.onOrder(generation, key, command));
  }

  /** A garment that hangs on the rack, as it is asked for; null without any. */
  #hanging(stall: StallId, random: Random): Omit<WantedLine, "quantity"> | null {
    const { rows } = this.#house.stall(stall);
    const keys = rows.keysOf("rack:");
    if (keys.length === 0) return null;
    const row = random.pick(keys);
    const { offer, colour, size } = rows.peek(row) as RackItem; // a row of that prefix
    return { offer, colour, size, rack: row.slice("rack:".length) as JobId }; // what its rows are named by
  }

  /** A garment of the rack is sold, released or thrown away. */
  #rack(stall: StallId, id: string, generation: number, random: Random): void {
    const { rows } = this.#house.stall(stall);
    const keys = rows.keysOf("rack:");
    const row = keys.length === 0 ? "rack:101-1" : random.pick(keys);
    const key = ids.job(row.slice("rack:".length));
    if (random.chance(0.4)) {
      const as = random.pick(["thrown", "released"] as const);
      return this.write(stall, id, (object, write) =>
        object.unracked(generation, write, { type: "unracked", key, as }),
      );
    }
    const { offer, colour, size } = (rows.peek(row) ?? random.pick(CHOICES)) as RackItem; // a row of that prefix
    const lines = [{ offer, colour, size, quantity: 1, rack: key }];
    const command = {
      type: "place",
      customer: idFor(`rack ${id}`),
      takenBy: "counter",
      lines,
      asks: [0],
      paid: { tender: "cash" },
    } as const;
    const request = { command, name: null, phone: null, number: null, address: null, isUnknown: false };
    this.write(
      stall,
      id,
      (object, write) => object.place(write, { ...request, generation }),
      (placed) => this.#house.watch(stall).acknowledge(placed),
    );
  }

  #shortOne(orders: readonly Order[], random: Random): number | null {
    const found = orders.filter(({ jobs }) => jobs.some(({ stage }) => stage === "short"));
    return found.length === 0 ? null : random.pick(found).number;
  }

  #reopen(stall: StallId, id: string, generation: number, random: Random, number: number): void {
    const past = this.#past(stall);
    const key = past.length === 0 ? "" : random.pick(past);
    const row = this.#house.stall(stall).rows.peek(key) as Order | undefined; // a row of that prefix
    const was = row?.closed?.as ?? "collected";
    const command = { type: "undo-closed", number: row?.number ?? number, was } as const;
    this.write(stall, id, (object, write) => object.onOrder(generation, write, command));
  }

  #stock(stall: StallId, id: string, generation: number, random: Random): void {
    const how = random.pick(["counted", "delivered", "corrected"] as const);
    const pieces = {
      counted: random.below(10),
      delivered: 1 + random.below(6),
      corrected: random.below(6) - 3,
    };
    const entry = StockEntry.parse({ ...random.pick(PIECES), [how]: pieces[how] });
    const command = { type: "change-stock", entries: [entry] } as const;
    this.write(stall, id, (object, key) => object.changeStock(generation, key, command));
  }

  #menu(stall: StallId, id: string, generation: number, random: Random): void {
    const before = this.menus.get(stall);
    if (before === undefined) return;
    const [offer] = before.offers;
    const menu: Menu = random.pick([
      { ...before, rules: { ...before.rules, holdMinutes: random.pick([1, 3]) } },
      { ...before, offers: before.offers.map((one) => ({ ...one, price: 1500 + random.below(10) * 100 })) },
      // Takes away what open orders may need.
      { ...before, offers: offer === undefined ? before.offers : [offer] },
    ]);
    const basedOn = random.chance(0.2) ? { basedOn: 9000 } : {};
    this.write(stall, id, (object, key) =>
      object.setMenu(generation, key, { type: "set-menu", menu, ...basedOn }),
    );
  }

  /** Closes a day or opens it again, and reads its account; now and then a day that never was. */
  #day(stall: StallId, id: string, generation: number, random: Random): void {
    const day = random.pick([...DAYS, ...DAYS, "2027-01-01"]);
    const command = random.chance(0.7)
      ? ({ type: "close-day", day } as const)
      : ({ type: "reopen-day", day, reason: "one more box" } as const);
    this.write(
      stall,
      id,
      (object, key) => object.onAccount(generation, key, command),
      ({ closed }) => same("closed days", `${stall} ${day}`, closed, command.type === "close-day"),
    );
    this.#house
      .stall(stall)
      .call((object) => object.closeout(generation, day))
      .then(mark)
      .catch((error: unknown) => {
        if (!(error instanceof Lost)) this.#fail(error);
      });
  }

  #newKey(stall: StallId, id: string, random: Random): void {
    const { fair } = this.#house;
    const scope = { scope: `organiser ${id}`, fingerprint: id };
    const overlap = random.pick([0, 5]);
    const rotate = async (): Promise<void> => {
      for (let attempt = 1; attempt <= TRIES; attempt++) {
        try {
          const keys = await fair.call((object) => object.newStallKey(1, scope, stall, overlap));
          if (!keys.ok) return;
          await this.#house.between(() => fair.call((object) => object.tellStalls()));
          this.generations.set(stall, Math.max(this.generation(stall), keys.value));
          return;
        } catch (error) {
          if (!(error instanceof Lost)) throw error;
          await this.#house.world.sleep(700 * attempt);
        }
      }
    };
    this.pending += 1;
    rotate()
      .catch(this.#fail)
      .finally(() => {
        this.pending -= 1;
      });
  }

  #read(stall: StallId, generation: number): void {
    const cell = this.#house.stall(stall);
    const seen = async (): Promise<void> => {
      await cell.call((object) => {
        object.pressQueue(generation, []);
        object.menu();
        object.board([]);
        return object.stock(generation);
      });
    };
    seen().catch((error: unknown) => {
      if (!(error instanceof Lost)) this.#fail(error);
    });
  }
}
