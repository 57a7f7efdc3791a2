import { mean, sampleQuantiles } from "../../maths/sample.ts";
import type { Work } from "../../maths/work.ts";
import type { PlanMoney } from "../../model/planning/plan-answer.ts";
import type { Tried } from "../bring/ahead.ts";
import { LIGHT_EFFORT, whatToBring } from "../bring/bring.ts";
import { fixedCosts, OWN_COSTS, setUpCost, stockCost } from "../bring/costs.ts";
import { measure } from "../bring/measure.ts";
import { stake } from "../bring/search/score.ts";
import type { Strategy } from "../bring/search/shop.ts";
import { aloneProfits } from "../demand/alone-days.ts";
import { daysOfAsks, type Scenarios } from "../demand/asks.ts";
import { drawingScenarios } from "../demand/demand.ts";
import type { Alone } from "../demand/stated.ts";
import { shareNumber } from "../request/given.ts";
import { refunded, toPitch } from "../request/net.ts";
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
  const { gain, pitchTopUp, toPitch: paid } = tried.measured;
  const each = sold > 0 ? (mean(gain) + pitchTopUp + mean(beside.profits) + stakeOfAlone) / sold : 0;
  if (each <= 0) return { garments: null, passersBy: null, beyondStock: false };
  // So few sales that the pitch takes its least fee: that is sunk, and the pitch takes no share of a sale.
  const share = paid / sold;
  const least = prepared.costs.pitchShare.atLeast;
  const usual = Math.max(0, sunk / each);
  const garments = usual * share >= least ? usual : (sunk + least) / (each + share);
  const crowd = mean(scenarios.passersBy);
  const asks = (scenarios.starts[scenarios.count] ?? 0) / scenarios.count;
  return {
    garments: Math.ceil(garments),
    passersBy: crowd > 0 && asks > 0 ? Math.ceil((garments * crowd) / asks) : null,
    beyondStock: garments > mostSold(prepared, tried),
  };
}

/** Garments that the stock brought could make at most; with restocking, on all days together. */
function mostSold({ days, restocks }: Prepared, { brought: { shop, best, aloneQuantities } }: Tried): number {
  const alone = aloneQuantities.reduce((sum, quantity) => sum + quantity, 0);
  const brought = shop.goods.reduce(
    (sum, { vanShare }, at) => sum + (vanShare > 0 ? (best.stock[at] ?? 0) : 0),
    alone,
  );
  return brought * (restocks ? days.length : 1);
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

/** The sum of the prices of all that is sold on a mean day. */
function charges(prepared: Prepared, alone: readonly Alone[], tried: Tried): number {
  return soldByProduct(prepared, alone, tried).reduce(
    (sum, garments, product) =>
      sum + garments * (prepared.offers[prepared.products[product]?.offer ?? -1]?.price ?? 0),
    0,
  );
}

function takings(prepared: Prepared, alone: readonly Alone[], tried: Tried): number {
  const tax = prepared.request.costs.tax;
  const charged = charges(prepared, alone, tried);
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
  const charged = charges(prepared, alone, tried);
  const { pressed, pitchTopUp, restocked } = tried.measured;
  const { costs } = prepared;
  const sometimes = [
    ["Stock bought between days", restocked],
    ["Setting up designs", setUpCost(prepared, tried.brought)],
    [OWN_COSTS.pitchShare, charged * toPitch(costs) + pitchTopUp],
    [OWN_COSTS.wear, costs.wearPerPressing * pressed * (1 + prepared.spoilage)],
    [OWN_COSTS.refunds, charged * refunded(costs)],
  ] as const;
  const rows = [
    ...fixed,
    { name: "Stock used or lost", amount: Math.round(stock) },
    ...sometimes.flatMap(([name, amount]) => (amount > 0 ? [{ name, amount: Math.round(amount) }] : [])),
  ];
  const known = rows.reduce((sum, { amount }) => sum + amount, 0);
  const rest = Math.round(takings(prepared, alone, tried)) - Math.round(mean(tried.profits)) - known;
  return [...rows, { name: "Tax, card fees and per-garment costs", amount: rest }];
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
      care: LIGHT_EFFORT,
    });
    const profit = brought.best.profit - setUpCost(priced, brought);
    const garments = (scenarios.starts[scenarios.count] ?? 0) / scenarios.count;
    const sold = mean((yield* measure(brought.shop, scenarios, brought.best.stock, [], 0)).sold);
    rows.push({ factor, profit, garments, sold });
  }
  const asPlanned = rows.find(({ factor }) => factor === 1);
  const expected = mean(tried.profits) - (asPlanned?.profit ?? 0);
  const beside = aloneProfits(prepared, alone, tried.brought.aloneQuantities, drawn.count).meanSold;
  const sold = mean(tried.measured.sold) + beside - (asPlanned?.sold ?? 0);
  return rows.map((row) => ({ ...row, profit: Math.round(expected + row.profit), sold: sold + row.sold }));
}
