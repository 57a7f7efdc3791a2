import { drawGamma } from "../../maths/gamma.ts";
import { standardNormal } from "../../maths/normal-draw.ts";
import { type Random, seededRandom } from "../../maths/random.ts";
import type { Handling, Platen, PressAsk } from "../../model/planning/presses.ts";

export const PLATENS: readonly Platen[] = ["flat", "cap"];

/** One way to handle a garment, in seconds, worked out for the simulation. */
export type PressSteps = {
  readonly platen: number;
  readonly celsius: number;
  /** Load, pre-press and place: hands and press together. */
  readonly load: number;
  readonly dwells: readonly number[];
  readonly peel: number;
  readonly unload: number;
  readonly fold: number;
};

/** One day's customers with everything about them that chance decides, the same for every number of presses and people. */
export type PressDay = {
  readonly at: Float64Array;
  readonly steps: Int32Array;
  readonly garments: Int32Array;
  readonly patience: Float64Array;
  /** Index of each order's first garment. */
  readonly first: Int32Array;
  /** Per garment: its hands' time over the mean, and how often it is spoiled before it comes out right. */
  readonly factor: Float64Array;
  readonly spoils: Uint8Array;
};

export type Chances = {
  readonly handVariation: number;
  readonly spoilage: number;
  readonly patience: { readonly medianSeconds: number; readonly variation: number } | null;
};

export const stepsOf = (handling: Handling, celsius: number): PressSteps => ({
  platen: PLATENS.indexOf(handling.platen),
  celsius,
  load: handling.loadSeconds + handling.prePressSeconds + handling.placeSeconds,
  dwells: handling.dwellSeconds,
  peel: handling.peelSeconds,
  unload: handling.unloadSeconds,
  fold: handling.foldSeconds,
});

/** Samples the chances of one day: pace of hands, spoilage, and the patience of customers without a stated one. */
export function drawDay(
  asks: readonly PressAsk[],
  handling: readonly Handling[],
  chances: Chances,
  seed: number,
): PressDay {
  const hands = seededRandom(seed);
  const patient = hands.fork();
  const sorted = [...asks].sort((a, b) => a.atSeconds - b.atSeconds);
  const total = sorted.reduce((sum, { garments }) => sum + garments, 0);
  const day = {
    at: Float64Array.from(sorted, ({ atSeconds }) => atSeconds),
    steps: Int32Array.from(sorted, (ask) => handlingIndex(ask, handling)),
    garments: Int32Array.from(sorted, ({ garments }) => garments),
    patience: Float64Array.from(
      sorted,
      (ask) => ask.patienceSeconds ?? drawPatience(patient, chances.patience),
    ),
    first: new Int32Array(sorted.length),
    factor: new Float64Array(total),
    spoils: new Uint8Array(total),
  };
  let garment = 0;
  sorted.forEach(({ garments }, order) => {
    day.first[order] = garment;
    garment += garments;
  });
  // Times of hands are gamma: never below nothing, and exponential when their variation is 1.
  const shape = 1 / chances.handVariation ** 2;
  for (let index = 0; index < total; index++) {
    day.factor[index] = chances.handVariation === 0 ? 1 : drawGamma(hands, shape, shape);
    while (hands.chance(chances.spoilage) && (day.spoils[index] ?? 0) < 255)
      day.spoils[index] = (day.spoils[index] ?? 0) + 1;
  }
  return day;
}

export const handlingIndex = ({ platen, settings }: PressAsk, handling: readonly Handling[]): number =>
  handling.findIndex((row) => row.platen === platen && (settings === undefined || row.settings === settings));

/** Lognormal: half of the customers are more patient than the median. */
function drawPatience(random: Random, patience: Chances["patience"]): number {
  if (patience === null) return Number.POSITIVE_INFINITY;
  const spread = Math.sqrt(Math.log1p(patience.variation ** 2));
  return patience.medianSeconds * Math.exp(spread * standardNormal(random));
}
