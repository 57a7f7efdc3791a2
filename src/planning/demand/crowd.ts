import { normalBelow } from "../../maths/normal.ts";
import { mean as sampleMean } from "../../maths/sample.ts";
import { type GivenRange, shareNumber } from "../request/given.ts";
import type { Prepared } from "../request/prepared.ts";
import { demandOf } from "./stated-demand.ts";

/** Standard normal 95 % point: low and high are 5 and 95 % points. */
const Z95 = 1.6448536269514722;
/** A low figure below this share of the likely one is read as this, so that its logarithm stays in reach. */
const LEAST_LOW = 0.02;

function spreads(crowd: GivenRange): { readonly below: number; readonly above: number } {
  if (crowd.likely <= 0) return { below: 0, above: 0 };
  return {
    below: Math.log(crowd.likely / Math.max(crowd.low, crowd.likely * LEAST_LOW)) / Z95,
    above: Math.log(Math.max(crowd.high, crowd.likely) / crowd.likely) / Z95,
  };
}

/**
 * The day's crowd as a factor of the likely one, for a standard normal z: a lognormal on each side of the
 * median, so that low, likely and high are its 5, 50 and 95 % points.
 */
export function crowdFactor(crowd: GivenRange, z: number): number {
  const { below, above } = spreads(crowd);
  return Math.exp(z * (z < 0 ? below : above));
}

/** The expected power of that factor: each half of a lognormal integrates to exp(k² s² / 2) times a tail. */
function crowdMoment(crowd: GivenRange, power: number): number {
  const { below, above } = spreads(crowd);
  const part = (spread: number, sign: number) =>
    Math.exp((power * spread) ** 2 / 2) * normalBelow(sign * power * spread);
  return part(below, -1) + part(above, 1);
}

export type Moments = { readonly mean: number; readonly deviation: number };

/**
 * The fair's orders and garments from the stated figures alone, without sampling: mean and standard deviation of crowd x
 * weather x share who buy, gamma-Poisson over the hours, times garments per order, plus stated demands. The scenarios
 * are tested against it.
 */
export function statedMoments(
  prepared: Prepared,
  apart: ReadonlySet<number>,
): { orders: Moments; garments: Moments } {
  const { crowd, buying, hours, weather, days } = prepared;
  let stated = 0;
  prepared.offers.forEach((offer, index) => {
    if (offer.stated !== null && !apart.has(index)) stated += demandOf(offer.stated, shareNumber).mean;
  });
  if (buying === null || !prepared.offers.some((offer) => offer.stated === null)) {
    return { orders: { mean: stated, deviation: 0 }, garments: { mean: stated, deviation: 0 } };
  }
  const sky = (power: number) => {
    let before = 0;
    return weather.reduce((sum, kind) => {
      const chance = kind.upTo - before;
      before = kind.upTo;
      return sum + chance * kind.crowd ** power;
    }, 0);
  };
  const rate =
    typeof buying.rate === "number"
      ? { mean: buying.rate, square: buying.rate ** 2 }
      : { mean: sampleMean(buying.rate), square: sampleMean(buying.rate.map((one) => one ** 2)) };
  // Days share crowd factor and buying rate; their weathers and rushes are their own.
  const sum = (power: number) => days.reduce((total, day) => total + day.crowd ** power, 0);
  const mean = crowd.likely * crowdMoment(crowd, 1) * sky(1) * sum(1) * rate.mean;
  const lumps = hours.reduce((total, hour) => total + (hour.share * (days[hour.day]?.crowd ?? 1)) ** 2, 0);
  const skies = sum(1) ** 2 * sky(1) ** 2 + sum(2) * (sky(2) - sky(1) ** 2);
  const square =
    crowd.likely ** 2 * crowdMoment(crowd, 2) * rate.square * (skies + buying.bunching ** 2 * lumps * sky(2));
  const variance = mean + square - mean ** 2;
  let before = 0;
  const garmentSquare = buying.garments.reduce((sum, row) => {
    const chance = row.upTo - before;
    before = row.upTo;
    return sum + chance * row.garments ** 2;
  }, 0);
  const each = buying.meanGarments;
  return {
    orders: { mean: mean + stated, deviation: Math.sqrt(variance) },
    garments: {
      mean: mean * each + stated,
      deviation: Math.sqrt(mean * (garmentSquare - each ** 2) + variance * each ** 2),
    },
  };
}

/** Garments expected to be asked for in a day. */
export function expectedAsks(prepared: Prepared, apart: ReadonlySet<number>): number {
  return statedMoments(prepared, apart).garments.mean;
}
