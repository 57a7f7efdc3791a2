import { mean, sampleQuantiles } from "../../maths/sample.ts";
import type { Work } from "../../maths/work.ts";
import type { PlanMoney } from "../../model/planning/plan-answer.ts";
import type { Tried } from "../bring/ahead.ts";
import { LIGHT_CARE, whatToBring } from "../bring/bring.ts";
import { fixedCosts, setUpCost, stockCost } from "../bring/costs.ts";
import { stake } from "../bring/search/score.ts";
import type { Strategy } from "../bring/search/shop.ts";
import { aloneProfits } from "../demand/alone-days.ts";
import { daysOfAsks, type Scenarios } from "../demand/asks.ts";
import { drawingScenarios } from "../demand/demand.ts";
import type { Alone } from "../demand/stated.ts";
import { shareNumber } from "../request/given.ts";
import type { Prepared } from "../request/prepared.ts";
import { atPrices, COMPARED_ASKS, cheaper, swings } from "./swings.ts";

const PRICE_FACTORS = [0.8, 0.9, 1, 1.1, 1.2] as const;
const BARS = 24;

/**
 * Whether the day makes money: the spread of its profit, the break-even point, the pitch fee it can pay, what the
 * answer depends on, and the effect of other prices.
 */
export function* canItPay(
  prepared: Prepared,
  scenarios: Scenarios,
  alone: readonly Alone[],
  manner: Strategy,
  tried: Tried,
): Work<PlanMoney> {
  const apart = new Set(alone.map(({ offer }) => offer));
  const { profits, brought } = tried;
  const expected = mean(profits);
  const [p5 = 0, p10 = 0, p25 = 0, p50 = 0, p75 = 0, p95 = 0] = sampleQuantiles(
    profits,
    [0.05, 0.1, 0.25, 0.5, 0.75, 0.95],
  ).map(Math.round);
  const pitch = prepared.costs.fixed
    .filter(({ kind }) => kind === "pitch")
    .reduce((sum, { cost }) => sum + cost, 0);
  const share = (wanted: (profit: number) => boolean) =>
    mean(profits.map((profit) => (wanted(profit) ? 1 : 0)));
  const found = yield* swings(tried.prepared, scenarios, apart, manner, tried.manner, brought, expected);
  const prices = yield* priceLadder(prepared, scenarios, apart, alone, manner, tried);
  return {
    expectedProfit: Math.round(expected),
    costs: costRows(tried.prepared, alone, tried),
    takings: Math.round(takings(tried.prepared, alone, tried)),
    profit: { p5, p25, p50, p75, p95 },
    histogram: histogram(profits),
    oddsOfLoss: share((profit) => profit < 0),
    target: prepared.costs.target,
    oddsOfTarget: share((profit) => profit >= prepared.costs.target),
    breakEven: breakEven(tried.prepared, scenarios, alone, tried),
    pitchFee: { now: pitch, highest: Math.round(expected + pitch), cautious: Math.round(p10 + pitch) },
    swings: found.map(({ what, low, high }) => ({
      what,
      low: { value: low.value, profit: Math.round(low.profit) },
      high: { value: high.value, profit: Math.round(high.profit) },
      swing: Math.round(Math.abs(high.profit - low.profit)),
    })),
    prices,
  };
}

/**
 * Sales that cover the sunk costs: the average margin of all garments, against the fixed costs and the stock's loss if
 * it all comes home. Passers-by at the plan's requests per head.
 */
function breakEven(
  prepared: Prepared,
  scenarios: Scenarios,
  alone: readonly Alone[],
  tried: Tried,
): PlanMoney["breakEven"] {
  const beside = aloneProfits(prepared, alone, tried.brought.aloneQuantities, scenarios.count);
  const sold = mean(tried.measured.sold) + beside.meanSold;
  const stakeOfAlone = alone.reduce(
    (sum, { cost, worth }, at) => sum + (cost - worth) * (tried.brought.aloneQuantities[at] ?? 0),
    0,
  );
  const sunk =
    stockCost(prepared, tried.brought) +
    stakeOfAlone +
    fixedCosts(prepared, tried.manner).reduce((sum, row) => sum + row.amount, 0);
  const each = sold > 0 ? (mean(tried.measured.gain) + mean(beside.profits) + stakeOfAlone) / sold : 0;
  if (each <= 0) return { garments: null, passersBy: null };
  const garments = Math.max(0, sunk / each);
  const crowd = mean(scenarios.passersBy);
  const asks = (scenarios.starts[scenarios.count] ?? 0) / scenarios.count;
  return {
    garments: Math.ceil(garments),
    passersBy: crowd > 0 && asks > 0 ? Math.ceil((garments * crowd) / asks) : null,
  };
}

