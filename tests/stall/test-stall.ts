/** A stall in memory for tests: the example menu, some stock, and a store that is only a map. */

import { readFileSync } from "node:fs";
import type { CustomerId } from "../../src/model/basics/ids.ts";
import { Menu } from "../../src/model/menu/catalogue.ts";
import type { StockEntry } from "../../src/model/orders/stock.ts";
import type { Command, Decision } from "../../src/stall/rules/commands.ts";
import type { StallState } from "../../src/stall/state/state.ts";
import { type Store, write } from "../../src/stall/storage/records.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { ids } from "../ids.ts";

export const OPENS = Date.parse("2027-06-12T14:00:00Z");
export const CLOSES = Date.parse("2027-06-13T00:00:00Z");

export const exampleMenu = (): Menu =>
  Menu.parse(JSON.parse(readFileSync(`${import.meta.dirname}/../../examples/tern/menu.json`, "utf8")));

/** A sorted map with the calls of a Durable Object's synchronous key-value store. */
export class MemoryStore implements Store {
  readonly rows = new Map<string, unknown>();
  readonly get = (key: string): unknown => structuredClone(this.rows.get(key));
  readonly put = (key: string, value: unknown): void => void this.rows.set(key, structuredClone(value));
  readonly delete = (key: string): boolean => this.rows.delete(key);
  readonly list: Store["list"] = ({ prefix, reverse, limit, startAfter }) => {
    const rows = [...this.rows]
      .filter(([key]) => key.startsWith(prefix) && (startAfter === undefined || key > startAfter))
      .sort(([one], [other]) => (one < other ? -1 : 1));
    return (reverse ? rows.reverse() : rows).slice(0, limit);
  };
}

export type TestStall = {
  readonly store: MemoryStore;
  readonly state: StallState;
  readonly run: (command: Command, now: number) => Decision;
  /** Forgets the memory, as an eviction does. */
  readonly evict: () => void;
};

export const customer = (name: string): CustomerId => ids.customer(name.padEnd(16, "_"));

/** Orders at the counter: one navy tee in L, unless `more` says otherwise. Its ids are plain strings. */
export const placing = (name: string, more: object = {}): Command =>
  ({
    type: "place",
    takenBy: "counter",
    customer: customer(name),
    lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }],
    asks: [],
    chance: 0,
    ...more,
  }) as unknown as Command; // plain ids

/** A stall that is open, with the given menu and counts. */
export function testStall(menu: Menu, counts: readonly StockEntry[], openedAt = OPENS): TestStall {
  const store = new MemoryStore();
  let unit = new UnitOfWork(store);
  const stall: TestStall = {
    store,
    get state() {
      return unit.state;
    },
    run: (command, now) => {
      const outcome = unit.carryOut(command, now);
      write(store, unit.drain());
      return outcome;
    },
    evict: () => {
      unit = new UnitOfWork(store);
    },
  };
  const accepted = [
    stall.run(
      {
        type: "open",
        identity: {
          fair: ids.fair("brackenfield"),
          stall: ids.stall("tern"),
          name: "Tern & Tide",
          fairName: "Brackenfield Summer Fair",
          timeZone: "America/New_York",
          openings: [{ opens: OPENS, closes: CLOSES }],
        },
      },
      openedAt,
    ),
    stall.run({ type: "set-menu", menu }, openedAt),
    stall.run({ type: "change-stock", entries: counts }, openedAt),
  ];
  for (const { refusal } of accepted) if (refusal !== null) throw new Error(JSON.stringify(refusal));
  return stall;
}
