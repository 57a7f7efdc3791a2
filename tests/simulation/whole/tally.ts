/** The effects of a stall's journal, counted by other means than the stall's own. */

import { lostPieces, piecesOf } from "../../../src/stall/state/counts.ts";
import { lineOf } from "../../../src/stall/state/orders.ts";
import type { JournalEntry, StallEvent } from "../../../src/stall/state/shapes/event.ts";
import type { Order } from "../../../src/stall/state/shapes/order.ts";
import type { PieceKey } from "../../../src/stall/state/shapes/piece.ts";
import { RuleBroken } from "./fault.ts";

export const COUNTED = [
  "asked",
  "unmet",
  "placed",
  "garments",
  "pressed",
  "spoiled",
  "collected",
  "dropped",
] as const;
export type Counted = Record<(typeof COUNTED)[number], number>;

type Garment = {
  line: ReturnType<typeof lineOf>;
  pressed: boolean;
  press: string | null;
};

export class JournalTally {
  readonly counts: Counted = {
    asked: 0,
    unmet: 0,
    placed: 0,
    garments: 0,
    pressed: 0,
    spoiled: 0,
    collected: 0,
    dropped: 0,
  };
  readonly onHand = new Map<PieceKey, number>();
  /** Orders placed, by number. */
  readonly orders = new Map<number, Order>();
  /** How many orders each customer ever placed. */
  readonly ordersOf = new Map<string, number>();
  readonly #garments = new Map<string, Garment>();
  readonly #onPress = new Map<string, string>();
  readonly #endings = new Map<number, string[]>();

  take({ events }: JournalEntry): void {
    for (const event of events) this.#event(event);
  }

  #add(piece: PieceKey, pieces: number): void {
    this.onHand.set(piece, (this.onHand.get(piece) ?? 0) + pieces);
  }

  #event(event: StallEvent): void {
    const { counts } = this;
    switch (event.type) {
      case "counted":
        this.onHand.set(event.piece, event.onHand);
        return;
      case "delivered":
      case "corrected":
        return this.#add(event.piece, event.pieces);
      case "asked":
        counts.asked += event.garments;
        counts.unmet += event.unmet === null ? 0 : event.garments;
        return;
      case "placed":
        return this.#placed(event.order);
      case "undo-spoiled": {
        const { line } = this.#garment(`${event.number}-${event.n}`);
        for (const piece of lostPieces(line, event.lost)) this.#add(piece, 1);
        counts.spoiled -= 1;
        return;
      }
      case "taken-instead":
        this.#garment(`${event.number}-${event.n}`).line = event.line;
        return;
      case "changed":
        return this.#changed(event);
      case "pulled":
        return this.#pulled(`${event.number}-${event.n}`, event.press);
      case "returned":
        return this.#leave(`${event.number}-${event.n}`);
      case "pressed":
      case "undo-pressed":
      case "spoiled":
        return this.#tried(event);
      case "closed":
        this.#endings.set(event.number, [...(this.#endings.get(event.number) ?? []), event.as]);
        return this.#ended(event.as, 1);
      case "undo-closed":
        return this.#ended(this.#endings.get(event.number)?.pop(), -1);
      default:
    }
  }

  #placed(order: Order): void {
    const { number, customer } = order;
    if (this.orders.has(number)) throw new RuleBroken("pickup numbers", `${number} was given twice`);
    this.orders.set(number, order);
    this.ordersOf.set(customer, (this.ordersOf.get(customer) ?? 0) + 1);
    for (const job of order.jobs)
      this.#garments.set(`${number}-${job.n}`, { line: lineOf(order, job), pressed: false, press: null });
    this.counts.placed += 1;
    this.counts.garments += order.jobs.length;
  }

  /** A garment that is not pressed is what its order now says; one that is new was never there. */
  #changed({ number, jobs, lines }: Extract<StallEvent, { readonly type: "changed" }>): void {
    for (const job of jobs) {
      const line = lines[job.line];
      const before = this.#garments.get(`${number}-${job.n}`);
      if (line === undefined) throw new RuleBroken("garments", `${number}-${job.n} has no line`);
      // A waiting garment that was pressed before is a new one, made in place of a returned one.
      if (before?.pressed === true && job.stage === "pressed") continue;
      const pressed = job.stage === "pressed";
      this.#garments.set(`${number}-${job.n}`, { line, pressed, press: before?.press ?? null });
    }
  }

  #garment(id: string): Garment {
    const garment = this.#garments.get(id);
    if (garment === undefined) throw new RuleBroken("garments", `${id} was never ordered`);
    return garment;
  }

  #pulled(id: string, press: string): void {
    const garment = this.#garment(id);
    const other = this.#onPress.get(press);
    if (other !== undefined) throw new RuleBroken("one garment a press", `${press} has ${other}, and ${id}`);
    if (garment.press !== null || garment.pressed)
      throw new RuleBroken(
        "one press a garment",
        `${id} is on ${garment.press ?? "its pile"}, and on ${press}`,
      );
    garment.press = press;
    this.#onPress.set(press, id);
  }

  #leave(id: string): void {
    const garment = this.#garment(id);
    if (garment.press !== null) this.#onPress.delete(garment.press);
    garment.press = null;
  }

  #tried(event: Extract<StallEvent, { readonly type: "pressed" | "undo-pressed" | "spoiled" }>): void {
    const id = `${event.number}-${event.n}`;
    const garment = this.#garment(id);
    const pieces = piecesOf(garment.line);
    this.#leave(id);
    const was = garment.pressed ? 1 : 0;
    const is = event.type === "pressed" ? 1 : 0;
    for (const piece of pieces) this.#add(piece, was - is);
    this.counts.pressed += is - was;
    garment.pressed = event.type === "pressed";
    if (event.type !== "spoiled") return;
    for (const piece of lostPieces(garment.line, event.lost)) this.#add(piece, -1);
    this.counts.spoiled += 1;
  }

  #ended(as: string | undefined, times: 1 | -1): void {
    if (as === "collected" || as === "dropped") this.counts[as] += times;
  }
}
