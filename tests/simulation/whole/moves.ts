/** Stalls on the move: along to another fair, and rehearsed beside themselves. What must be equal is compared. */
import type { Random } from "../../../src/maths/random.ts";
import type { StallId } from "../../../src/model/basics/ids.ts";
import type { Answer } from "../../../src/model/orders/refusal.ts";
import { rowsOf } from "../../stall/rows.ts";
import type { Crews } from "./crew.ts";
import { RuleBroken, same } from "./fault.ts";
import { type Cell, Lost } from "./host.ts";
import { type House, idFor, type OpenStall, STALLS } from "./house.ts";
import { mark } from "./marks.ts";
import { CHOICES } from "./menu.ts";
import type { MOVING_ACTS } from "./plan.ts";

const TRIES = 12;

export class Moves {
  /** Moves that have not come to their end. */
  pending = 0;
  readonly #house: House;
  readonly #crews: Crews;
  readonly #fail: (error: unknown) => void;

  constructor(house: House, crews: Crews, fail: (error: unknown) => void) {
    this.#house = house;
    this.#crews = crews;
    this.#fail = fail;
  }

  act(kind: (typeof MOVING_ACTS)[number], index: number, random: Random): void {
    const stall = random.pick(STALLS) as StallId; // the names of the stalls there are
    const cell = this.#house.place(`${kind}-${index}`);
    const generation = this.#crews.generation(stall);
    // The next place has a bad day too: a write of it is refused.
    if (random.chance(0.5)) cell.refuseWrite();
    const work =
      kind === "carry" ? this.#carry(stall, generation, cell) : this.#rehearse(stall, generation, cell);
    this.pending += 1;
    work
      .catch((error: unknown) => {
        if (!(error instanceof Lost)) this.#fail(error);
      })
      .finally(() => {
        cell.leave();
        this.pending -= 1;
      });
  }

  /** Asks until there is an answer. */
  async #ask<T>(cell: Cell<OpenStall>, work: (object: OpenStall) => T): Promise<T> {
    for (let attempt = 1; ; attempt++) {
      try {
        return await this.#house.between(() => cell.call(work));
      } catch (error) {
        if (!(error instanceof Lost) || attempt >= TRIES) throw error;
        await this.#house.world.sleep(300 * attempt);
      }
    }
  }

  async #answered<T>(cell: Cell<OpenStall>, work: (object: OpenStall) => Answer<T>): Promise<T | null> {
    const answer = await this.#ask(cell, work);
    this.#house.world.note(`${cell.name} ${JSON.stringify(answer)}`);
    mark(answer);
    return answer.done ? answer.value : null;
  }

  /** Menu, stock on hand and costs are the next stall's; its customers are not. */
  async #carry(stall: StallId, generation: number, cell: Cell<OpenStall>): Promise<void> {
    const carried = await this.#answered(this.#house.stall(stall), (object) => object.carry(generation));
    if (carried === null) return;
    await this.#opened(stall, cell);
    const key = { scope: `crew ${cell.name}`, fingerprint: cell.name };
    const taken = await this.#answered(cell, (object) => object.takeCarried(1, key, carried, []));
    if (taken === null) throw new RuleBroken("a stall that moved on", `${cell.name} was refused`);
    const there = await this.#answered(cell, (object) => object.carry(1));
    same("a stall that moved on", cell.name, there, carried);
    const { state } = await this.#ask(cell, ({ memory }) => memory);
    const open = state.orders.size + state.holds.size;
    if (open > 0)
      throw new RuleBroken("a stall that moved on", `${cell.name} has ${open} orders of the old one`);
  }

  /** A twin takes an order and is wiped; nothing of it stays, and its stall never hears of it. */
  async #rehearse(stall: StallId, generation: number, cell: Cell<OpenStall>): Promise<void> {
    const given = await this.#answered(this.#house.stall(stall), (object) => object.forRehearsal(generation));
    if (given === null) return;
    const key = (of: string) => ({ scope: `crew ${cell.name} ${of}`, fingerprint: of });
    const { rehearsal, access } = given;
    await this.#answered(cell, (object) => object.rehearse(key("begin"), rehearsal, access));
    const stocked = await this.#answered(cell, (object) => object.stock(access.generation));
    const wanted = rehearsal.entries.map((entry) => ("counted" in entry ? entry.counted : 0));
    const there = [...(stocked?.skus ?? []), ...(stocked?.transfers ?? [])].map(({ onHand }) => onHand);
    const total = (pieces: readonly (number | undefined)[]) =>
      pieces.reduce<number>((sum, n = 0) => sum + n, 0);
    same("a rehearsal", `${cell.name} pieces`, total(there), total(wanted));
    const command = {
      type: "place",
      customer: idFor(cell.name),
      takenBy: "counter",
      lines: [{ ...CHOICES[0], quantity: 1 }],
      asks: [0],
    } as unknown as Parameters<OpenStall["place"]>[1]["command"]; // plain ids
    const request = { command, name: null, phone: null, number: null, address: null, isUnknown: false };
    await this.#answered(cell, (object) =>
      object.place(key("order"), { ...request, generation: access.generation }),
    );
    const twin = await this.#ask(cell, ({ memory }) => rowsOf(memory.state)["identity"]);
    same("a rehearsal", `${cell.name} is one`, (twin as { rehearsal?: boolean }).rehearsal, true);
    await this.#ask(cell, (object) => object.endRehearsal());
    same("a rehearsal", `${cell.name} is wiped`, cell.rows.list({ prefix: "" }).length, 0);
  }

  /** Opens a place for the stall of a name, as its fair does. */
  async #opened(stall: StallId, cell: Cell<OpenStall>): Promise<void> {
    const { state } = await this.#ask(this.#house.stall(stall), ({ memory }) => memory);
    const { identity } = state;
    if (identity === null) throw new RuleBroken("a stall that moved on", `${stall} is no stall`);
    await this.#ask(cell, (object) => object.open({ ...identity, name: "Elsewhere" }, 1, 0));
  }
}
