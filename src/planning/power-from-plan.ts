/** What a plan of the day says about its power: how long it is live, and how hot the presses get. */
import { inCelsius } from "../maths/units.ts";
import type { Temperature } from "../model/basics/measure.ts";

/**
 * Hours from the first warm-up to switching off, to the next quarter: the fair's own hours, and before them the
 * longest warm-up, so that the first customer finds a hot press.
 */
export function liveHours(
  opensMinute: number,
  closesMinute: number,
  warmUpMinutes: readonly number[],
): number {
  const longest = Math.max(0, ...warmUpMinutes.filter((minutes) => Number.isFinite(minutes)));
  return Math.ceil((closesMinute - opensMinute + longest) / 15) / 4;
}

/** The hottest of the temperatures that garments are pressed at; undefined if there is none. */
export const hottest = (temperatures: readonly Temperature[]): Temperature | undefined =>
  temperatures.reduce<Temperature | undefined>(
    (most, one) => (most === undefined || inCelsius(one) > inCelsius(most) ? one : most),
    undefined,
  );
