import { uneven } from "../../maths/waiting.ts";
import type { PressAsk } from "../../model/planning/presses.ts";
import { handSeconds, pressSeconds } from "./press-attention.ts";
import type { PressSteps } from "./press-day.ts";

/** Garments of one platen kind in the busiest hour: how many, in what batches, and what one of them takes. */
export type Busiest = {
  readonly garmentsPerSecond: number;
  /** Mean of the square of garments per order over the mean: 1 when all order one. */
  readonly batching: number;
  readonly pressSeconds: number;
  readonly handSeconds: number;
};

/** The busiest hour of one platen kind over all scenarios. */
export function busiestHour(
  scenarios: readonly (readonly PressAsk[])[],
  platen: number,
  table: readonly PressSteps[],
  stepsOf: (ask: PressAsk) => number,
  opensItself: boolean,
): Busiest {
  const hours = new Map<number, number>();
  let garments = 0;
  let squares = 0;
  let press = 0;
  let hand = 0;
  for (const asks of scenarios)
    for (const ask of asks) {
      const steps = table[stepsOf(ask)];
      if (steps === undefined || steps.platen !== platen) continue;
      const hour = Math.floor(ask.atSeconds / 3600);
      hours.set(hour, (hours.get(hour) ?? 0) + ask.garments);
      garments += ask.garments;
      squares += ask.garments ** 2;
      press += ask.garments * pressSeconds(steps);
      hand += ask.garments * handSeconds(steps, opensItself);
    }
  const most = Math.max(0, ...hours.values());
  return {
    garmentsPerSecond: most / scenarios.length / 3600,
    batching: garments === 0 ? 1 : squares / garments,
    pressSeconds: garments === 0 ? 0 : press / garments,
    handSeconds: garments === 0 ? 0 : hand / garments,
  };
}

/**
 * The most garments an hour of presses and people: each press is held this long by a garment, and each garment takes
 * this much of the hands, of which other platen kinds leave `handsShare`.
 */
export const capacityPerHour = (
  busiest: Busiest,
  presses: number,
  people: number,
  handsShare: number,
): number =>
  busiest.pressSeconds === 0
    ? 0
    : 3600 / Math.max(busiest.pressSeconds / presses, busiest.handSeconds / (people * handsShare));

/**
 * A first answer without simulation: as many servers as presses, each slowed to the pace that the hands allow
 * (Allen-Cunneen; orders of several garments make arrivals uneven by mean square over mean). Waits are from ordering to
 * hand-over. Null if the line would grow without end.
 */
export function firstAnswer(
  busiest: Busiest,
  presses: number,
  capacity: number,
  handVariation: number,
  dwellShare: number,
): { use: number; meanWaitSeconds: number | null } {
  const rate = busiest.garmentsPerSecond;
  if (capacity === 0) return { use: 0, meanWaitSeconds: 0 };
  const service = (presses * 3600) / capacity;
  // Only the hands vary; the dwell is the timer's.
  const variation = (handVariation * (1 - dwellShare)) ** 2;
  const line = uneven(rate, service, presses, busiest.batching, variation);
  return { use: (rate * 3600) / capacity, meanWaitSeconds: line?.meanStay ?? null };
}
