/** All days of a fair as one, to stand beside its plan. */
import type { Identity } from "../../fair/reports.ts";
import { mergeInto, quantile } from "../../maths/log-histogram.ts";
import type { DayCosts } from "../../model/accounts/day-costs.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { Day } from "../../time/fair-day.ts";
import { type DayPiece, type DayRows, EMPTY_TOTALS } from "../state/day-rows.ts";
import type { StallState } from "../state/state.ts";
import { moneyOf } from "./closeout-money.ts";
import { salesOf } from "./closeout-sales.ts";
import { type PricedPiece, piecesOfDay } from "./closeout-stock.ts";
import { changedAfter, rowsOf } from "./days.ts";
import type { DayNow } from "./planned.ts";

/**
 * The costs of a day: typed for it, else the plan's as long as none are typed for it or a day before. A plan of several
 * days pays its fees once: its later days have the costs of the day before without them.
 */
export function costsOfDay(
  { plan }: StallState,
  typed: DayCosts | null,
  earlier: DayCosts | null,
  isFirst: boolean,
): DayCosts | null {
  if (typed !== null || plan === null) return typed;
  if (plan.days === undefined) return earlier === null ? plan.costs : null;
  return isFirst ? plan.costs : { ...(earlier ?? plan.costs), fees: [] };
}

/** The days' sums; the profit is null until every day has its costs. `readyLeft` is what the rack has now. */
export function wholeFair(
  state: StallState,
  identity: Identity,
  menu: Menu,
  days: readonly Day[],
  readyLeft: number,
): DayNow {
  let earlier: DayCosts | null = null;
  let profit: number | null = 0;
  const waits: Record<string, number> = {};
  const choices: DayRows["choices"][number][] = [];
  const pieces = new Map<string, PricedPiece>();
  for (const day of days) {
    const rows = rowsOf(state, day);
    const costs = costsOfDay(state, rows.costs, earlier, day === days[0]);
    earlier = rows.costs ?? earlier;
    const ofDay = piecesOfDay(state, menu, { ...rows, costs }, changedAfter(state, day));
    const blanks = ofDay.filter(isBlank);
    const transfers = ofDay.filter((piece) => !isBlank(piece));
    if (costs === null) profit = null;
    else if (profit !== null)
      profit += moneyOf(identity, day, { ...rows, costs }, { blanks, transfers }).profit;
    for (const piece of ofDay) pieces.set(piece.key, together(pieces.get(piece.key), piece));
    mergeInto(waits, rows.totals.waits);
    choices.push(...rows.choices);
  }
  const all = [...pieces.values()];
  const seconds = quantile(waits, 0.5);
  return {
    sales: salesOf(menu, { totals: EMPTY_TOTALS, pieces: new Map(), choices, costs: null }),
    profit,
    blanks: all.filter(isBlank),
    transfers: all.filter((piece) => !isBlank(piece)),
    waitMinutes: seconds === null ? null : Math.round(seconds / 6) / 10,
    readyLeft,
  };
}

const isBlank = ({ key }: PricedPiece): boolean => key.startsWith("sku:");

/** A piece of two days one after the other: what the first left is what the second began with. */
function together(before: PricedPiece | undefined, now: PricedPiece): PricedPiece {
  if (before === undefined) return now;
  const [one, other] = [before.row, now.row];
  const both = (of: (row: DayPiece) => number): number => of(one) + of(other);
  const reasons = Object.keys({ ...one.spoiled, ...other.spoiled }) as (keyof DayPiece["spoiled"])[]; // their own keys
  return {
    ...now,
    price: now.price ?? before.price,
    opening: before.opening,
    row: {
      ...other,
      opening: one.opening,
      // A piece that is counted first on a later day came to the stall then.
      delivered: both((row) => row.delivered) + other.opening,
      corrected: both((row) => row.corrected),
      pressed: both((row) => row.pressed),
      found: both((row) => row.found),
      spoiled: Object.fromEntries(reasons.map((reason) => [reason, both((row) => row.spoiled[reason] ?? 0)])),
    },
  };
}
