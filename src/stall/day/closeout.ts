/** One day's account, worked out from the day's own rows. */

import type { Identity } from "../../fair/reports.ts";
import { quantile } from "../../maths/log-histogram.ts";
import type { Closeout } from "../../model/accounts/closeout.ts";
import type { DayCosts } from "../../model/accounts/day-costs.ts";
import type { DesignId, Sku } from "../../model/basics/ids.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { Day } from "../../time/fair-day.ts";
import type { Instant } from "../../time/instants.ts";
import { iso, isoOrNull } from "../../time/instants.ts";
import { isClosed } from "../state/account.ts";
import type { DayRows } from "../state/day-rows.ts";
import type { PieceKey } from "../state/shapes/piece.ts";
import type { StallState } from "../state/state.ts";
import { moneyOf, wasteOf } from "./closeout-money.ts";
import { salesOf } from "./closeout-sales.ts";
import { countsOf, goneOf, type PricedPiece, piecesOfDay } from "./closeout-stock.ts";
import { designName, nameIn, pieceName, skuName } from "./names.ts";
import { ofDay, planDayOf } from "./plan-day.ts";
import { plannedDay } from "./planned.ts";
import { soldOutOf } from "./sold-out.ts";
import { costsOfDay, wholeFair } from "./whole-fair.ts";

export type DayGiven = {
  readonly day: Day;
  readonly rows: DayRows;
  /** The change of each piece's count after the day. */
  readonly later: ReadonlyMap<PieceKey, number>;
  readonly days: readonly Day[];
  readonly earlierCosts: DayCosts | null;
};

export function closeout(
  state: StallState,
  identity: Identity,
  menu: Menu,
  given: DayGiven,
  now: Instant,
): Closeout {
  const { day, later, days, earlierCosts } = given;
  const { plan } = state;
  const typed = given.rows.costs;
  const rows = {
    ...given.rows,
    costs: costsOfDay(
      state,
      typed,
      earlierCosts,
      days.every((one) => one >= day),
    ),
  };
  const { totals } = rows;
  const pieces = piecesOfDay(state, menu, rows, later);
  const blanks = pieces.filter(({ key }) => key.startsWith("sku:"));
  const transfers = pieces.filter(({ key }) => key.startsWith("transfer:"));
  const closed = isClosed(state.account, day);
  const minutes = (share: number): number | null => {
    const seconds = quantile(totals.waits, share);
    return seconds === null ? null : Math.round(seconds / 6) / 10;
  };
  const sales = salesOf(menu, rows);
  const money = moneyOf(identity, day, rows, { blanks, transfers });
  const worth = (key: "leftCost" | "worthNextTime"): number =>
    pieces.reduce((sum, piece) => sum + (countsOf(piece)[key] ?? 0), 0);
  const readyLeft = [...state.rack.values()].filter(({ from }) => from === "plan").length;
  return {
    asOf: iso(now),
    fair: identity.fairName,
    stall: identity.name,
    timeZone: identity.timeZone,
    currency: menu.currency,
    day,
    stage: closed ? "closed" : state.account.reopened === day ? "reopened" : "open",
    closedAt: isoOrNull(totals.closedAt),
    reopenings: totals.reopenings.map(({ at, reason }) => ({ at: iso(at), reason })),
    days: days.map((one) => ({ day: one, closed: isClosed(state.account, one) })),
    openOrders: state.orders.size,
    skus: blanks.map((piece) => {
      const sku = piece.key.slice("sku:".length) as Sku; // what a blank's key is made of
      return { sku, name: skuName(menu, sku), ...countsOf(piece) };
    }),
    transfers: transfers.map((piece) => {
      const design = piece.key.slice("transfer:".length) as DesignId; // likewise
      return { design, name: designName(menu, design), ...countsOf(piece) };
    }),
    sales,
    money,
    waste: wasteOf(rows, { blanks, transfers }),
    soldOut: soldOutOf(menu, rows, pieces),
    left: {
      blanks: sum(blanks),
      transfers: sum(transfers),
      cost: worth("leftCost"),
      worthNextTime: worth("worthNextTime"),
    },
    waits: {
      promised: totals.promised,
      kept: totals.kept,
      medianMinutes: minutes(0.5),
      p90Minutes: minutes(0.9),
    },
    costs: rows.costs,
    costsFrom: typed !== null ? "typed" : rows.costs === null ? null : "plan",
    earlierCosts,
    unpriced: unpriced(menu, pieces),
    planned:
      plan === null
        ? null
        : plannedDay(ofDay(plan, planDayOf(plan, identity, day)), menu, {
            sales,
            profit: rows.costs === null ? null : money.profit,
            blanks,
            transfers,
            waitMinutes: minutes(0.5),
            readyLeft,
          }),
    plannedWhole:
      plan === null || (days.length < 2 && plan.days === undefined)
        ? null
        : plannedDay(
            plan,
            menu,
            wholeFair(state, identity, menu, days.length === 0 ? [day] : days, readyLeft),
          ),
  };
}

const sum = (pieces: readonly PricedPiece[]): number => pieces.reduce((total, { left }) => total + left, 0);

/** Blanks and designs of which pieces were used or are left, and no cost is entered. */
function unpriced(menu: Menu, pieces: readonly PricedPiece[]): string[] {
  const names = new Set<string>();
  for (const piece of pieces) {
    const { key, price, left } = piece;
    if (price !== null || (left === 0 && goneOf(piece) === 0)) continue;
    names.add(
      key.startsWith("transfer:")
        ? pieceName(menu, key)
        : nameIn(menu.blanks, key.slice("sku:".length).split(".")[0] ?? ""),
    );
  }
  return [...names];
}
