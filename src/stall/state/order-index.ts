/** The line of garments: kept beside the orders, and always exactly what the orders say. */

import { SortedList } from "../../maths/sorted-list.ts";
import type { CustomerId, PressId } from "../../model/basics/ids.ts";
import type { Platen } from "../../model/menu/catalogue.ts";
import type { Instant } from "../../time/instants.ts";
import { Promises, piecesOf } from "./counts.ts";
import { isNotQueued, isUnclaimed, lineOf, orderKey, stageOf, turnOf } from "./orders.ts";
import { type WorkClass, workClass } from "./pace.ts";
import type { Turn } from "./shapes/job.ts";
import type { Hold, Order } from "./shapes/order.ts";
import type { PieceKey } from "./shapes/piece.ts";

/** A garment in line, with what pressing it needs. */
export type QueuedGarment = {
  readonly turn: Turn;
  readonly number: number;
  readonly n: number;
  readonly work: WorkClass;
};

type Spot = { readonly turn: Turn; readonly number: number };
type Dated = { readonly at: Instant; readonly key: string };

const byTurn = (one: Spot, other: Spot): number => one.turn - other.turn || one.number - other.number;
const byTime = (one: Dated, other: Dated): number =>
  one.at - other.at || (one.key < other.key ? -1 : one.key > other.key ? 1 : 0);

/** All that is worked out from the open orders and the holds, kept up to date with each change of one. */
export class OrderIndex {
  readonly promises = new Promises();
  /** The part of the promises that web customers hold who have not come, paid, or texted their code. */
  readonly webPromises = new Promises();
  readonly waiting: Readonly<Record<Platen, SortedList<QueuedGarment, Spot>>> = {
    flat: new SortedList<QueuedGarment, Spot>(byTurn),
    cap: new SortedList<QueuedGarment, Spot>(byTurn),
  };
  readonly short = new SortedList<QueuedGarment, Spot>(byTurn);
  readonly onPress = new Map<PressId, QueuedGarment>();
  /** The garments reserved for each press, by turn. */
  readonly reserved = new Map<PressId, SortedList<QueuedGarment, Spot>>();
  /** Orders in line or on a press, by turn: an order's place is the number of orders before it. */
  readonly underWay = new SortedList<Spot>(byTurn);
  /** Orders that wait for payment, and for their customer; the oldest first. */
  readonly toPay = new SortedList<Dated>(byTime);
  readonly toClaim = new SortedList<Dated>(byTime);
  /** Unclaimed web orders, in line or not. */
  readonly unclaimed = new SortedList<Dated>(byTime);
  readonly ready = new SortedList<Dated>(byTime);
  readonly holds = new SortedList<Dated>(byTime);
  /** Garments of each class of work that wait, reserved ones included. */
  readonly work = new Map<WorkClass, number>();
  /** How many open orders have each pickup word. */
  readonly words = new Map<string, number>();
  readonly #customers = new Map<CustomerId, Set<number>>();

  /** The customer's open orders, oldest number first. */
  ordersOf(customer: CustomerId): readonly number[] {
    return [...(this.#customers.get(customer) ?? [])].sort((one, other) => one - other);
  }

  /** Garments still to be pressed: in line, reserved, short of stock, or on a press. */
  get backlog(): number {
    const { flat, cap } = this.waiting;
    let garments = flat.length + cap.length + this.short.length + this.onPress.size;
    for (const list of this.reserved.values()) garments += list.length;
    return garments;
  }

  reservedFor(press: PressId): SortedList<QueuedGarment, Spot> {
    const list = this.reserved.get(press) ?? new SortedList<QueuedGarment, Spot>(byTurn);
    this.reserved.set(press, list);
    return list;
  }

  holdChanged(before: Hold | undefined, after: Hold | undefined): void {
    if (before !== undefined) {
      this.holds.remove({ at: before.expiresAt, key: before.customer });
      this.#promise(before, -1);
    }
    if (after !== undefined) {
      this.holds.add({ at: after.expiresAt, key: after.customer });
      this.#promise(after, 1);
    }
  }

  orderChanged(before: Order | undefined, after: Order | undefined): void {
    if (before !== undefined) this.#count(before, -1);
    if (after !== undefined) this.#count(after, 1);
  }

  #add(piece: PieceKey, pieces: number, web: boolean): void {
    this.promises.add(piece, pieces);
    if (web) this.webPromises.add(piece, pieces);
  }

  #promise(hold: Hold, sign: 1 | -1): void {
    for (const line of hold.lines) {
      for (const piece of piecesOf(line)) this.#add(piece, sign * line.quantity, hold.takenBy === "web");
    }
  }

  #count(order: Order, sign: 1 | -1): void {
    for (const job of order.jobs) {
      const line = lineOf(order, job);
      if (job.stage !== "short" && job.stage !== "pressed") {
        const web = isUnclaimed(order);
        for (const piece of piecesOf(line)) this.#add(piece, sign, web);
      }
      if (isNotQueued(job) || job.stage === "pressed") continue;
      const work = workClass(line);
      const placed: QueuedGarment = { turn: job.turn, number: order.number, n: job.n, work };
      if (job.stage === "pressing") {
        if (sign === 1) this.onPress.set(job.press, placed);
        else this.onPress.delete(job.press);
        continue;
      }
      const list =
        job.stage === "short"
          ? this.short
          : job.stage === "reserved"
            ? this.reservedFor(job.press)
            : this.waiting[line.platen];
      if (sign === 1) list.add(placed);
      else list.remove(placed);
      if (job.stage !== "short") this.work.set(work, (this.work.get(work) ?? 0) + sign);
    }
    this.#place(order, sign);
    this.words.set(order.word, (this.words.get(order.word) ?? 0) + sign);
    const own = this.#customers.get(order.customer) ?? new Set<number>();
    if (sign === 1) own.add(order.number);
    else own.delete(order.number);
    if (own.size > 0) this.#customers.set(order.customer, own);
    else this.#customers.delete(order.customer);
  }

  #place(order: Order, sign: 1 | -1): void {
    const key = orderKey(order.number);
    const put = <T>(list: SortedList<T>, item: T): void => (sign === 1 ? list.add(item) : list.remove(item));
    const stage = stageOf(order);
    if (isUnclaimed(order)) put(this.unclaimed, { at: order.placedAt, key });
    const outsideSince = order.jobs[0]?.since ?? order.placedAt;
    if (stage === "to-pay") put(this.toPay, { at: outsideSince, key });
    else if (stage === "to-claim") put(this.toClaim, { at: outsideSince, key });
    else if (stage === "ready") put(this.ready, { at: order.readyAt ?? order.placedAt, key });
    else {
      const turn = turnOf(order);
      if (turn === null) throw new Error(`order ${order.number} is ${stage} without a turn`);
      put(this.underWay, { turn, number: order.number });
    }
  }
}
