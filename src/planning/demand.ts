import { drawPoisson } from "../maths/counts.ts";
import { drawDirichlet } from "../maths/dirichlet.ts";
import { drawGamma } from "../maths/gamma.ts";
import { standardNormal } from "../maths/normal-draw.ts";
import { type Random, seededRandom } from "../maths/random.ts";
import { type AskList, growingAsks, type Scenarios } from "./asks.ts";
import { type Choosing, choosing, drawShares, pickProduct, type Shares } from "./choosing.ts";
import { crowdFactor, expectedAsks } from "./crowd.ts";
import { shareNumber } from "./given.ts";
import type { Prepared } from "./prepared.ts";
import { demandOf } from "./stated-demand.ts";

/** Asks over all scenarios together; more would take more memory than a small server or a phone has. */
const MOST_ASKS = 1_200_000;
/** Half of the customers wait `patienceMinutes`; this is the deviation of its logarithm (common practice, no source). */
const PATIENCE_SPREAD = 0.5;

/** What may be held fixed while everything else keeps its chance: for the swing chart. */
export type Held = {
  readonly crowd?: number;
  readonly buyingRate?: number;
  readonly weatherFactor?: number;
  /** Multiplies the asks, as a change of price would. */
  readonly askFactor?: number;
};

/**
 * Draws the day `count` times over: who comes by, who stops, what each garment is asked for in. The same
 * seed gives the same scenarios, and scenario n is the same whatever the count and whatever is held.
 * Offers in `apart` are left out: their demand is planned from its distribution, not from asks.
 *
 * Orders of an hour are Poisson around passers-by x share who buy x the hour's own gamma factor, so
 * their counts are over-dispersed (gamma-Poisson); shares of offers, colours and sizes are Dirichlet.
 */
export function drawScenarios(
  prepared: Prepared,
  wanted: number,
  apart: ReadonlySet<number>,
  held: Held = {},
): Scenarios {
  const expected = expectedAsks(prepared, apart) * (held.askFactor ?? 1);
  const count = Math.max(20, Math.min(wanted, Math.floor(MOST_ASKS / Math.max(1, expected))));
  const asks = growingAsks(Math.ceil(expected * count * 1.1) + 64);
  const starts = new Int32Array(count + 1);
  const passersBy = new Float64Array(count);
  const orders = new Int32Array(count);
  const stated = statedQuantiles(prepared, apart, count);
  const menu = choosing(prepared, apart);

  for (let scenario = 0; scenario < count; scenario++) {
    const random = seededRandom(mixed(prepared.request.seed, scenario));
    const day = drawDay(prepared, random, held);
    passersBy[scenario] = day.passersBy;
    const shares = drawShares(menu, (weights) => drawDirichlet(random, weights));
    const counts = stated.map(({ offer, values }) => ({ offer, garments: values[scenario] ?? 0 }));
    const before = asks.length();
    orders[scenario] = drawHours(prepared, random, day.ordersExpected, menu, shares, counts, asks);
    starts[scenario + 1] = asks.length();
    starts[scenario] = before;
  }
  return { count, starts, passersBy, orders, ...asks.done() };
}

/** One seed from two, so that neighbouring scenarios share nothing. */
function mixed(seed: number, scenario: number): number {
  return (Math.imul(seed ^ 0x5bd1e995, 0x9e3779b1) ^ Math.imul(scenario + 1, 0x85ebca6b)) >>> 0;
}

function drawDay(
  prepared: Prepared,
  random: Random,
  held: Held,
): { passersBy: number; ordersExpected: number } {
  // Each part draws from its own source: holding one still leaves the others as they were.
  const crowdRandom = random.fork();
  const buyingRandom = random.fork();
  const { crowd, buying, weather } = prepared;
  const factor = crowdFactor(crowd, standardNormal(crowdRandom));
  const sky = crowdRandom.next();
  const kind = weather.find(({ upTo }) => sky < upTo) ?? weather.at(-1);
  const passersBy = (held.crowd ?? crowd.likely * factor) * (held.weatherFactor ?? kind?.crowd ?? 1);
  if (buying === null) return { passersBy, ordersExpected: 0 };
  const drawn =
    typeof buying.rate === "number"
      ? buying.rate
      : drawGamma(buyingRandom, buying.rate.shape, buying.rate.rate);
  return {
    passersBy,
    ordersExpected: passersBy * Math.min(1, held.buyingRate ?? drawn) * (held.askFactor ?? 1),
  };
}

type StatedCount = { readonly offer: number; readonly garments: number };

