/** What transfers cost that are bought by the sheet: the sheets' price, shared by printed area. */
import type { SheetPlan, SheetRequest } from "../../model/planning/sheets.ts";
import { shareNumber } from "../request/given.ts";
import type { Prepared, Stock } from "../request/prepared.ts";

/** By design: its part of the price of the sheets, in whole minor units that add up to the total. */
export function sharesOf(wanted: SheetRequest, plan: SheetPlan): ReadonlyMap<string, number> {
  const rows = plan.transfers.flatMap(({ design, made }) => {
    const art = wanted.designs.find(({ id }) => id === design);
    return art === undefined || made === 0 ? [] : [{ design, area: made * art.width * art.height }];
  });
  const whole = rows.reduce((sum, { area }) => sum + area, 0);
  const shares = new Map<string, number>();
  let area = 0;
  let given = 0;
  for (const row of rows) {
    area += row.area;
    const upTo = Math.round((plan.cost.total * area) / whole);
    shares.set(row.design, upTo - given);
    given = upTo;
  }
  return shares;
}

/** The part of the sheets' price for designs that this plan sells; the sheets may hold others. */
export function ownTotal(prepared: Prepared, wanted: SheetRequest, plan: SheetPlan): number {
  const shares = sharesOf(wanted, plan);
  return prepared.stocks.reduce((sum, { id, bySheet }) => sum + (bySheet ? (shares.get(id) ?? 0) : 0), 0);
}

/** The cost of one wanted transfer of each design: spares and empty room are paid by those that are wanted. */
export function averageCosts(
  prepared: Prepared,
  wanted: SheetRequest,
  plan: SheetPlan,
  counts: ReadonlyMap<string, number>,
): ReadonlyMap<string, number> {
  const areas = new Map(wanted.designs.map(({ id, width, height }) => [id, width * height]));
  let area = 0;
  for (const [id, count] of counts) area += count * (areas.get(id) ?? 0);
  const each = area === 0 ? 0 : ownTotal(prepared, wanted, plan) / area;
  return new Map([...counts.keys()].map((id) => [id, each * (areas.get(id) ?? 0)]));
}

/** The request with these costs of transfers; a leftover is worth its share of them. */
export function atCosts(prepared: Prepared, costs: ReadonlyMap<string, number>): Prepared {
  const worth = new Map(
    prepared.request.designs.map(({ id, leftoverWorth }) => [id, shareNumber(leftoverWorth)]),
  );
  const stocks = prepared.stocks.map((stock): Stock => {
    const cost = stock.bySheet ? costs.get(stock.id) : undefined;
    return cost === undefined ? stock : { ...stock, cost, worth: cost * (worth.get(stock.id) ?? 0) };
  });
  return { ...prepared, stocks };
}
