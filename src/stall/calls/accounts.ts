/** The account of a stall's days, read from their own rows. */

import type { Identity } from "../../fair/reports.ts";
import { eachOnce } from "../../lessons/learnt.ts";
import type { Closeout } from "../../model/accounts/closeout.ts";
import type { DaySoFar } from "../../model/accounts/day-so-far.ts";
import type { Lessons } from "../../model/accounts/lessons.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { Answer } from "../../model/orders/refusal.ts";
import type { KeptPlan } from "../../model/planning/kept-plan.ts";
import type { Day } from "../../time/fair-day.ts";
import type { Instant } from "../../time/instants.ts";
import { closeout } from "../day/closeout.ts";
import { priceOf } from "../day/closeout-stock.ts";
import { changedAfter, daysOf, rowsOf } from "../day/days.ts";
import { lessonsOf } from "../day/lessons.ts";
import { nameIn, pieceName, skuName } from "../day/names.ts";
import { planDayOf } from "../day/plan-day.ts";
import { daySoFar } from "../day/so-far.ts";
import { accountDay, openingsOf } from "../state/account-day.ts";
import { type DayChoice, EMPTY_TOTALS } from "../state/day-rows.ts";
import type { PieceKey } from "../state/shapes/piece.ts";
import type { StallState } from "../state/state.ts";
import { isForSale } from "../stock/rack.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import type { Transactions } from "../transact.ts";
import { drawerView } from "./counter/drawer-view.ts";
import { rackGarments } from "./counter/rack-view.ts";

export type DayStanding = { readonly day: Day; readonly closed: boolean };
export type PassersByCounted = { readonly people: number; readonly seconds: number };

/** The day to show if none is named: today if it has begun, else the latest day. */
function latestDay({ state }: UnitOfWork, now: Instant): Day {
  const today = accountDay(state, now);
  if (state.dayTotals.get(today) !== undefined) return today;
  return daysOf(state).at(-1) ?? today;
}

function opened({ state }: UnitOfWork): Identity {
  if (state.identity === null) throw new Error("a stall with a menu was never opened");
  return state.identity;
}

/** A day's account; null as `day` asks for the latest day. */
export function readCloseout(
  transactions: Transactions,
  generation: number,
  day: Day | null,
): Answer<Closeout> {
  return transactions.readAsCrew(generation, (unit, menu, now) => {
    const { state } = unit;
    const shown = day ?? latestDay(unit, now);
    const days = daysOf(state);
    const before = days.filter((one) => one < shown).findLast((one) => state.dayCosts.get(one) !== undefined);
    const given = {
      day: shown,
      rows: rowsOf(state, shown),
      later: changedAfter(state, shown),
      days,
      earlierCosts: before === undefined ? null : (state.dayCosts.get(before) ?? null),
    };
    return {
      ...closeout(state, opened(unit), menu, given, now),
      rack: rackGarments(state, menu),
      drawer: drawerView(unit, shown, now),
    };
  });
}

/** The lessons of every day, imported fairs first, as the planner reads them. */
export function readLessons(transactions: Transactions, generation: number): Answer<readonly Lessons[]> {
  return transactions.readAsCrew(generation, (unit) => {
    const { state } = unit;
    const identity = opened(unit);
    const imported = [...transactions.store.list({ prefix: "lesson:" })].map(([, row]) => row as Lessons); // its own prefix
    const own = daysOf(state).flatMap((day) => lessonsOf(identity, day, rowsOf(state, day)) ?? []);
    return eachOnce([...imported, ...own]);
  });
}

/** The plan that the stall was filled from; null if it was filled from none. */
export const keptPlan = (transactions: Transactions, generation: number): Answer<KeptPlan | null> =>
  transactions.readAsCrew(generation, ({ state }) => state.plan);

