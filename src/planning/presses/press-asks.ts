/** The days of a plan as the presses see them: when each order came, for how many garments, and what one earns. */

import type { OrFaults } from "../../model/basics/faults.ts";
import { ok } from "../../model/basics/result.ts";
import type { PlanRequest } from "../../model/planning/plan-request.ts";
import type { Platen, PressAsk, PressesRequest, PressesWish } from "../../model/planning/presses.ts";
import type { Scenarios } from "../demand/asks.ts";
import { drawScenarios } from "../demand/demand.ts";
import { handsFor } from "../parts-from-plan.ts";
import { minorDigits } from "../request/given.ts";
import { prepare } from "../request/prepare.ts";
import type { Prepared } from "../request/prepared.ts";

/** Days handed on; the press planner lives through as many of them as its own budget allows. */
const DAYS = 60;

export type PressesFromPlan = OrFaults<PressesRequest>;

/**
 * Builds a request for presses from a plan request: the same sampled days, the hours, the spoilage, the wage, the
 * planned presses, and the average profit of a garment and cost of a spoiled one, by platen. Assumes stock never runs
 * out. Returns the plan request's own faults.
 */
export function pressesFromPlan(presses: PressesWish, plan: PlanRequest): PressesFromPlan {
  // Of a fair of several days, a usual one: the presses begin each day without a queue.
  const preparation = prepare({ ...plan, days: [] });
  if (!preparation.ok) return preparation;
  const prepared = preparation.value;
  const drawn = drawScenarios(prepared, DAYS, new Set());
  const scenarios = Array.from({ length: drawn.count }, (_, day) => asksOf(prepared, drawn, day));
  const unit = 10 ** minorDigits(prepared.currency);
  const most = presses.people.most ?? handsFor(prepared.presses);
  return ok({
    ...presses,
    currency: prepared.currency,
    seed: plan.seed,
    closesAtSeconds: (prepared.closesMinute - prepared.opensMinute) * 60,
    scenarios,
    spoilage: prepared.spoilage,
    presses: presses.presses.map((press) => {
      const { earns, spoils } = worthOf(prepared, drawn, press.platen);
      const now = prepared.presses.find(({ platen }) => platen === press.platen)?.count;
      return {
        ...press,
        earns: earns / unit,
        spoils: spoils / unit,
        ...(now === undefined || now > press.most ? {} : { now }),
      };
    }),
    people: {
      ...presses.people,
      most,
      hourlyWage: prepared.costs.hourlyWage / unit,
      ...(prepared.costs.people >= 1 && prepared.costs.people <= most ? { now: prepared.costs.people } : {}),
    },
  });
}

function asksOf(prepared: Prepared, drawn: Scenarios, day: number): PressAsk[] {
  const asks: PressAsk[] = [];
  let order: Map<Platen, number> = new Map();
  const end = drawn.starts[day + 1] ?? 0;
  for (let at = drawn.starts[day] ?? 0; at < end; at++) {
    const platen = platenOf(prepared, drawn.product[at] ?? 0);
    if (platen === null) continue;
    if (drawn.opens[at] === 1) order = new Map();
    const open = order.get(platen);
    const started = open === undefined ? undefined : asks[open];
    if (open !== undefined && started !== undefined) {
      asks[open] = { ...started, garments: started.garments + 1 };
      continue;
    }
    order.set(platen, asks.length);
    asks.push({
      atSeconds: ((drawn.minute[at] ?? 0) - prepared.opensMinute) * 60,
      platen,
      garments: 1,
      patienceSeconds: (drawn.patience[at] ?? 0) * 60,
    });
  }
  return asks;
}

/** The platen a product is pressed on; null for a blank that is sold as it is. */
function platenOf(prepared: Prepared, product: number): Platen | null {
  const { offer = 0, transfer = -1 } = prepared.products[product] ?? {};
  if (transfer < 0) return null;
  return prepared.blanks[prepared.offers[offer]?.blank ?? 0]?.platen ?? null;
}

/** The profit of one garment of a platen kind after its stock, and its stock's cost, in minor units. */
function worthOf(prepared: Prepared, drawn: Scenarios, platen: Platen): { earns: number; spoils: number } {
  let net = 0;
  let stock = 0;
  let garments = 0;
  for (const product of drawn.product) {
    const made = prepared.products[product];
    if (made === undefined || platenOf(prepared, product) !== platen) continue;
    net += prepared.offers[made.offer]?.net ?? 0;
    stock += (prepared.stocks[made.sku]?.cost ?? 0) + (prepared.stocks[made.transfer]?.cost ?? 0);
    garments++;
  }
  const each = Math.max(1, garments);
  return { earns: Math.max(0, Math.round((net - stock) / each)), spoils: Math.round(stock / each) };
}
