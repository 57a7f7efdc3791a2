/** Hundreds of customers with habits: some are decided, some never say yes, some write STOP, some wander. */

import type { Random } from "../../../src/maths/random.ts";
import type { StallId } from "../../../src/model/basics/ids.ts";
import type { PhoneNumber } from "../../../src/model/orders/order.ts";
import type { PlacedReply } from "../../../src/stall/calls/replies.ts";
import { ids } from "../../ids.ts";
import type { Crews } from "./crew.ts";
import { RuleBroken, same } from "./fault.ts";
import type { Gateway } from "./gateway.ts";
import { Lost } from "./host.ts";
import { type House, idFor, STALLS } from "./house.ts";
import { CHOICES } from "./menu.ts";

const GARMENTS = ["longtail navy L", "longtail sand M", "kite navy L", "kite cap", "2 longtail navy L"];

/** The texts of each kind of customer, from the first on; S is a stall's word, G a garment. */
const HABITS: readonly (readonly string[])[] = [
  ["S", "G", "yes", "status", "thanks"],
  ["S G", "yes", "status"],
  ["S", "menu", "1", "1", "1", "1", "yes"],
  ["S", "G", "no", "G", "yes", "drop"],
  ["S", "G"],
  ["S", "G", "yes", "STOP"],
  ["S", "STOP", "START", "G", "yes"],
  ["S", "G", "yes", "S", "G", "yes", "status", "STOP", "G", "start"],
  ["menu", "1", "G", "yes", "stalls", "2"],
  ["S", "how long is the line", "40 longtail navy L", "G", "yes", "cancel"],
  ["S", "español", "G", "sí", "estado", "gracias"],
  ["S hola", "G", "no", "G", "sí", "ALTO", "G"],
  ["S", "menú", "1", "1", "1", "sí", "baja", "G", "alta", "G", "sí"],
  ["S G", "yes", "S G", "yes", "STOP"],
  ["S G", "yes", "S G", "yes", "STOP", "menu", "START"],
  ["S G", "yes", "change to L", "make it two", "add a kite cap to my order", "take off one"],
  ["S G", "yes", "change", "1", "2", "cambia a M", "status"],
  ["S G", "yes", "erase me", "S G", "yes", "STOP", "erase me", "menu"],
  ["S", "do u take cards", "G", "how much is it", "yes", "where are you"],
  ["S hola", "aceptan tarjeta?", "G", "hasta que hora estan", "sí"],
];

type Customer = { readonly phone: PhoneNumber; readonly habit: readonly string[]; next: number };

/** Under each area code 555-0100 to 555-0199 are set aside for fiction; 212-555-0199 is the fair's own. */
const AREA_CODES = ["305", "312", "415", "212"] as const;
const phoneOf = (n: number): PhoneNumber =>
  `+1${AREA_CODES[Math.floor(n / 100)]}5550${100 + (n % 100)}` as PhoneNumber; // a brand

export class Customers {
  pending = 0;
  readonly #house: House;
  readonly #gateway: Gateway;
  readonly #crews: Crews;
  readonly #fail: (error: unknown) => void;
  readonly #people = new Map<number, Customer>();
  readonly #crowd: number;

  constructor(house: House, gateway: Gateway, crews: Crews, crowd: number, fail: (error: unknown) => void) {
    this.#house = house;
    this.#gateway = gateway;
    this.#crews = crews;
    this.#crowd = crowd;
    this.#fail = fail;
  }

  /** Somebody writes the next text of the habit; a few write more than all others. */
  text(index: number, random: Random): void {
    const n = random.chance(0.6) ? random.below(8) : random.below(this.#crowd);
    const who = this.#people.get(n) ?? {
      phone: phoneOf(n),
      habit: HABITS[(n * 7) % HABITS.length] ?? [],
      next: 0,
    };
    this.#people.set(n, who);
    const form = random.chance(0.05) ? "what" : (who.habit[who.next % who.habit.length] ?? "menu");
    who.next += 1;
    if (random.chance(0.08)) return this.#code(index, who.phone, random);
    const text = form.replace(/\bS\b/, random.pick(STALLS)).replace(/\bG\b/, random.pick(GARMENTS));
    this.#gateway.say(`m${index}`, who.phone, text);
  }

