/**
 * The parts of a long-lived stall's file, made by the stall's own rules: many orders and conversations, none kept here.
 */

import type { StallPart } from "../../../src/model/accounts/whole-stall.ts";
import type { CustomerId } from "../../../src/model/basics/ids.ts";
import type { Menu } from "../../../src/model/menu/catalogue.ts";
import { StockEntry } from "../../../src/model/orders/stock.ts";
import { conversationOf, remember } from "../../../src/stall/messages/kept-turns.ts";
import type { Command } from "../../../src/stall/rules/commands.ts";
import type { JournalEntry } from "../../../src/stall/state/shapes/event.ts";
import { withoutRows } from "../../../src/stall/storage/snapshot.ts";
import { UnitOfWork } from "../../../src/stall/storage/unit-of-work.ts";
import { ids } from "../../ids.ts";
import { exampleMenu, MemoryStore } from "../../stall/test-stall.ts";

export type Size = { readonly orders: number; readonly conversations: number };

const EMOJI = "\u{1F9F5}\u{1F455}";
const OPENS = Date.parse("2027-05-01T08:00:00Z");
const CLOSES = Date.parse("2027-12-01T08:00:00Z");
/** From one tap to the next: an order is five. */
const TAP_MS = 10_000;
const PART_LENGTH = 1_000_000;
const PART_ROWS = 10_000;
const DELIVERED = 500;

/** Keeps what the rules read again, and gives what they wrote: neither journal nor finished orders stay in memory. */
class PassingStore extends MemoryStore {
  writeAll(unit: UnitOfWork): readonly JournalEntry[] {
    const journal: JournalEntry[] = [];
    for (const [key, row] of unit.drain()) {
      if (key.startsWith("journal:"))
        journal.push(withoutRows(row as JournalEntry)); // written under this prefix only
      else if (row === undefined) this.rows.delete(key);
      else if (!key.startsWith("past:")) this.rows.set(key, row);
    }
    return journal;
  }
}

const customerOf = (number: number): CustomerId =>
  ids.customer(`customer${String(number).padStart(14, "0")}`);

/** Rows of one list, in parts of about a million characters. */
function* inParts<K extends keyof StallPart>(list: K, rows: Iterable<unknown>): Generator<StallPart> {
  let [part, length]: [unknown[], number] = [[], 0];
  for (const row of rows) {
    part.push(row);
    length += JSON.stringify(row).length;
    if (length < PART_LENGTH && part.length < PART_ROWS) continue;
    yield { [list]: part } as StallPart; // the stall reads it by its schema
    [part, length] = [[], 0];
  }
  if (part.length > 0) yield { [list]: part } as StallPart; // as above
}

function* conversationRows(menu: Menu, { conversations }: Size): Generator<unknown> {
  for (let n = 0; n < conversations; n++) {
    const unit = new UnitOfWork(new MemoryStore());
    const customer = customerOf(n);
    for (let turn = 0; turn < 3; turn++) {
      const said = { id: `stranger-${n}-${turn}`, text: `${EMOJI} navy? ${turn}`, order: null };
      const replies = [`Longtail tee in navy: which size? ${EMOJI}`];
      remember(unit, customer, conversationOf(unit, menu, customer), { ...said, replies });
    }
    for (const [key, row] of unit.people.drain()) yield [key.slice("talk:".length), row];
  }
}

function* personRows({ orders }: Size): Generator<unknown> {
  const nobody = { phone: null, wroteFirst: false, optedOut: false };
  for (let n = 0; n < orders; n++)
    yield [customerOf(n), { ...nobody, name: `Wren ${EMOJI} ${n}`, lastOrder: 101 + n }];
}

function* wishRows({ orders }: Size): Generator<unknown> {
  for (let n = 0; n < orders; n++) yield [String(101 + n), { wish: `a ${EMOJI} on the back, please` }];
}

function* journalRows(menu: Menu, { orders }: Size): Generator<JournalEntry> {
  const store = new PassingStore();
  const unit = new UnitOfWork(store);
  const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
  let now = OPENS;
  const run = (command: Command): readonly JournalEntry[] => {
    now += TAP_MS;
    const { refusal } = unit.carryOut(command, now);
    if (refusal !== null) throw new Error(`${command.type}: ${JSON.stringify(refusal)}`);
    return store.writeAll(unit);
  };
  const identity = {
    fair: ids.fair("brackenfield"),
    stall: ids.stall("tern"),
    name: "Tern & Tide",
    fairName: "Brackenfield Summer Fair",
    timeZone: "America/New_York",
    openings: [{ opens: OPENS, closes: CLOSES }],
  };
  const deliver = (): Command => ({
    type: "change-stock",
    entries: [
      { sku: "tee.navy.L", delivered: DELIVERED },
      { design: "longtail", delivered: DELIVERED },
    ].map((entry) => StockEntry.parse(entry)),
  });
  yield* run({ type: "open", identity });
  yield* run({ type: "set-menu", menu });
  for (let n = 0; n < orders; n++) {
    if (n % DELIVERED === 0) yield* run(deliver());
    const place = { type: "place", customer: customerOf(n), takenBy: "counter", lines, asks: [] };
    const placed = run({ ...place, chance: (n % 97) / 97 } as unknown as Command); // plain ids
    yield* placed;
    const number = numberIn(placed);
    const commands = [
      { type: "pull", press: ids.press("A") },
      { type: "pressed", job: ids.job(`${number}-1`) },
      { type: "paid", number, tender: "cash" },
      { type: "closed", number, as: "collected" },
    ] as unknown as Command[]; // plain ids
    for (const command of commands) yield* run(command);
  }
}

function numberIn(entries: readonly JournalEntry[]): number {
  for (const { events } of entries)
    for (const event of events) if (event.type === "placed") return event.order.number;
  throw new Error("nothing was placed");
}

/** The parts of the file, in the order in which a stall writes them. */
export function* partsOfLived(size: Size): Generator<StallPart> {
  const menu = exampleMenu();
  yield* inParts("persons", personRows(size));
  yield* inParts("conversations", conversationRows(menu, size));
  yield* inParts("orders", wishRows(size));
  yield* inParts("journal", journalRows(menu, size));
}
