import { drawPoisson } from "../../maths/counts.ts";
import { drawDirichlet } from "../../maths/dirichlet.ts";
import { drawGamma } from "../../maths/gamma.ts";
import { standardNormal } from "../../maths/normal-draw.ts";
import { type Random, seededRandom } from "../../maths/random.ts";
import { finished, type Work } from "../../maths/work.ts";
import { rateAt } from "../request/buying-rate.ts";
import { shareNumber } from "../request/given.ts";
import type { Prepared } from "../request/prepared.ts";
import { type AskList, growingAsks, type Scenarios } from "./asks.ts";
import { type Choosing, choosing, drawShares, pickProduct, type Shares } from "./choosing.ts";
import { crowdFactor, expectedAsks } from "./crowd.ts";
import { demandOf } from "./stated-demand.ts";

/** Asks over all scenarios together; more would take more memory than a small server or a phone has. */
const MOST_ASKS = 1_200_000;
/** Half of the customers wait `patienceMinutes`; this is the deviation of its logarithm (common practice, no source). */
const PATIENCE_SPREAD = 0.5;
const MOST_SPOILS = 9;
/** Asks drawn between two steps: some milliseconds of work. */
const STEP_ASKS = 10_000;

/** Quantities that may be fixed while everything else stays random: for the swing chart. */
export type Held = {
  readonly crowd?: number;
  readonly buyingRate?: number;
  readonly weatherFactor?: number;
  /** Multiplies the asks, as a change of price would. */
  readonly askFactor?: number;
  /**
   * Share of the orders that stay. With the same askFactor the orders that stay are a subset of all, so
   * that two prices are compared on the same customers.
   */
  readonly keep?: number;
};

/**
 * Draws the fair `count` times over: who comes by, who stops, what each garment is asked for in. The same
 * seed gives the same scenarios, and scenario n is the same whatever the count and whatever is held.
 * Offers in `apart` are left out: their demand is planned from its distribution, not from asks.
 *
 * Orders of an hour are Poisson around passers-by x share who buy x the hour's own gamma factor, so
 * their counts are over-dispersed (gamma-Poisson); shares of offers, colours and sizes are Dirichlet.
 */
export function* drawingScenarios(
  prepared: Prepared,
  wanted: number,
  apart: ReadonlySet<number>,
  held: Held = {},
): Work<Scenarios> {
  const expected = expectedAsks(prepared, apart) * (held.askFactor ?? 1);
  const count = Math.max(20, Math.min(wanted, Math.floor(MOST_ASKS / Math.max(1, expected))));
  const asks = growingAsks(Math.ceil(expected * (held.keep ?? 1) * count * 1.1) + 64);
  const starts = new Int32Array(count + 1);
  const passersBy = new Float64Array(count);
  const orders = new Int32Array(count);
  const stated = statedQuantiles(prepared, apart, count);
  const menu = choosing(prepared, apart);
  const keep = held.keep ?? 1;
  const keepStated = Math.min(1, keep * (held.askFactor ?? 1));

  let told = 0;
  for (let scenario = 0; scenario < count; scenario++) {
    const random = seededRandom(mixed(prepared.request.seed, scenario));
    const staying = random.fork();
    const day = drawDay(prepared, random, held);
    passersBy[scenario] = day.passersBy;
    starts[scenario] = asks.length();
    const shares = drawShares(menu, (weights) => drawDirichlet(random, weights));
    const counts = stated.map(({ offer, values }) => ({ offer, garments: values[scenario] ?? 0 }));
    const drawing = { prepared, random, menu, shares, asks, staying, keep, keepStated };
    orders[scenario] = drawHours(drawing, day.ordersExpected, counts);
    starts[scenario + 1] = asks.length();
    if (asks.length() - told < STEP_ASKS) continue;
    yield asks.length() - told;
    told = asks.length();
  }
  return { count, starts, passersBy, orders, ...asks.done() };
}

/** The same, straight through. */
export function drawScenarios(
  prepared: Prepared,
  wanted: number,
  apart: ReadonlySet<number>,
  held: Held = {},
): Scenarios {
  return finished(drawingScenarios(prepared, wanted, apart, held));
}

/** One seed from two, so that neighbouring scenarios share nothing. */
function mixed(seed: number, scenario: number): number {
  return (Math.imul(seed ^ 0x5bd1e995, 0x9e3779b1) ^ Math.imul(scenario + 1, 0x85ebca6b)) >>> 0;
}

function drawDay(
  prepared: Prepared,
  random: Random,
  held: Held,
): { passersBy: number; ordersExpected: readonly number[] } {
  // Each part draws from its own source: holding one still leaves the others as they were.
  const crowdRandom = random.fork();
  const buyingRandom = random.fork();
  const { crowd, buying, weather, days } = prepared;
  // Whoever misjudges a fair's crowd misjudges that of all its days; the weather is each day's own.
  const usual = held.crowd ?? crowd.likely * crowdFactor(crowd, standardNormal(crowdRandom));
  const perDay = days.map((day) => {
    const sky = crowdRandom.next();
    const kind = weather.find(({ upTo }) => sky < upTo) ?? weather.at(-1);
    return usual * day.crowd * (held.weatherFactor ?? kind?.crowd ?? 1);
  });
  const passersBy = perDay.reduce((sum, people) => sum + people, 0);
  if (buying === null) return { passersBy, ordersExpected: days.map(() => 0) };
  const drawn = typeof buying.rate === "number" ? buying.rate : rateAt(buying.rate, buyingRandom.next());
  const rate = Math.min(1, held.buyingRate ?? drawn) * (held.askFactor ?? 1);
  return { passersBy, ordersExpected: perDay.map((people) => people * rate) };
}