  /** Somebody texts the line of an order that the counter or the page shows, now and then with another word. */
  #code(index: number, phone: PhoneNumber, random: Random): void {
    const stall = ids.stall(random.pick(STALLS));
    const orders = this.#crews.orders(stall);
    if (orders.length === 0) return;
    const { number, word } = random.pick(orders);
    const said = random.chance(0.2) ? "zephyr" : word;
    this.#gateway.say(`m${index}`, phone, `${stall} ${number} ${said}`.toUpperCase());
  }

  /** A stranger on the web, or the crew for a customer at the counter, sends a whole order. */
  order(kind: "web-order" | "walk-up" | "paper", index: number, random: Random): void {
    const stall = ids.stall(random.pick(STALLS));
    const slip = kind === "paper" ? 900 + random.below(12) : null;
    this.#order(kind, stall, `order ${index}`, slip, random);
    // Another of the crew types the same slip.
    if (slip !== null && random.chance(0.5)) this.#order(kind, stall, `slip ${index}`, slip, random);
  }

  #order(
    kind: "web-order" | "walk-up" | "paper",
    stall: StallId,
    name: string,
    slip: number | null,
    random: Random,
  ): void {
    const customer = idFor(name);
    const quantity = random.chance(0.05) ? 9 : 1 + random.below(2);
    const line = { ...random.pick(CHOICES), quantity };
    const wished = random.chance(0.03)
      ? { ...line, ...random.pick([{ offer: "nothing" }, { colour: "puce" }, { size: "XS" }]) }
      : line;
    const paper = slip === null ? {} : { paper: { number: slip, takenAt: this.#house.world.clock - 60_000 } };
    const command = {
      type: "place",
      customer,
      takenBy: kind === "web-order" ? "web" : kind === "paper" ? "paper" : "counter",
      lines: [wished],
      asks: [0],
      ...paper,
    } as unknown as Parameters<InstanceType<typeof import("./house.ts").OpenStall>["place"]>[1]["command"]; // plain ids
    const generation = kind === "web-order" ? null : this.#crews.generation(stall);
    const phone = random.chance(0.2) ? phoneOf(random.below(this.#crowd)) : null;
    // Few addresses, so that some have more garments in line than one may have unclaimed.
    const address = generation === null ? `address ${random.below(3)}` : null;
    const isUnknown = generation === null && random.chance(0.5);
    const given = { name: null, phone, number: null, address, isUnknown, generation };
    const watch = this.#house.watch(stall);
    this.#crews.write<PlacedReply>(
      stall,
      name,
      (object, key) => object.place(key, { command, ...given }),
      (placed) => {
        watch.acknowledge(placed);
        // It is looked at before it is counted: the answer may be ahead of the last look.
        watch.look();
        const orders = watch.tally.ordersOf.get(customer) ?? 0;
        if (orders !== 1) throw new RuleBroken("nothing twice", `${name} stands ${orders} times`);
      },
    );
  }

  /** Somebody talks on the page, and sends it again when no answer came. */
  talk(index: number, random: Random): void {
    const stall = ids.stall(random.pick(STALLS));
    const who = random.below(6);
    const customer = idFor(`web ${stall} ${who}`);
    const text = random.pick([
      ...GARMENTS,
      ...GARMENTS,
      "yes",
      "yes",
      "yes",
      "menu",
      "status",
      "no",
      "make it two",
    ]);
    const said = { id: `w${index}`, text, customer, phone: null, address: `address ${who % 3}` };
    const cell = this.#house.stall(stall);
    const copies = random.chance(0.2) ? 2 : 1;
    let first: readonly string[] | null = null;
    const send = async (): Promise<void> => {
      for (let attempt = 1; attempt <= 5; attempt++) {
        try {
          const answer = await this.#house.between(() => cell.call((object) => object.chat(said)));
          this.#house.world.note(`web ${index} ${JSON.stringify(answer)}`);
          if (!answer.ok) return;
          if (first !== null) same("nothing twice", `web ${index}`, answer.value.replies, first);
          first ??= answer.value.replies;
          return;
        } catch (error) {
          if (!(error instanceof Lost)) throw error;
          await this.#house.world.sleep(400 * attempt);
        }
      }
    };
    for (let copy = 0; copy < copies; copy++) {
      this.pending += 1;
      send()
        .catch(this.#fail)
        .finally(() => {
          this.pending -= 1;
        });
    }
  }
}
