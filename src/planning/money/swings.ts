import type { Work } from "../../maths/work.ts";
import type { MannerName } from "../bring/ahead.ts";
import type { Brought } from "../bring/bring.ts";
import { fixedCosts, setUpCost } from "../bring/costs.ts";
import { newTrial, stake } from "../bring/search/score.ts";
import { openShop, type Strategy } from "../bring/search/shop.ts";
import { type Scenarios, upToAsks } from "../demand/asks.ts";
import { drawingScenarios, type Held } from "../demand/demand.ts";
import { rateAt } from "../request/buying-rate.ts";
import { netOf } from "../request/net.ts";
import type { Prepared, Stock } from "../request/prepared.ts";
import { inPercent } from "../words/amounts.ts";

/** One thing that might turn out lower or higher than planned. */
type Lever = {
  readonly what: string;
  readonly low: Turn;
  readonly high: Turn;
};

type Turn = {
  readonly value: string;
  readonly prepared: Prepared;
  readonly held: Held;
  /** The days with the change, if they need not be sampled again. */
  readonly days?: (own: Scenarios) => Scenarios;
};

export type Swing = {
  readonly what: string;
  readonly low: { readonly value: string; readonly profit: number };
  readonly high: { readonly value: string; readonly profit: number };
};

/** About how many requests are simulated for each end of each lever. */
export const COMPARED_ASKS = 12_000;

/**
 * The expected profit with one input at a time at its low and its high, the stock as planned; everything else stays
 * random, on the same sampled days. Each change is found on a part of the days, and added to the expected profit over
 * all of them.
 */
export function* swings(
  prepared: Prepared,
  drawn: Scenarios,
  apart: ReadonlySet<number>,
  manner: Strategy,
  name: MannerName,
  brought: Brought,
  expected: number,
): Work<readonly Swing[]> {
  const found: Swing[] = [];
  if (apart.size === prepared.offers.length) return found;
  const own = upToAsks(drawn, COMPARED_ASKS);
  const asPlanned = yield* profitOf(prepared, own, manner, name, brought);
  for (const { what, low, high } of leversOf(prepared)) {
    const ends: number[] = [];
    for (const turn of [low, high]) {
      yield 0;
      const scenarios =
        turn.days?.(own) ?? (yield* drawingScenarios(turn.prepared, own.count, apart, turn.held));
      ends.push(expected + (yield* profitOf(turn.prepared, scenarios, manner, name, brought)) - asPlanned);
    }
    found.push({
      what,
      low: { value: low.value, profit: ends[0] ?? 0 },
      high: { value: high.value, profit: ends[1] ?? 0 },
    });
  }
  const size = (swing: Swing) => Math.abs(swing.high.profit - swing.low.profit);
  return found.sort((a, b) => size(b) - size(a));
}

function* profitOf(
  prepared: Prepared,
  scenarios: Scenarios,
  manner: Strategy,
  name: MannerName,
  brought: Brought,
): Work<number> {
  const shop = openShop(prepared, manner);
  const fixed = fixedCosts(prepared, name).reduce((sum, row) => sum + row.amount, 0);
  const sunk =
    stake(shop.goods, brought.best.stock) + fixed + setUpCost(prepared, { shop, best: brought.best });
  return (yield* newTrial(shop, scenarios).gain(brought.best.stock)) - sunk;
}

