/** Watches one stall: after every step, what must hold of it. */

import { apply } from "../../../src/stall/rules/apply/apply.ts";
import { onHand, piecesOf } from "../../../src/stall/state/counts.ts";
import { lineOf, orderKey } from "../../../src/stall/state/orders.ts";
import type { JournalEntry } from "../../../src/stall/state/shapes/event.ts";
import type { PieceKey } from "../../../src/stall/state/shapes/piece.ts";
import { StallState } from "../../../src/stall/state/state.ts";
import { journalKey, type Store } from "../../../src/stall/storage/records.ts";
import { UnitOfWork } from "../../../src/stall/storage/unit-of-work.ts";
import type { Bucket } from "../../../src/time/bucket.ts";
import { balances } from "../../stall/balances.ts";
import { rowsOf } from "../../stall/rows.ts";
import { RuleBroken, same } from "./fault.ts";
import type { Rows } from "./storage.ts";
import { COUNTED, JournalTally } from "./tally.ts";

type Watched = { readonly rows: Rows; readonly awake: { readonly memory: UnitOfWork } | null };
type Acknowledged = { readonly number: number; readonly word: string };

/** Rows with the calls of a store, for reading records back beside the object that owns them. */
const readOnly = (rows: Rows): Store => ({
  get: (key) => rows.get(key),
  put: () => {
    throw new Error("a watcher writes nothing");
  },
  delete: () => {
    throw new Error("a watcher writes nothing");
  },
  list: (options) => rows.list(options),
});

export class StallWatch {
  readonly tally = new JournalTally();
  readonly folded = new StallState();
  readonly #cell: Watched;
  readonly #acknowledged = new Map<number, Acknowledged>();

  constructor(cell: Watched) {
    this.#cell = cell;
  }

  /** An order whose customer was answered: it must never be missing from now on. */
  acknowledge(order: Acknowledged): void {
    const before = this.#acknowledged.get(order.number);
    if (before !== undefined && before.word !== order.word)
      throw new RuleBroken("pickup numbers", `${order.number} is both ${before.word} and ${order.word}`);
    this.#acknowledged.set(order.number, order);
    this.#present(order);
  }

  #present({ number, word }: Acknowledged): void {
    const { rows } = this.#cell;
    const key = orderKey(number);
    // Rows of these prefixes are orders.
    const row = (rows.peek(`order:${key}`) ?? rows.peek(`past:${key}`)) as { word: string } | undefined;
    if (row?.word !== word) throw new RuleBroken("acknowledged orders", `${number} ${word} is lost`);
  }

  /** Of the rows written since the last look, memory, records and the folded journal agree. */
  look(): void {
    const { rows } = this.#cell;
    const written = rows.takeWritten();
    if (written.size === 0) return;
    this.#fold();
    const tables = new Map(this.folded.tables.map((table) => [table.prefix, table] as const));
    const memory = this.#cell.awake?.memory.state ?? null;
    const remembered = new Map((memory?.tables ?? []).map((table) => [table.prefix, table] as const));
    for (const record of written) {
      const prefix = record.slice(0, record.indexOf(":") + 1) || record;
      const key = record.slice(prefix.length);
      const table = tables.get(prefix);
      if (table === undefined) continue;
      same("journal and records", record, table.get(key), rows.peek(record));
      if (memory !== null)
        same("memory and records", record, remembered.get(prefix)?.get(key), rows.peek(record));
    }
    this.#stock(memory ?? this.folded);
    this.#buckets();
  }

  #fold(): void {
    for (;;) {
      const sequence = this.folded.version + 1;
      const entry = this.#cell.rows.peek(journalKey(sequence)) as JournalEntry | undefined; // written there only
      if (entry === undefined) return;
      if (entry.sequence !== sequence) throw new RuleBroken("journal", `entry ${sequence} is out of order`);
      for (const event of entry.events) apply(this.folded, event, entry.at);
      this.folded.version = sequence;
      this.tally.take(entry);
    }
  }

  /** Nothing is promised that is not there, promises are what orders and holds need, and pieces are conserved. */
  #stock(state: StallState): void {
    const promised = new Map<PieceKey, number>();
    const add = (piece: PieceKey, pieces: number): void =>
      void promised.set(piece, (promised.get(piece) ?? 0) + pieces);
    for (const order of state.orders.values())
      for (const job of order.jobs)
        if (job.stage !== "short" && job.stage !== "pressed")
          for (const piece of piecesOf(lineOf(order, job))) add(piece, 1);
    for (const hold of state.holds.values())
      for (const line of hold.lines) for (const piece of piecesOf(line)) add(piece, line.quantity);
    for (const order of state.orders.values())
      for (const { n, ...at } of order.jobs)
        if ("press" in at && at.stage !== "pressed" && state.press(at.press).downSince !== null)
          throw new RuleBroken("garments", `${order.number}-${n} is with ${at.press}, which is out of order`);
    for (const key of state.counts.keys()) {
      const piece = key as PieceKey; // the table's keys are piece keys
      const hand = onHand(state.count(piece));
      const open = promised.get(piece) ?? 0;
      same("stock is conserved", piece, hand, this.tally.onHand.get(piece) ?? 0);
      same("promises", piece, state.orderIndex.promises.of(piece), open);
      if (open > hand)
        throw new RuleBroken("0 <= promised <= onHand", `${piece}: ${open} of ${hand} promised`);
    }
  }

  #buckets(): void {
    const { rows } = this.#cell;
    const buckets = rows.keysOf("bucket:").map((key) => rows.peek(key) as Bucket); // rows of that prefix
    for (const field of COUNTED) {
      const sum = buckets.reduce((total, bucket) => total + bucket[field], 0);
      same("counts of the pace", field, sum, this.tally.counts[field]);
    }
  }

  /** Everything at once: all rows of memory, records and journal, and every acknowledged order. */
  whole(): void {
    this.look();
    const store = readOnly(this.#cell.rows);
    const read = new UnitOfWork(store);
    same("journal and records", "all rows", rowsOf(this.folded), rowsOf(read.state));
    same("journal and records", "version", this.folded.version, read.state.version);
    for (const order of this.#acknowledged.values()) this.#present(order);
    for (const [what, one, other] of balances(read.state, store))
      same("the account balances", what, one, other);
    const memory = this.#cell.awake?.memory;
    if (memory === undefined) return;
    same("memory and records", "all rows", rowsOf(memory.state), rowsOf(read.state));
    for (const [at, table] of memory.people.tables.entries())
      for (const key of table.keys())
        same("memory and records", table.prefix + key, table.get(key), read.people.tables[at]?.get(key));
  }
}