type StatedCount = { readonly offer: number; readonly garments: number };

/** All that one day's asks are drawn with. */
type Drawing = {
  readonly prepared: Prepared;
  readonly random: Random;
  readonly menu: Choosing;
  readonly shares: Shares;
  readonly asks: AskList;
  /** Decides which orders stay; apart from the rest, so that those that stay are the same ones. */
  readonly staying: Random;
  readonly keep: number;
  readonly keepStated: number;
};

/** Draws every hour's orders in the order they come; gives how many stayed. */
function drawHours(
  drawing: Drawing,
  ordersExpected: readonly number[],
  stated: readonly StatedCount[],
): number {
  const { prepared, random, shares } = drawing;
  const { hours, buying } = prepared;
  const perHour = spreadOverHours(prepared, random, stated);
  const bunching = buying?.bunching ?? 0;
  let orders = 0;
  for (let at = 0; at < hours.length; at++) {
    const hour = hours[at];
    if (hour === undefined) continue;
    const factor = bunching > 0 ? drawGamma(random, 1 / bunching ** 2, 1 / bunching ** 2) : 1;
    let crowdLeft = drawPoisson(random, (ordersExpected[hour.day] ?? 0) * hour.share * factor);
    const statedLeft = perHour[at] ?? [];
    let all = crowdLeft + statedLeft.reduce((sum, row) => sum + row.garments, 0);
    // Sorted uniform times without sorting: each next one is the least of those still to come.
    let left = 1;
    for (; all > 0; all--) {
      left *= (1 - random.next()) ** (1 / all);
      const minute = hour.startMinute + hour.minutes * (1 - left);
      let turn = random.next() * all - crowdLeft;
      if (turn < 0) {
        crowdLeft--;
        orders += drawOrder(drawing, minute, pickOffer(random, shares.offers[hour.day] ?? []), drawing.keep);
        continue;
      }
      for (const row of statedLeft) {
        turn -= row.garments;
        if (turn >= 0) continue;
        row.garments--;
        orders += drawOrder(drawing, minute, row.offer, drawing.keepStated, 1);
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
    const asked = prepared.offers[offer]?.onDays;
    const weights = prepared.hours.map(({ day, share }) =>
      asked?.[day] === false ? 0 : share * (prepared.days[day]?.crowd ?? 1),
    );
    const whole = weights.reduce((sum, weight) => sum + weight, 0);
    const rows = perHour.map((hour) => {
      const row = { offer, garments: 0 };
      hour.push(row);
      return row;
    });
    for (let garment = 0; garment < garments; garment++) {
      let turn = random.next() * whole;
      const at = weights.findIndex((weight) => {
        turn -= weight;
        return turn < 0;
      });
      const row = rows[at < 0 ? rows.length - 1 : at];
      if (row !== undefined) row.garments++;
    }
  }
  return perHour;
}

function pickOffer(random: Random, offers: Shares["offers"][number]): number {
  const turn = random.next();
  for (const { offer, upTo } of offers) if (turn < upTo) return offer;
  return offers.at(-1)?.offer ?? 0;
}

/**
 * The garments of one order: of one offer, each in its own colour and size, with one patience for all. Returns 1, or 0
 * for an order that does not stay (sampled anyway, so that the others do not change).
 */
function drawOrder(drawing: Drawing, minute: number, offer: number, keep: number, count?: number): number {
  const { prepared, random, menu, shares, asks } = drawing;
  const turn = random.next();
  const garments = count ?? prepared.buying?.garments.find(({ upTo }) => turn < upTo)?.garments ?? 1;
  const patience = prepared.patienceMinutes * Math.exp(PATIENCE_SPREAD * standardNormal(random));
  const stays = drawing.staying.next() < keep;
  for (let garment = 0; garment < garments; garment++) {
    const product = pickProduct(menu, shares, offer, random);
    const reaction = drawReaction(prepared, random.next());
    const spoils = drawSpoils(prepared.spoilage, random);
    if (stays) asks.add(minute, product, reaction, patience, spoils, garment === 0);
  }
  return stays ? 1 : 0;
}

/** 0 walks, 1 takes another colour, 2 another design, 3 a neighbouring size. */
function drawReaction({ anotherColour, anotherDesign, anotherSize }: Prepared, turn: number): number {
  if (turn < anotherColour) return 1;
  if (turn < anotherColour + anotherDesign) return 2;
  return turn < anotherColour + anotherDesign + anotherSize ? 3 : 0;
}

/** Garments spoiled before one comes out right: geometric, with `spoilage` of them for each good one. */
function drawSpoils(spoilage: number, random: Random): number {
  if (spoilage === 0) return 0;
  const chance = spoilage / (1 + spoilage);
  let spoils = 0;
  while (spoils < MOST_SPOILS && random.chance(chance)) spoils++;
  return spoils;
}

/** For every offer whose demand is stated: one value a scenario, evenly over the distribution, in shuffled order. */
function statedQuantiles(
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
