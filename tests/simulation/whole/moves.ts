/** Stalls on the move: along to another fair, and rehearsed beside themselves. What must be equal is compared. */

import type { Random } from "../../../src/maths/random.ts";
import type { StallPart } from "../../../src/model/accounts/whole-stall.ts";
import type { StallId } from "../../../src/model/basics/ids.ts";
import type { Answer } from "../../../src/model/orders/refusal.ts";
import { fold } from "../../../src/stall/rules/replay.ts";
import type { JournalEntry } from "../../../src/stall/state/shapes/event.ts";
import type { StallState } from "../../../src/stall/state/state.ts";
import { presentEntry } from "../../../src/stall/storage/earlier-names.ts";
import type { Cursor, SavedPage } from "../../../src/stall/storage/snapshot.ts";
import { ids } from "../../ids.ts";
import { rowsOf } from "../../stall/rows.ts";
import type { Crews } from "./crew.ts";
import { RuleBroken, same } from "./fault.ts";
import { type Cell, Lost } from "./host.ts";
import { type House, idFor, type OpenStall, STALLS } from "./house.ts";
import { mark } from "./marks.ts";
import { CHOICES } from "./menu.ts";
import type { MOVING_ACTS } from "./plan.ts";

const TRIES = 12;
/** As late as alarms may be, and some pages. */
const CLEARED_WITHIN = 300_000;
/** The rows of people in a file, by their prefix at a place. */
const PEOPLE: Readonly<Record<string, keyof StallPart>> = {
  "person:": "persons",
  "talk:": "conversations",
  "texts:": "texts",
  "at-order:": "orders",
};

const homeOf = ({ rows }: Cell<OpenStall>): string => (rows.peek("home") as { home: string }).home; // that row only

/** The rows of a kind at a place, by their keys there. */
const rowsUnder = (cell: Cell<OpenStall>, kind: string): unknown => {
  const home = homeOf(cell);
  return cell.rows.list({ prefix: home + kind }).map(([key, row]) => [key.slice(home.length), row]);
};

/** The rows of a kind that were sent. */
function rowsSent(parts: readonly StallPart[], kind: string): unknown {
  const list = PEOPLE[kind] ?? "persons";
  const rows = parts.flatMap((part): readonly unknown[] => part[list] ?? []) as [
    string,
    Record<string, unknown>,
  ][]; // rows of people
  return rows.map(([key, { given: _, ...row }]) => [kind + key, row]);
}

export class Moves {
  /** Moves under way. */
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
    const stall = ids.stall(random.pick(STALLS));
    const cell = this.#house.place(`${kind}-${index}`);
    const generation = this.#crews.generation(stall);
    // The next place has a bad day too: a write of it is refused.
    if (random.chance(0.5)) cell.refuseWrite();
    const work = {
      carry: () => this.#carry(stall, generation, cell),
      rehearse: () => this.#rehearse(stall, generation, cell),
      save: () => this.#save(stall, generation, cell, random),
    }[kind]();
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
    return answer.ok ? answer.value : null;
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

  /** The whole stall, page by page, and into an empty place part by part, with a broken-off try before it. */
  async #save(stall: StallId, generation: number, cell: Cell<OpenStall>, random: Random): Promise<void> {
    const parts: StallPart[] = [];
    for (let from: Cursor | null = null; ; ) {
      const at: Cursor | null = from;
      const page: SavedPage | null = await this.#answered(this.#house.stall(stall), (object) =>
        object.everything(generation, at),
      );
      if (page === null) return;
      const rows = page.rows.map((row): unknown => JSON.parse(row));
      const middle = random.below(rows.length + 1);
      parts.push({ [page.part]: rows.slice(0, middle) }, { [page.part]: rows.slice(middle) });
      if (page.next === null) break;
      from = page.next;
    }
    await this.#opened(stall, cell);
    if (random.chance(0.5)) await this.#send(cell, "broken-off", parts.slice(0, 3), random);
    const sent = await this.#send(cell, "whole", parts, random);
    same("a stall that is loaded", `${cell.name} parts`, sent, parts.length);
    const before = await this.#ask(cell, ({ memory }) => memory.state.menu);
    same("a stall that is loaded", `${cell.name} is empty until then`, before, null);
    const key = { scope: `crew ${cell.name}`, fingerprint: cell.name };
    const all = { upload: "whole", parts: parts.length };
    const taken = await this.#answered(cell, (object) => object.takeWhole(1, key, all));
    if (taken === null || "fault" in taken)
      throw new RuleBroken("a stall that is loaded", `${cell.name}: ${JSON.stringify(taken)}`);
    const state = await this.#ask(cell, ({ memory }) => memory.state);
    // Its alarm may have rung in the meantime: changes after loading are not part of the file.
    if (state.version === taken.version) {
      this.#compare(stall, cell, taken.version, state);
      for (const kind of Object.keys(PEOPLE))
        same("a stall that is loaded", `${cell.name} ${kind}`, rowsUnder(cell, kind), rowsSent(parts, kind));
    }
    // The alarm clears a load that was broken off.
    const until = this.#house.world.clock + CLEARED_WITHIN;
    await this.#house.world.sleep(CLEARED_WITHIN);
    // If the clock was moved back, the alarm waits again.
    if (this.#house.world.clock < until - 1) return;
    const left = cell.rows.list({ prefix: "~" }).filter(([row]) => !row.startsWith(homeOf(cell)));
    same("a stall that is loaded", `${cell.name} leaves`, left.length, 0);
  }

  /** Sends parts in order, some of them twice, to a place that dies now and then; how many have come. */
  async #send(
    cell: Cell<OpenStall>,
    upload: string,
    parts: readonly StallPart[],
    random: Random,
    tries = 3,
  ): Promise<number> {
    let come = 0;
    for (const [part, body] of parts.entries()) {
      if (random.chance(0.1)) cell.kill();
      if (random.chance(0.1)) cell.refuseWrite();
      const read = { text: new TextEncoder().encode(JSON.stringify(body)), numbers: [], pictures: [] };
      for (let time = random.chance(0.2) ? 0 : 1; time < 2; time++) {
        const taken = await this.#answered(cell, (object) => object.takePart(1, { upload, part }, read));
        // The place's clock jumped, so that it took the file for one that was broken off: it is sent again.
        if (taken === null && tries > 1) return this.#send(cell, upload, parts, random, tries - 1);
        if (taken === null || "fault" in taken)
          throw new RuleBroken("a stall that is loaded", `${cell.name}: ${JSON.stringify(taken)}`);
        come = taken.parts;
      }
    }
    return come;
  }

  /** The rows are those that the old stall's journal leads to up to there, under another name. */
  #compare(stall: StallId, { name }: Cell<OpenStall>, version: number, state: StallState): void {
    const { rows } = this.#house.stall(stall);
    const journal = rows.list({ prefix: "journal:" }).map(([, entry]) => presentEntry(entry as JournalEntry)); // its rows
    const told = fold(journal.filter(({ sequence }) => sequence < version));
    const { identity: _, ...there } = rowsOf(state);
    const { identity: __, ...here } = rowsOf(told);
    same("a stall that is loaded", name, there, here);
    same("a stall that is loaded", `${name} version`, state.version, told.version + 1);
  }

  /** A rehearsal takes an order and is ended; nothing of it stays, and its stall never sees it. */
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
    await this.#ask(cell, (object) => object.open({ ...identity, stall: ids.stall(cell.name) }, 1, 0));
  }
}