/** Draws every hour's orders in the order they come; gives how many there were. */
function drawHours(
  prepared: Prepared,
  random: Random,
  ordersExpected: number,
  menu: Choosing,
  shares: Shares,
  stated: readonly StatedCount[],
  asks: AskList,
): number {
  const { hours, buying } = prepared;
  const perHour = spreadOverHours(prepared, random, stated);
  let orders = 0;
  for (let at = 0; at < hours.length; at++) {
    const hour = hours[at];
    if (hour === undefined) continue;
    const bunching = buying?.bunching ?? 0;
    const factor = bunching > 0 ? drawGamma(random, 1 / bunching ** 2, 1 / bunching ** 2) : 1;
    let crowdLeft = drawPoisson(random, ordersExpected * hour.share * factor);
    const statedLeft = perHour[at] ?? [];
    let all = crowdLeft + statedLeft.reduce((sum, row) => sum + row.garments, 0);
    orders += all;
    // Sorted uniform times without sorting: each next one is the least of those still to come.
    let left = 1;
    for (; all > 0; all--) {
      left *= (1 - random.next()) ** (1 / all);
      const minute = hour.startMinute + hour.minutes * (1 - left);
      let turn = random.next() * all - crowdLeft;
      if (turn < 0) {
        crowdLeft--;
        drawOrder(prepared, random, minute, pickOffer(random, shares), menu, shares, asks);
        continue;
      }
      for (const row of statedLeft) {
        turn -= row.garments;
        if (turn >= 0) continue;
        row.garments--;
        drawGarments(prepared, random, minute, row.offer, 1, menu, shares, asks);
        break;
      }
    }
  }
  return orders;
}

function spreadOverHours(
  prepared: Prepared,
  random: Random,
  stated: readonly StatedCount[],
): { offer: number; garments: number }[][] {
  const perHour: { offer: number; garments: number }[][] = prepared.hours.map(() => []);
  for (const { offer, garments } of stated) {
    const rows = perHour.map((hour) => {
      const row = { offer, garments: 0 };
      hour.push(row);
      return row;
    });
    for (let garment = 0; garment < garments; garment++) {
      let turn = random.next();
      const at = prepared.hours.findIndex(({ share }) => {
        turn -= share;
        return turn < 0;
      });
      const row = rows[at < 0 ? rows.length - 1 : at];
      if (row !== undefined) row.garments++;
    }
  }
  return perHour;
}

function pickOffer(random: Random, shares: Shares): number {
  const turn = random.next();
  for (const { offer, upTo } of shares.offers) if (turn < upTo) return offer;
  return shares.offers.at(-1)?.offer ?? 0;
}

function drawOrder(
  prepared: Prepared,
  random: Random,
  minute: number,
  offer: number,
  menu: Choosing,
  shares: Shares,
  asks: AskList,
): void {
  const turn = random.next();
  const garments = prepared.buying?.garments.find(({ upTo }) => turn < upTo)?.garments ?? 1;
  drawGarments(prepared, random, minute, offer, garments, menu, shares, asks);
}

/** The garments of one order: of one offer, each in its own colour and size; one patience for all. */
function drawGarments(
  prepared: Prepared,
  random: Random,
  minute: number,
  offer: number,
  garments: number,
  menu: Choosing,
  shares: Shares,
  asks: AskList,
): void {
  const patience = prepared.patienceMinutes * Math.exp(PATIENCE_SPREAD * standardNormal(random));
  for (let garment = 0; garment < garments; garment++) {
    const product = pickProduct(menu, shares, offer, random);
    const turn = random.next();
    const reaction =
      turn < prepared.anotherColour ? 1 : turn < prepared.anotherColour + prepared.anotherDesign ? 2 : 0;
    let spoils = 0;
    if (prepared.spoilage > 0) {
      const chance = prepared.spoilage / (1 + prepared.spoilage);
      while (spoils < 9 && random.chance(chance)) spoils++;
    }
    asks.add(minute, product, reaction, patience, spoils, garment === 0);
  }
}

/** For every offer whose demand is stated: one value a scenario, evenly over the distribution, in shuffled order. */
export function statedQuantiles(
  prepared: Prepared,
  apart: ReadonlySet<number>,
  count: number,
): { offer: number; values: Float64Array }[] {
  return prepared.offers.flatMap((offer, index) => {
    if (offer.stated === null || apart.has(index)) return [];
    return [{ offer: index, values: evenly(prepared, index, count) }];
  });
}

/** `count` values of an offer's stated demand at evenly spread shares, shuffled by the plan's seed. */
export function evenly(prepared: Prepared, offer: number, count: number): Float64Array {
  const stated = prepared.offers[offer]?.stated;
  const values = new Float64Array(count);
  if (stated === null || stated === undefined) return values;
  const demand = demandOf(stated, shareNumber);
  for (let at = 0; at < count; at++)
    values[at] = Math.max(0, Math.round(demand.quantile((at + 0.5) / count)));
  const random = seededRandom(mixed(prepared.request.seed, -2 - offer));
  for (let at = count - 1; at > 0; at--) {
    const other = random.below(at + 1);
    const kept = values[at] ?? 0;
    values[at] = values[other] ?? 0;
    values[other] = kept;
  }
  return values;
}
