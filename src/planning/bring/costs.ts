import type { PlanManner } from "../../model/planning/plan-answer.ts";
import type { Alone } from "../demand/stated.ts";
import type { Prepared } from "../request/prepared.ts";
import type { Brought } from "./bring.ts";
import { stake } from "./search/score.ts";

export type CostRow = { readonly name: string; readonly amount: number };

/** Costs that only the plan works out: the day's account takes them from its mean day. */
export const OWN_COSTS = {
  pitchShare: "Pitch's share of the takings",
  wear: "Wear of presses",
  wearByHour: "Wear of presses by the hour",
  refunds: "Refunds",
  ownTime: "Your own time",
} as const;

/** The costs of the day before a garment is sold, without stock. Printing ahead saves the costs of pressing. */
export function fixedCosts(prepared: Prepared, manner: PlanManner["manner"]): CostRow[] {
  const { costs, request } = prepared;
  const ahead = manner === "print-ahead";
  const people = ahead ? (request.ahead.peopleAtFair ?? costs.people) : costs.people;
  const rows = costs.fixed
    .filter(({ onlyWhenPressing }) => !(ahead && onlyWhenPressing))
    .map(({ name, cost }): CostRow => ({ name, amount: cost }));
  const wages = prepared.days.length * people * costs.paidHours * costs.hourlyWage;
  const presses = ahead ? 0 : prepared.presses.reduce((sum, { count }) => sum + count, 0);
  const minutes = prepared.hours.reduce((sum, hour) => sum + hour.minutes, 0);
  const wear = (presses * minutes * costs.wearPerHour) / 60;
  return [
    ...rows,
    ...(wages > 0 ? [{ name: "Wages", amount: wages }] : []),
    ...(wear > 0 ? [{ name: OWN_COSTS.wearByHour, amount: wear }] : []),
    ...(costs.ownTime === null ? [] : [{ name: OWN_COSTS.ownTime, amount: costs.ownTime }]),
  ];
}

/** The cost of bringing this stock: the loss on each bought piece if it came home, and the designs' set-up. */
export function stockCost(prepared: Prepared, brought: Brought): number {
  return stake(brought.shop.goods, brought.best.stock) + setUpCost(prepared, brought);
}

/** The set-up of every design that is brought at all, except on garments decorated earlier. */
export function setUpCost(prepared: Prepared, { shop, best }: Pick<Brought, "shop" | "best">): number {
  const used = new Set<number>();
  for (let way = 0; way < shop.first.length; way++) {
    const parts = [shop.first[way] ?? -1, shop.second[way] ?? -1].filter((goods) => goods >= 0);
    const more = (goods: number): number =>
      (best.stock[goods] ?? 0) - (shop.goods[goods]?.made === undefined ? 0 : shop.goods[goods].owned);
    if (!parts.every((goods) => more(goods) > 0)) continue;
    const transfer = prepared.products[shop.makes[way] ?? -1]?.transfer ?? -1;
    if (transfer >= 0) used.add(transfer - prepared.skuCount);
  }
  return [...used].reduce((sum, design) => sum + (prepared.setUpCosts[design] ?? 0), 0);
}

export function aloneOutlay(alone: readonly Alone[], quantities: readonly number[]): number {
  return alone.reduce((sum, { cost }, at) => sum + cost * (quantities[at] ?? 0), 0);
}