/** Garments of each product sold on a mean day; a separately planned offer has one product. */
export function soldByProduct(prepared: Prepared, alone: readonly Alone[], tried: Tried): number[] {
  return prepared.products.map(({ offer }, product) => {
    const at = alone.findIndex((one) => one.offer === offer);
    const { demand } = alone[at] ?? {};
    if (demand === undefined) return tried.measured.soldByProduct[product] ?? 0;
    return demand.mean - demand.unmet(tried.brought.aloneQuantities[at] ?? 0);
  });
}

function takings(prepared: Prepared, alone: readonly Alone[], tried: Tried): number {
  const tax = prepared.request.costs.tax;
  const charged = soldByProduct(prepared, alone, tried).reduce(
    (sum, garments, product) =>
      sum + garments * (prepared.offers[prepared.products[product]?.offer ?? -1]?.price ?? 0),
    0,
  );
  return tax === undefined || tax.included ? charged : charged * (1 + shareNumber(tax.rate));
}

/** The uses of the takings on a mean day; the rest is the expected profit. */
function costRows(prepared: Prepared, alone: readonly Alone[], tried: Tried): PlanMoney["costs"] {
  const fixed = fixedCosts(prepared, tried.manner).map(({ name, amount }) => ({
    name,
    amount: Math.round(amount),
  }));
  const { shop, best } = tried.brought;
  let stock = stake(shop.goods, best.stock);
  shop.goods.forEach((one, index) => {
    const brought = best.stock[index] ?? 0;
    const used = brought - (tried.measured.left[index] ?? 0);
    stock += used * one.worth;
  });
  alone.forEach(({ demand, cost, worth }, at) => {
    const quantity = tried.brought.aloneQuantities[at] ?? 0;
    stock += quantity * cost - (quantity - demand.mean + demand.unmet(quantity)) * worth;
  });
  const setUp = setUpCost(prepared, tried.brought);
  const restocked = Math.round(tried.measured.restocked);
  const known =
    Math.round(stock) + restocked + Math.round(setUp) + fixed.reduce((sum, { amount }) => sum + amount, 0);
  const rest = Math.round(takings(prepared, alone, tried)) - Math.round(mean(tried.profits)) - known;
  return [
    ...fixed,
    { name: "Stock used or lost", amount: Math.round(stock) },
    ...(restocked > 0 ? [{ name: "Stock bought between days", amount: restocked }] : []),
    ...(setUp > 0 ? [{ name: "Setting up designs", amount: Math.round(setUp) }] : []),
    { name: "Tax, card fees and per-garment costs", amount: rest },
  ];
}

function histogram(profits: Float64Array): PlanMoney["histogram"] {
  const [low = 0, high = 0] = sampleQuantiles(profits, [0, 1]);
  const width = Math.max(1, Math.ceil((high - low) / BARS));
  const counts = new Float64Array(BARS);
  for (const profit of profits) {
    const bar = Math.min(BARS - 1, Math.floor((profit - low) / width));
    counts[bar] = (counts[bar] ?? 0) + 1;
  }
  const start = Math.floor(low);
  return Array.from(counts, (count, bar) => ({
    from: start + bar * width,
    to: start + (bar + 1) * width,
    chance: count / profits.length,
  }));
}

/**
 * The profit at other prices, all changed alike, with the stated elasticity and the stock planned again: the change on
 * a part of the days, added to the expected profit over all of them.
 */
function* priceLadder(
  prepared: Prepared,
  drawn: Scenarios,
  apart: ReadonlySet<number>,
  alone: readonly Alone[],
  manner: Strategy,
  tried: Tried,
): Work<PlanMoney["prices"]> {
  const rows: PlanMoney["prices"][number][] = [];
  if (apart.size === prepared.offers.length) return rows;
  const days = Math.min(drawn.count, daysOfAsks(drawn, COMPARED_ASKS));
  for (const factor of PRICE_FACTORS) {
    const priced = { ...prepared, ...atPrices(prepared, factor) };
    const scenarios = yield* drawingScenarios(
      priced,
      days,
      apart,
      cheaper(factor, PRICE_FACTORS, prepared.costs.elasticity),
    );
    const brought = yield* whatToBring(priced, scenarios, {
      manner,
      alone,
      from: tried.brought.best.stock,
      care: LIGHT_CARE,
    });
    const garments = (scenarios.starts[scenarios.count] ?? 0) / scenarios.count;
    rows.push({ factor, profit: brought.best.profit - setUpCost(priced, brought), garments });
  }
  const asPlanned = rows.find(({ factor }) => factor === 1)?.profit ?? 0;
  const expected = mean(tried.profits);
  return rows.map((row) => ({ ...row, profit: Math.round(expected + row.profit - asPlanned) }));
}