/** How today compares with the plan that the stall was filled from; null if there was no plan. */
export const readDaySoFar = (transactions: Transactions, generation: number): Answer<DaySoFar | null> =>
  transactions.readAsCrew(generation, (unit, menu, now) => {
    const { state } = unit;
    if (state.plan === null) return null;
    const day = accountDay(state, now);
    const rows = rowsOf(state, day);
    const openings = openingsOf(opened(unit), day);
    const ordered = new Map<string, Garments>();
    const add = (choice: Omit<Garments, "garments">, garments: number): void => {
      const key = [choice.offer, choice.colour, choice.size].join(".");
      const { offer, colour, size } = choice;
      ordered.set(key, { offer, colour, size, garments: (ordered.get(key)?.garments ?? 0) + garments });
    };
    for (const choice of rows.choices) add(choice, keptOf(choice).garments);
    // An order counts as a sale once it is paid, or once it is handed over if the stall does not note payments.
    for (const { paid, lines } of state.orders.values())
      if (paid === null) for (const line of lines) add(line, line.quantity);
    const costs = rows.costs ?? state.plan.costs;
    const planDay = planDayOf(state.plan, opened(unit), day);
    const before = daysOf(state).filter((one) => one < day);
    return daySoFar(state.plan, {
      now,
      planDay,
      earlier: before
        .slice(Math.max(0, before.length - planDay + 1))
        .flatMap((one) => rowsOf(state, one).choices.map(keptOf)),
      opening:
        openings[0] === undefined ? null : { opens: openings[0].opens, closes: openings.at(-1)?.closes ?? 0 },
      ordered: [...ordered.values()],
      pieces: [...state.counts.keys()].map((key) => {
        const piece = key as PieceKey; // the table's keys are pieces
        const price = priceOf(costs, piece);
        return {
          name: pieceName(menu, piece),
          free: Math.max(0, state.free(piece)),
          uses: (choice) => usesPiece(menu, piece, choice),
          loses: price === null ? null : (price.cost * (100 - price.worthPercent)) / 100,
        };
      }),
      rack: onTheRack(state, menu),
    });
  });

type Garments = {
  readonly offer: string;
  readonly colour: string;
  readonly size: string;
  readonly garments: number;
};

function usesPiece(
  { offers }: Menu,
  piece: PieceKey,
  { offer, colour, size }: Omit<Garments, "garments">,
): boolean {
  const made = offers.find(({ id }) => id === offer);
  return piece === `transfer:${made?.design}` || piece === `sku:${made?.blank}.${colour}.${size}`;
}

/** Garments of a choice that were sold and not brought back. */
const keptOf = ({ offer, colour, size, garments, returned }: DayChoice): Garments => ({
  offer,
  colour,
  size,
  garments: garments - returned,
});

/** Garments for sale on the rack, by kind: the kinds of which one at least was pressed at this fair. */
function onTheRack(state: StallState, menu: Menu): readonly (Garments & { readonly name: string })[] {
  const kinds = new Map<string, Garments & { readonly name: string }>();
  const pressed = new Set<string>();
  for (const item of state.rack.values()) {
    if (!isForSale(state, item)) continue;
    const { offer, blank, colour, size } = item;
    const name = [
      nameIn(menu.offers, offer),
      ...skuName(menu, `${blank}.${colour}.${size}`).split(", ").slice(-2),
    ];
    const key = `${offer}.${colour}.${size}`;
    if (item.from !== "plan" && item.from !== "brought") pressed.add(key);
    const garments = (kinds.get(key)?.garments ?? 0) + 1;
    kinds.set(key, { offer, colour, size, garments, name: name.join(", ") });
  }
  return [...kinds].flatMap(([key, kind]) => (pressed.has(key) ? [kind] : []));
}

/** People counted walking past today, and the seconds watched. */
export function passersByCounted({ state }: UnitOfWork, now: Instant): PassersByCounted {
  const { hours } = state.dayTotals.get(accountDay(state, now)) ?? EMPTY_TOTALS;
  const watched = Object.values(hours);
  return {
    people: watched.reduce((sum, { passersBy }) => sum + passersBy, 0),
    seconds: watched.reduce((sum, { watchedSeconds }) => sum + watchedSeconds, 0),
  };
}
