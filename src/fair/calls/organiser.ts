/** The owner's and the organiser's commands: make a fair, change its hours, add stalls, replace keys. */

import type { FairId, StallId } from "../../model/basics/ids.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import type { ChangeFair, CreateFair } from "../../model/fair/fair.ts";
import type { FairAnswer } from "../../model/fair/fair-refusal.ts";
import { FAIR_RECORDS_VERSION, FAIR_SHAPE } from "../records.ts";
import type { FairRow, FairTransactions, StallRow } from "../transact.ts";
import { eraseByNewHours, lastClosing } from "./erasing.ts";
import { changedBy } from "./texts.ts";

export type FairFacts = Omit<CreateFair, "fair"> & {
  readonly fair: FairId;
  /** How often these facts were changed, so that an older edition that arrives late is recognised. */
  readonly edition: number;
};

const newStall = (stall: StallId, added: number): StallRow => ({
  stall,
  added,
  name: stall,
  generation: 1,
  earlierUntil: 0,
  rotatedBy: null,
  changes: 0,
  heardAt: null,
  crewAt: null,
  paused: false,
  shares: null,
  version: 0,
  backlog: 0,
  soldOut: 0,
  backlogEnds: null,
});

export const factsOf = ({ fair, name, timeZone, openings, edition = 0 }: FairRow): FairFacts => ({
  fair,
  name,
  timeZone,
  openings,
  edition,
});

/** Makes the fair and gives the generation of its key. Repeated with the same write key it is the same fair. */
export function create(
  transactions: FairTransactions,
  key: WriteKey,
  request: CreateFair,
): FairAnswer<number> {
  const before = transactions.fair();
  if (before !== undefined) {
    const same = before.madeBy.scope === key.scope && before.madeBy.fingerprint === key.fingerprint;
    return same ? ok(before.generation) : refused({ code: "fair-exists" });
  }
  const row: FairRow = { ...request, generation: 1, earlierUntil: 0, madeBy: key, rotatedBy: null };
  transactions.transact(() => {
    transactions.kv.put(FAIR_SHAPE, FAIR_RECORDS_VERSION);
    transactions.kv.put("fair", row);
  });
  return ok(1);
}

/**
 * Changes the fair's name, clock and hours if its edition is still the one the change started from; every stall gets
 * them. Repeated with the same key, it changes nothing. Moving the last closing into the past needs `over: true`,
 * because people are erased by it and a mistyped year looks the same.
 */
export function change(
  transactions: FairTransactions,
  generation: number,
  key: WriteKey,
  request: ChangeFair,
  basedOn: number | null,
): FairAnswer<FairFacts> {
  const before = transactions.fair();
  if (before === undefined) return refused({ code: "no-such-fair" });
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  const { edition = 0, changedBy: last } = before;
  if (last?.scope === key.scope)
    return last.fingerprint === key.fingerprint ? ok(factsOf(before)) : refused({ code: "key-reused" });
  if (basedOn !== null && basedOn !== edition) return refused({ code: "fair-changed" });
  const { name, openings, timeZone = before.timeZone } = request;
  const row: FairRow = { ...before, name, openings, timeZone, edition: edition + 1, changedBy: key };
  return transactions.transact((now): FairAnswer<FairFacts> => {
    const isMoved = lastClosing(row) !== lastClosing(before);
    if (isMoved && lastClosing(row) <= now && request.over !== true)
      return refused({ code: "last-closing-past" });
    transactions.kv.put("fair", row);
    eraseByNewHours(transactions, row, now);
    transactions.outbox.add(
      transactions.stalls().map(({ stall }) => stall),
      now,
    );
    return ok(factsOf(row));
  });
}

/** Gives the fair a new organiser key; the old one works until the overlap is over. Repeated, it is the same key. */
export function newKey(
  transactions: FairTransactions,
  key: WriteKey,
  overlapMinutes: number,
): FairAnswer<number> {
  const before = transactions.fair();
  if (before === undefined) return refused({ code: "no-such-fair" });
  if (before.rotatedBy === key.scope) return ok(before.generation);
  const generation = before.generation + 1;
  transactions.transact((now) => {
    const earlierUntil = now + overlapMinutes * 60_000;
    transactions.kv.put("fair", {
      ...before,
      generation,
      earlierUntil,
      rotatedBy: key.scope,
    } satisfies FairRow);
  });
  return ok(generation);
}

/** Adds a stall or renames it, and gives the generation of its key. The same again changes nothing. */
export function addStall(
  transactions: FairTransactions,
  generation: number,
  stall: StallId,
  name: string,
): FairAnswer<number> {
  if (transactions.fair() === undefined) return refused({ code: "no-such-fair" });
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  const before = transactions.stall(stall) ?? newStall(stall, transactions.stalls().length);
  transactions.transact((now) => {
    transactions.saveStall({ ...before, name });
    transactions.outbox.add([stall, ...changedBy(transactions, stall)], now);
  });
  return ok(before.generation);
}

/** Gives a stall a new key; the old one works until the overlap is over. Repeated, it gives the same key. */
export function newStallKey(
  transactions: FairTransactions,
  generation: number,
  key: WriteKey,
  stall: StallId,
  overlapMinutes: number,
): FairAnswer<number> {
  const before = transactions.stall(stall);
  if (before === undefined) return refused({ code: "no-such-stall", stall });
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  if (before.rotatedBy === key.scope) return ok(before.generation);
  transactions.transact((now) => {
    const earlierUntil = now + overlapMinutes * 60_000;
    transactions.saveStall({
      ...before,
      generation: before.generation + 1,
      earlierUntil,
      rotatedBy: key.scope,
    });
    transactions.outbox.add([stall], now);
  });
  return ok(before.generation + 1);
}
