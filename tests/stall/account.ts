/** A test stall's account of a day, and what must hold of every one. */
import { expect } from "vitest";
import type { Closeout } from "../../src/model/accounts/closeout.ts";
import { closeout } from "../../src/stall/day/closeout.ts";
import { changedAfter, daysOf, rowsOf } from "../../src/stall/day/days.ts";
import type { Order } from "../../src/stall/state/shapes/order.ts";
import { readJournal } from "../../src/stall/storage/records.ts";
import { balances } from "./balances.ts";
import { type Recounted, recount } from "./recount.ts";
import type { TestStall } from "./test-stall.ts";

export function accountOf({ state }: TestStall, day: string, now: number): Closeout {
  const { identity, menu } = state;
  if (identity === null || menu === null) throw new Error("the stall is not set up");
  const given = {
    day,
    rows: rowsOf(state, day),
    later: changedAfter(state, day),
    days: daysOf(state),
    earlierCosts: null,
  };
  return closeout(state, identity, menu, given, now);
}

const NOTHING: Recounted = {
  pieces: {},
  choices: {},
  takings: {},
  tax: 0,
  ready: { promised: 0, kept: 0 },
};

/** Every day's account equals what the journal alone gives, and each day begins with the last one's leftovers. */
export function expectAccounts(stall: TestStall, now: number): void {
  const { state, store } = stall;
  for (const [what, one, other] of balances(state, store)) expect(one, what).toBe(other);
  const again = recount(readJournal(store), state.identity?.openings ?? []);
  const days = daysOf(state);
  for (const day of again.keys()) expect(days).toContain(day);
  const left = new Map<string, number>();
  for (const day of days) {
    const account = accountOf(stall, day, now);
    const { pieces, choices, takings, tax, ready } = again.get(day) ?? NOTHING;
    const rows = [
      ...account.skus.map((row) => [`sku:${row.sku}`, row] as const),
      ...account.transfers.map((row) => [`transfer:${row.design}`, row] as const),
    ];
    for (const [key, row] of rows) {
      const counted = pieces[key] ?? {};
      const at = `${day} ${key}`;
      expect(row.opening - (counted["opening"] ?? 0), at).toBe(left.get(key) ?? 0);
      for (const field of ["delivered", "corrected", "pressed"] as const)
        expect(row[field], `${at} ${field}`).toBe(counted[field] ?? 0);
      for (const [reason, spoiled] of Object.entries(row.spoiled))
        expect(spoiled, `${at} ${reason}`).toBe(counted[`spoiled ${reason}`] ?? 0);
      const spoiled = Object.values(row.spoiled).reduce((sum, many) => sum + many, 0);
      expect(row.expected, at).toBe(row.opening + row.delivered + row.corrected - row.pressed - spoiled);
      expect(row.expected - row.left, at).toBe(0 - (counted["found"] ?? 0));
      if (row.counted !== null) expect(row.missing, at).toBe(row.expected - row.counted);
      left.set(key, row.left);
    }
    for (const row of account.sales.choices) {
      const counted = choices[`${row.offer}.${row.colour}.${row.size}`] ?? {};
      for (const field of ["garments", "amount", "returned", "asked", "unmet"] as const)
        expect(row[field], `${day} ${row.offer} ${field}`).toBe(counted[field] ?? 0);
    }
    const soldIn = (rows: readonly { garments: number; amount: number }[]): [number, number] => [
      rows.reduce((sum, { garments }) => sum + garments, 0),
      rows.reduce((sum, { amount }) => sum + amount, 0),
    ];
    const { sales, money, waste, waits } = account;
    for (const part of [sales.offers, sales.colours, sales.sizes, sales.hours])
      expect(soldIn(part)).toEqual(soldIn(sales.choices));
    for (const { tender, ...taken } of sales.tenders) expect(taken, day).toEqual(takings[tender]);
    expect(money.tax, day).toBe(tax);
    // Everything paid is sales, tax, or paid beyond the price.
    const takenInAll = sales.tenders.reduce((sum, { amount, givenBack }) => sum + amount - givenBack, 0);
    expect(takenInAll, day).toBe(money.sales + money.difference - money.givenBack + money.tax);
    expect(waste.unsold, day).toBe(Object.values(choices).reduce((sum, { unsold = 0 }) => sum + unsold, 0));
    expect({ promised: waits.promised, kept: waits.kept }, day).toEqual(ready);
  }
  for (const [key, pieces] of left) {
    const count = state.counts.get(key);
    if (count === undefined) continue;
    const { opening, delivered, corrected, pressed, spoiled } = count;
    expect(pieces, key).toBe(opening + delivered + corrected - pressed - spoiled);
  }
}

/**
 * What changed hands since the float was set, before anything else happened, is what the takings say, and what is still
 * to be given back: float + takings - refunds - pay-outs = drawer + card, what is owed apart.
 */
export function expectDrawer({ state, store }: TestStall): void {
  const days = daysOf(state).map((day) => state.dayTotals.get(day));
  let moved = 0;
  let taken = 0;
  for (const totals of days) {
    for (const { in: came, out, tips } of Object.values(totals?.drawer?.moves ?? {}))
      moved += came - out - tips;
    for (const [tender, { amount, givenBack }] of Object.entries(totals?.takings ?? {}))
      if (tender !== "not-noted") taken += amount - givenBack;
  }
  const past = [...store.list({ prefix: "past:" })].map(([, order]) => order as Order); // rows of that prefix
  const orders = [...state.orders.values(), ...past];
  const owed = orders.reduce((sum, { giveBack = 0 }) => sum + giveBack, 0);
  expect(moved, "the drawer").toBe(taken + owed);
}
