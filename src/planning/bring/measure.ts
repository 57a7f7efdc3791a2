import { sampleQuantiles } from "../../maths/sample.ts";
import type { Work } from "../../maths/work.ts";
import type { Scenarios } from "../demand/asks.ts";
import { DAY_MINUTES } from "../request/prepared.ts";
import { blankDay, SOLD_OUT, simulateDay } from "./search/day.ts";
import { REACTIONS, type Shop } from "./search/shop.ts";

/** The results of a stock over all scenarios. Means are for one day. */
export type Measured = {
  /** Per scenario: gain before what the stock cost, and garments sold. */
  readonly gain: Float64Array;
  readonly sold: Float64Array;
  readonly soldOutAsks: number;
  readonly waitAsks: number;
  /**
   * For each kind of goods: the chance that none is left, and the mean left.
   */
  readonly oddsSoldOut: Float64Array;
  readonly left: Float64Array;
  readonly spoiled: number;
  readonly spoiledCost: number;
  /** The cost of what is bought between days. */
  readonly restocked: number;
  /** The pitch's part of the takings, what is paid beyond it to reach the least fee, and garments pressed at the fair. */
  readonly toPitch: number;
  readonly pitchTopUp: number;
  readonly pressed: number;
  readonly waitMedian: number;
  readonly waitP90: number;
  /** Per hour: mean garments met, and 5 / 50 / 95 % of those met from opening to its end. */
  readonly soldByHour: Float64Array;
  readonly soldUntil: readonly (readonly number[])[];
  /** The same from the opening of the hour's own day; empty for a fair of one day. */
  readonly soldThatDay: readonly (readonly number[])[];
  /** Per product: mean garments sold. */
  readonly soldByProduct: Float64Array;
};

/** Waits are counted in bins this wide, in minutes; medians are off by at most half of it. */
const BIN = 0.25;
const BINS = 2400;
/** Asks looked at between two steps: some milliseconds of work. */
const STEP_ASKS = 20_000;

