import { finished } from "../../src/maths/work.ts";
import type { PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import { newTrial, type Trial } from "../../src/planning/bring/search/score.ts";
import { type Afforded, FULL_EFFORT, search } from "../../src/planning/bring/search/search.ts";
import { ON_SITE, openShop, type Shop, type Strategy } from "../../src/planning/bring/search/shop.ts";
import type { Scenarios } from "../../src/planning/demand/asks.ts";
import { drawScenarios } from "../../src/planning/demand/demand.ts";
import type { Prepared } from "../../src/planning/request/prepared.ts";
import { preparedFrom } from "./planned.ts";

export type Days = {
  readonly prepared: Prepared;
  readonly scenarios: Scenarios;
  readonly shop: Shop;
  readonly trial: Trial;
};

/** So many days of a request's scenarios and the shop they are lived in. */
export function daysOf(sent: PlanRequestSent, days: number, manner: Strategy = ON_SITE): Days {
  const prepared = preparedFrom(sent);
  const scenarios = drawScenarios(prepared, days, new Set());
  const shop = openShop(prepared, manner);
  return { prepared, scenarios, shop, trial: newTrial(shop, scenarios) };
}

/** The best stock for them, within the request's budget and van. */
export function bestStock({ prepared, trial }: Days): Afforded {
  return finished(
    search(trial, {
      seed: prepared.request.seed,
      vanLimit: prepared.vanLimit,
      care: FULL_EFFORT,
      budget: () => prepared.budget,
    }),
  );
}