function leversOf(prepared: Prepared): Lever[] {
  const { crowd, buying, weather, costs, presses } = prepared;
  const turn = (value: string, change: Partial<Prepared>, held: Held = {}): Turn => ({
    value,
    prepared: { ...prepared, ...change },
    held,
  });
  /** Options that do not change demand are evaluated on the same sampled days. */
  const sameDays = (value: string, change: Partial<Prepared>, days = (own: Scenarios) => own): Turn => ({
    ...turn(value, change),
    days,
  });
  const levers: Lever[] = [];
  const people = (count: number) => Math.round(count).toLocaleString("en");
  if (crowd.likely > 0 && crowd.high > crowd.low) {
    levers.push({
      what: "passers-by",
      low: turn(people(crowd.low), {}, { crowd: crowd.low }),
      high: turn(people(crowd.high), {}, { crowd: crowd.high }),
    });
  }
  if (buying !== null && typeof buying.rate !== "number") {
    const [low, high] = [rateAt(buying.rate, 0.05), rateAt(buying.rate, 0.95)];
    const told = (share: number) => `${(share * 100).toFixed(1)} %`;
    levers.push({
      what: "share who stop and buy",
      low: turn(told(low), {}, { buyingRate: low }),
      high: turn(told(high), {}, { buyingRate: high }),
    });
  }
  if (weather.length > 1) {
    const sorted = [...weather].sort((a, b) => a.crowd - b.crowd);
    const [worst, best] = [sorted[0], sorted.at(-1)];
    if (worst !== undefined && best !== undefined) {
      levers.push({
        what: "weather",
        low: turn(worst.name, {}, { weatherFactor: worst.crowd }),
        high: turn(best.name, {}, { weatherFactor: best.crowd }),
      });
    }
  }
  const priced = (factor: number) =>
    turn(`${factor < 1 ? "-" : "+"}10 %`, atPrices(prepared, factor), {
      askFactor: factor ** -costs.elasticity,
    });
  levers.push({ what: "prices", low: priced(0.9), high: priced(1.1) });
  const stockAt = (kind: Stock["kind"], factor: number) => ({
    stocks: prepared.stocks.map((stock) =>
      stock.kind === kind
        ? {
            ...stock,
            cost: stock.cost * factor,
            breaks: stock.breaks.map(({ from, cost }) => ({ from, cost: cost * factor })),
            worth: stock.worth * factor,
          }
        : stock,
    ),
  });
  levers.push({
    what: "cost of blanks",
    low: sameDays("-20 %", stockAt("sku", 0.8)),
    high: sameDays("+20 %", stockAt("sku", 1.2)),
  });
  if (prepared.stocks.length > prepared.skuCount) {
    levers.push({
      what: "cost of transfers",
      low: sameDays("-20 %", stockAt("transfer", 0.8)),
      high: sameDays("+20 %", stockAt("transfer", 1.2)),
    });
  }
  if (prepared.stocks.some(({ kind, worth }) => kind === "sku" && worth > 0)) {
    const worthless = prepared.stocks.map((stock) => (stock.kind === "sku" ? { ...stock, worth: 0 } : stock));
    const asNew = prepared.stocks.map((stock) =>
      stock.kind === "sku" ? { ...stock, worth: stock.breaks.at(-1)?.cost ?? stock.cost } : stock,
    );
    levers.push({
      what: "worth of blanks that come home",
      low: sameDays("nothing", { stocks: worthless }),
      high: sameDays("what they cost", { stocks: asNew }),
    });
  }
  if (presses.length > 0) {
    const paced = (factor: number) => ({
      presses: presses.map((press) => ({ ...press, seconds: press.seconds / factor })),
    });
    levers.push({
      what: "garments an hour at a press",
      low: sameDays("-25 %", paced(0.75)),
      high: sameDays("+25 %", paced(1.25)),
    });
    const patient = (factor: number) =>
      sameDays(
        `${Math.round(prepared.patienceMinutes * factor)} min`,
        { patienceMinutes: prepared.patienceMinutes * factor },
        (own) => ({ ...own, patience: own.patience.map((minutes) => minutes * factor) }),
      );
    levers.push({ what: "patience of customers", low: patient(0.5), high: patient(2) });
  }
  const { exchangeShare } = costs;
  const spoilage = prepared.spoilage - exchangeShare;
  if (spoilage > 0) {
    levers.push({
      what: "spoilage",
      low: turn("none", { spoilage: exchangeShare }),
      high: turn(inPercent(spoilage * 3), { spoilage: spoilage * 3 + exchangeShare }),
    });
  }
  return levers;
}

/** The same plan with every price changed by a factor; tax, fees and per-garment costs follow. */
export function atPrices(prepared: Prepared, factor: number): Partial<Prepared> {
  const { costs } = prepared;
  return {
    offers: prepared.offers.map((offer) => {
      const price = offer.price * factor;
      return { ...offer, price, net: netOf(price, costs) };
    }),
  };
}

/**
 * The asks at a price factor, as a part of those at the cheapest of all the factors compared: asks change
 * as price to the power of minus the elasticity.
 */
export function cheaper(factor: number, factors: readonly number[], elasticity: number): Held {
  const most = Math.min(...factors) ** -elasticity;
  return { askFactor: most, keep: factor ** -elasticity / most };
}
