/** Rules that hold for a stall after every command, checked against a count kept by other means. */
import { expect } from "vitest";
import { RESERVED_MOST } from "../../src/stall/line/reserve.ts";
import { fold } from "../../src/stall/rules/replay.ts";
import { onHand, piecesOf } from "../../src/stall/state/counts.ts";
import { lineOf } from "../../src/stall/state/orders.ts";
import type { JournalEntry } from "../../src/stall/state/shapes/event.ts";
import type { PieceKey } from "../../src/stall/state/shapes/piece.ts";
import type { StallState } from "../../src/stall/state/state.ts";
import { presentRow } from "../../src/stall/storage/earlier-names.ts";
import { loadState, readJournal, type Store } from "../../src/stall/storage/records.ts";
import type { Bucket } from "../../src/time/bucket.ts";
import { rowsOf } from "./rows.ts";

/** Memory, records and the folded journal agree. */
export function expectAgreement(
  memory: StallState,
  store: Store,
  byEarlierRule: readonly string[] = [],
): void {
  const folded = fold(readJournal(store));
  const loaded = loadState(store);
  expect(rowsOf(loaded)).toEqual(rowsOf(memory));
  const byThisRule = (state: StallState) =>
    Object.fromEntries(Object.entries(rowsOf(state)).filter(([key]) => !byEarlierRule.includes(key)));
  expect(byThisRule(folded)).toEqual(byThisRule(memory));
  expect([loaded.version, folded.version]).toEqual([memory.version, memory.version]);
  for (const table of folded.readByKey) {
    for (const key of table.keys())
      expect(presentRow(table.prefix, store.get(table.prefix + key))).toEqual(table.get(key));
  }
}

/** Promises counted afresh from the orders and holds, never from the state's own running totals. */
function promisedAfresh(state: StallState): Map<PieceKey, number> {
  const promised = new Map<PieceKey, number>();
  const add = (piece: PieceKey, pieces: number): void =>
    void promised.set(piece, (promised.get(piece) ?? 0) + pieces);
  for (const order of state.orders.values()) {
    for (const job of order.jobs) {
      if (job.stage === "short" || job.stage === "pressed") continue;
      for (const piece of piecesOf(lineOf(order, job))) add(piece, 1);
    }
  }
  for (const hold of state.holds.values()) {
    for (const line of hold.lines) for (const piece of piecesOf(line)) add(piece, line.quantity);
  }
  return promised;
}

/** `0 <= promised <= onHand` for every piece, promises equal to what the orders and holds need. */
export function expectStockHolds(state: StallState): void {
  const promised = promisedAfresh(state);
  for (const key of state.counts.keys()) {
    const piece = key as PieceKey; // the table's keys are piece keys
    expect(state.orderIndex.promises.of(piece), piece).toBe(promised.get(piece) ?? 0);
    expect(onHand(state.count(piece)), piece).toBeGreaterThanOrEqual(promised.get(piece) ?? 0);
  }
  const presses = [...state.orderIndex.onPress.values()].map(({ number, n }) => `${number}-${n}`);
  expect(new Set(presses).size).toBe(presses.length);
}

/** Every garment of an open order is in exactly the one place that its stage names, and passed over no more than the rule. */
export function expectFloorHolds(state: StallState): void {
  const { waiting, reserved, onPress, short } = state.orderIndex;
  const most = state.menu?.rules.overtakenMost ?? 0;
  const places = [
    ...[waiting.flat, waiting.cap].flatMap((line) =>
      [...line].map(({ number, n }) => [`${number}-${n}`, "waiting"] as const),
    ),
    ...[...reserved].flatMap(([press, list]) =>
      [...list].map(({ number, n }) => [`${number}-${n}`, `reserved ${press}`] as const),
    ),
    ...[...onPress].map(([press, { number, n }]) => [`${number}-${n}`, `pressing ${press}`] as const),
    ...[...short].map(({ number, n }) => [`${number}-${n}`, "short"] as const),
  ];
  const stages = [...state.orders.values()].flatMap(({ number, jobs }) =>
    jobs.flatMap((job) => {
      if (job.stage === "to-pay" || job.stage === "to-claim" || job.stage === "pressed") return [];
      expect(job.overtaken, `${number}-${job.n}`).toBeLessThanOrEqual(most);
      const where = "press" in job ? `${job.stage} ${job.press}` : job.stage;
      return [[`${number}-${job.n}`, where] as const];
    }),
  );
  const sorted = (rows: readonly (readonly [string, string])[]) =>
    [...rows].sort(([one], [other]) => (one < other ? -1 : 1));
  expect(sorted(places)).toEqual(sorted(stages));
  for (const [press, list] of reserved) expect(list.length, press).toBeLessThanOrEqual(RESERVED_MOST);
  for (const press of [
    ...onPress.keys(),
    ...[...reserved].flatMap(([id, { length }]) => (length > 0 ? [id] : [])),
  ])
    expect(state.press(press).downSince, press).toBeNull();
}

/** The pieces of a garment that a spoil cost: of several transfers the last, unless all are lost. */
function lostOf(pieces: readonly PieceKey[], lost: "blank" | "transfer" | "both"): readonly PieceKey[] {
  if (lost === "both") return pieces;
  return lost === "blank" ? pieces.filter((piece) => piece.startsWith("sku:")) : pieces.slice(-1);
}