export function* measure(
  shop: Shop,
  scenarios: Scenarios,
  stock: Int32Array,
  hourStarts: readonly number[],
  products: number,
): Work<Measured> {
  const day = blankDay(shop, scenarios);
  const { count } = scenarios;
  const goods = shop.goods.length;
  const gain = new Float64Array(count);
  const sold = new Float64Array(count);
  const oddsSoldOut = new Float64Array(goods);
  const left = new Float64Array(goods);
  const soldByHour = new Float64Array(hourStarts.length);
  const soldUntil = hourStarts.map(() => new Float64Array(count));
  const soldByProduct = new Float64Array(products);
  const waits = new Float64Array(BINS);
  let soldOutAsks = 0;
  let waitAsks = 0;
  let spoiled = 0;
  let spoiledCost = 0;
  let restocked = 0;
  let toPitch = 0;
  let pitchTopUp = 0;
  let pressed = 0;
  let lived = 0;

  for (let scenario = 0; scenario < count; scenario++) {
    gain[scenario] = simulateDay(shop, scenarios, scenario, stock, day);
    restocked += day.restocked;
    toPitch += day.toPitch;
    pitchTopUp += day.pitchTopUp;
    const begin = scenarios.starts[scenario] ?? 0;
    const end = scenarios.starts[scenario + 1] ?? begin;
    let met = 0;
    let hour = 0;
    for (let ask = begin; ask < end; ask++) {
      const way = day.taken[ask - begin] ?? SOLD_OUT;
      if (way < 0) {
        if (way === SOLD_OUT) soldOutAsks++;
        else waitAsks++;
        continue;
      }
      met++;
      while (hour + 1 < hourStarts.length && (scenarios.minute[ask] ?? 0) >= (hourStarts[hour + 1] ?? 0))
        hour++;
      soldByHour[hour] = (soldByHour[hour] ?? 0) + 1;
      const until = soldUntil[hour];
      if (until !== undefined) until[scenario] = met;
      const product = shop.makes[way] ?? 0;
      soldByProduct[product] = (soldByProduct[product] ?? 0) + 1;
      const bin = Math.min(BINS - 1, Math.floor((day.wait[ask - begin] ?? 0) / BIN));
      waits[bin] = (waits[bin] ?? 0) + 1;
      const lost = shop.spoils[way] ? (scenarios.spoils[ask] ?? 0) : 0;
      if (shop.spoils[way]) pressed++;
      if (lost > 0) {
        spoiled += lost;
        const second = shop.goods[shop.second[way] ?? -1];
        spoiledCost += lost * ((shop.goods[shop.first[way] ?? -1]?.cost ?? 0) + (second?.cost ?? 0));
      }
    }
    sold[scenario] = met;
    // An hour in which nothing was sold has what the hours before it sold.
    for (let at = 1; at < soldUntil.length; at++) {
      const [before, now] = [soldUntil[at - 1]?.[scenario] ?? 0, soldUntil[at]];
      if (now !== undefined) now[scenario] = Math.max(before, now[scenario] ?? 0);
    }
    for (let at = 0; at < goods; at++) {
      const rest = day.left[at] ?? 0;
      left[at] = (left[at] ?? 0) + rest / count;
      if (rest === 0) oddsSoldOut[at] = (oddsSoldOut[at] ?? 0) + 1 / count;
    }
    lived += end - begin;
    if (lived < STEP_ASKS) continue;
    yield lived;
    lived = 0;
  }
  yield lived;
  const mean = (total: number) => total / count;
  const spread = (row: Float64Array) => sampleQuantiles(row, [0.05, 0.5, 0.95]);
  const dayAt = (hour: number) => Math.floor((hourStarts[hour] ?? 0) / DAY_MINUTES);
  const closings = soldUntil.filter((_, hour) => dayAt(hour) < dayAt(hour + 1));
  const quantileOfWait = (share: number) => {
    let toGo = share * waits.reduce((sum, value) => sum + value, 0);
    const bin = waits.findIndex((value) => {
      toGo -= value;
      return toGo < 0;
    });
    return bin < 0 ? 0 : (bin + 0.5) * BIN;
  };
  return {
    gain,
    sold,
    soldOutAsks: mean(soldOutAsks),
    waitAsks: mean(waitAsks),
    oddsSoldOut: oddsSoldOut.map((odds) => Math.min(1, odds)),
    left,
    spoiled: mean(spoiled),
    spoiledCost: mean(spoiledCost),
    restocked: mean(restocked),
    toPitch: mean(toPitch),
    pitchTopUp: mean(pitchTopUp),
    pressed: mean(pressed),
    waitMedian: quantileOfWait(0.5),
    waitP90: quantileOfWait(0.9),
    soldByHour: soldByHour.map(mean),
    soldUntil: soldUntil.map(spread),
    soldThatDay:
      shop.days > 1
        ? soldUntil.map((row, hour) => {
            const before = closings[dayAt(hour) - 1];
            return spread(row.map((sum, scenario) => sum - (before?.[scenario] ?? 0)));
          })
        : [],
    soldByProduct: soldByProduct.map(mean),
  };
}

/** Per goods: 5, 50 and 95 % of the asks whose first choice uses it. */
export function askedPerGoods(shop: Shop, scenarios: Scenarios): number[][] {
  const counts = shop.goods.map(() => new Float64Array(scenarios.count));
  const { from, ways } = shop.calm;
  for (let scenario = 0; scenario < scenarios.count; scenario++) {
    const end = scenarios.starts[scenario + 1] ?? 0;
    for (let ask = scenarios.starts[scenario] ?? 0; ask < end; ask++) {
      const list = REACTIONS * (scenarios.product[ask] ?? 0);
      for (let at = from[list] ?? 0; at < (from[list + 1] ?? 0); at++) {
        const way = ways[at] ?? 0;
        for (const goods of [shop.first[way] ?? -1, shop.second[way] ?? -1]) {
          const row = counts[goods];
          if (row !== undefined) row[scenario] = (row[scenario] ?? 0) + 1;
        }
      }
    }
  }
  return counts.map((row) => sampleQuantiles(row, [0.05, 0.5, 0.95]));
}