/** Stock from the journal's stock events alone: `opening + delivered + corrected - pressed - spoiled`. */
export function onHandFromJournal(journal: Iterable<JournalEntry>): Map<PieceKey, number> {
  const hand = new Map<PieceKey, number>();
  const garments = new Map<string, { pieces: readonly PieceKey[]; pressed: boolean }>();
  const add = (piece: PieceKey, pieces: number): void =>
    void hand.set(piece, (hand.get(piece) ?? 0) + pieces);
  for (const { events } of journal) {
    for (const event of events) {
      if (event.type === "counted") hand.set(event.piece, event.onHand);
      if (event.type === "delivered" || event.type === "corrected") add(event.piece, event.pieces);
      if (event.type === "placed") {
        for (const job of event.order.jobs) {
          garments.set(`${event.order.number}-${job.n}`, {
            pieces: piecesOf(lineOf(event.order, job)),
            pressed: false,
          });
        }
      }
      if (event.type === "changed") {
        for (const { n, line, stage } of event.jobs) {
          const pieces = event.lines[line];
          const garment = garments.get(`${event.number}-${n}`);
          // A waiting garment that was pressed before is a new one, made in place of a returned one.
          if (pieces !== undefined && (garment?.pressed !== true || stage !== "pressed"))
            garments.set(`${event.number}-${n}`, { pieces: piecesOf(pieces), pressed: false });
        }
      }
      if (event.type === "taken-instead")
        garments.set(`${event.number}-${event.n}`, { pieces: piecesOf(event.line), pressed: false });
      if (event.type === "undo-spoiled") {
        const pieces = garments.get(`${event.number}-${event.n}`)?.pieces ?? [];
        for (const piece of lostOf(pieces, event.lost)) add(piece, 1);
      }
      if (event.type !== "pressed" && event.type !== "undo-pressed" && event.type !== "spoiled") continue;
      const garment = garments.get(`${event.number}-${event.n}`);
      if (garment === undefined) throw new Error(`${event.number}-${event.n} was never placed`);
      if (event.type === "pressed") for (const piece of garment.pieces) add(piece, -1);
      if (event.type !== "pressed" && garment.pressed) for (const piece of garment.pieces) add(piece, 1);
      if (event.type === "spoiled") for (const piece of lostOf(garment.pieces, event.lost)) add(piece, -1);
      garment.pressed = event.type === "pressed";
    }
  }
  return hand;
}

/** The sums of the quarters of an hour, for the backlog and the takings. */
export function flowsOf(store: Store): { readonly backlog: number; readonly takings: number } {
  const sum = { backlog: 0, takings: 0 };
  for (const [, row] of store.list({ prefix: "bucket:" })) {
    const { backlogChange, takings } = row as Bucket; // bucket rows only
    sum.backlog += backlogChange;
    sum.takings += takings;
  }
  return sum;
}

/** The takings of ended orders, from the journal's orders, payments and endings alone. */
export function takingsFromJournal(journal: Iterable<JournalEntry>): number {
  type Told = {
    total: number;
    paid: number | null;
    owed: number;
    endings: string[];
    back: Map<number, { amount: number; paid: number }>;
  };
  const orders = new Map<number, Told>();
  for (const { events } of journal) {
    for (const event of events) {
      if (event.type === "placed")
        orders.set(event.order.number, {
          total: event.order.total,
          paid: null,
          owed: event.order.giveBack ?? 0,
          endings: [],
          back: new Map(),
        });
      if (!("number" in event)) continue;
      const order = orders.get(event.number);
      if (order === undefined) throw new Error(`order ${event.number} was never placed`);
      if (event.type === "paid") order.paid = event.amount;
      if (event.type === "undo-paid") order.paid = null;
      if (event.type === "undo-paid" && event.carried) order.owed = 0;
      if (event.type === "garment-refunded") {
        const paid = Math.min(event.amount, order.paid ?? 0);
        order.back.set(event.n, { amount: event.amount, paid });
        order.total -= event.amount;
        if (order.paid !== null) order.paid -= paid;
      }
      if (event.type === "undo-garment-refunded") {
        const { amount, paid } = order.back.get(event.n) ?? { amount: 0, paid: 0 };
        order.total += amount;
        if (order.paid !== null) order.paid += paid;
      }
      if (event.type === "more-paid" && order.paid !== null) order.paid += event.amount;
      if (event.type === "given-back") order.owed -= event.amount;
      if (event.type === "left-out" || event.type === "changed") {
        if (order.paid !== null) {
          const more = Math.max(0, event.total - order.total);
          const paid = more > 0 ? order.paid + Math.min(more, order.owed) : Math.min(order.paid, event.total);
          order.owed += order.paid - paid;
          order.paid = paid;
        }
        order.total = event.total;
      }
      if (event.type === "closed") order.endings.push(event.as);
      if (event.type === "undo-closed") order.endings.pop();
    }
  }
  return [...orders.values()].reduce((sum, { total, paid, endings }) => {
    const ended = endings.at(-1);
    if (ended === undefined || ended === "refunded" || ended === "exchanged") return sum;
    return sum + (paid ?? (ended === "collected" ? total : 0));
  }, 0);
}

/** Garments of open orders that are neither pressed nor waiting for their payment. */
export const toPress = (state: StallState): number =>
  [...state.orders.values()]
    .flatMap(({ jobs }) => jobs)
    .filter(({ stage }) => stage !== "to-pay" && stage !== "pressed").length;
