import { feetOf, inCelsius, inLitres, inMetres, LITRES_PER_US_GALLON } from "../../maths/units.ts";
import type { Generator, GeneratorAnswer } from "../../model/planning/generator.ts";
import type { PlateLoad } from "./loads.ts";

/** Share of its running watts that a generator may carry all day. Common practice, no source. */
const ALL_DAY_SHARE = 0.8;

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

export type Output = {
  readonly runningWatts: number;
  readonly startingWatts: number;
  /** The part of the plate's figures that remains. */
  readonly share: number;
};

/**
 * What a generator gives at its site. Height and heat by the stricter of two makers' rules: 3.5 % for each
 * 1,000 ft above 1,000 ft, or 3 % for each 500 m above 1,000 m; 2 % for each 10 °F above 85 °F, or 3 % for
 * each 5 °C above 40 °C (generator manuals). Both losses are added. The power factor turns
 * volt-amperes on the plate into watts.
 */
export function outputOf(generator: Generator): Output {
  const { runningWatts, startingWatts, powerFactor = 1, altitude, airTemperature } = generator;
  const metres = altitude === undefined ? 0 : inMetres(altitude);
  const celsius = airTemperature === undefined ? 0 : inCelsius(airTemperature);
  const fahrenheit = (celsius * 9) / 5 + 32;
  const byHeight = Math.max(0, (0.035 * (feetOf(metres) - 1000)) / 1000, (0.03 * (metres - 1000)) / 500);
  const byHeat = Math.max(0, (0.02 * (fahrenheit - 85)) / 10, (0.03 * (celsius - 40)) / 5);
  const share = powerFactor * Math.max(0, 1 - byHeight - byHeat);
  return { runningWatts: runningWatts * share, startingWatts: startingWatts * share, share };
}

type Demand = {
  readonly runningWatts: number;
  readonly startingTogetherWatts: number;
  /** One after the other, the largest surge first. */
  readonly startingInTurnWatts: number;
  /** Everything on, plus the largest starting current of a motor that restarts automatically. */
  readonly worstStartWatts: number;
};

/**
 * The load of everything together, in volt-amperes, which are never less than the watts. A motor that restarts
 * automatically can start at any time: its surge comes on top of everything that runs.
 */
function demandOf(loads: readonly PlateLoad[]): Demand {
  const runningWatts = sum(loads.map(({ watts }) => watts));
  const surge = ({ watts, startingWatts }: PlateLoad): number => startingWatts - watts;
  // Starting the worst surge first, with little else running, is the gentlest order.
  const order = [...loads].sort((a, b) => surge(b) - surge(a));
  let running = 0;
  let startingInTurnWatts = 0;
  for (const { watts, startingWatts } of order) {
    startingInTurnWatts = Math.max(startingInTurnWatts, running + startingWatts);
    running += watts;
  }
  return {
    runningWatts,
    startingTogetherWatts: runningWatts + sum(loads.map(surge)),
    startingInTurnWatts,
    worstStartWatts: runningWatts + Math.max(0, ...loads.filter(({ restarts }) => restarts).map(surge)),
  };
}

/** The largest start to carry: in turn in the morning, or an automatic restart later. */
const largestStart = ({ startingInTurnWatts, worstStartWatts }: Demand): number =>
  Math.max(startingInTurnWatts, worstStartWatts);

/** Whether it carries the loads all day with a margin; the last watt of its starting figure is never used. */
export function generatorHolds(generator: Generator, loads: readonly PlateLoad[]): boolean {
  const output = outputOf(generator);
  const demand = demandOf(loads);
  return (
    demand.runningWatts <= ALL_DAY_SHARE * output.runningWatts + 1e-6 &&
    largestStart(demand) < output.startingWatts - 1e-6
  );
}

/** The least figures on the plate of a generator that holds at the same site, in whole watts. */
export function plateNeeded(
  generator: Generator,
  loads: readonly PlateLoad[],
): { readonly runningWatts: number; readonly startingWatts: number } | null {
  const { share } = outputOf(generator);
  if (share <= 0) return null;
  const demand = demandOf(loads);
  const runningWatts = Math.ceil(demand.runningWatts / ALL_DAY_SHARE / share - 1e-6);
  const startingWatts = Math.max(runningWatts, Math.floor(largestStart(demand) / share + 1e-6) + 1);
  return { runningWatts, startingWatts };
}

/**
 * Litres an hour at a share of the running watts: interpolated between the stated points, never less than the lowest of
 * them (an idling engine burns too), extrapolated above the highest. A single point is extended in proportion.
 */
function litresPerHour(consumption: Generator["consumption"], share: number): number | null {
  const points = consumption
    .map((point) => ({ share: point.share, litres: inLitres(point.rate) }))
    .sort((a, b) => a.share - b.share);
  const [first] = points;
  if (first === undefined) return null;
  if (share <= first.share) return first.litres;
  let below = { share: 0, litres: 0 };
  let above = first;
  for (const point of points.slice(1)) {
    below = above;
    above = point;
    if (share <= point.share) break;
  }
  return below.litres + ((above.litres - below.litres) * (share - below.share)) / (above.share - below.share);
}

/** Judges a generator: running and starting load at its site, and fuel for the day. */
export function judgeGenerator(
  generator: Generator,
  loads: readonly PlateLoad[],
  hours: number,
): GeneratorAnswer {
  const demand = demandOf(loads);
  const output = outputOf(generator);
  const continuousWatts = ALL_DAY_SHARE * output.runningWatts;
  const says: string[] = [];
  if (output.share < 1)
    says.push(
      `Here it gives ${Math.floor(output.share * 100)} % of its plate: ${down(output.runningWatts)} W running and ${down(output.startingWatts)} W starting. Its own manual goes before this estimate.`,
    );
  if (generator.altitude === undefined || generator.airTemperature === undefined)
    says.push(
      "Height or heat is not given: its figures are taken as good for the site. Thin or hot air takes power away.",
    );
  if (demand.runningWatts > continuousWatts + 1e-6)
    says.push(
      `Everything on draws ${up(demand.runningWatts)} W. It may carry ${down(continuousWatts)} W all day, ${ALL_DAY_SHARE * 100} % of what it gives.`,
    );
  if (demand.startingInTurnWatts >= output.startingWatts)
    says.push(
      `Starting needs ${up(demand.startingInTurnWatts)} W for a moment even one at a time; it gives ${down(output.startingWatts)} W.`,
    );
  else if (demand.worstStartWatts >= output.startingWatts)
    says.push(
      `A motor that starts again with everything on needs ${up(demand.worstStartWatts)} W for a moment; it gives ${down(output.startingWatts)} W.`,
    );
  else if (demand.startingTogetherWatts >= output.startingWatts)
    says.push("Starting everything at once would trip it: follow the warm-up turns.");
  return {
    ...demand,
    use: output.runningWatts > 0 ? demand.runningWatts / output.runningWatts : Number.MAX_SAFE_INTEGER,
    availableRunningWatts: output.runningWatts,
    availableStartingWatts: output.startingWatts,
    continuousWatts,
    holds: generatorHolds(generator, loads),
    fuel: fuelFor(generator, loads, hours),
    says,
  };
}

function fuelFor(generator: Generator, loads: readonly PlateLoad[], hours: number): GeneratorAnswer["fuel"] {
  const all = sum(loads.map(({ watts }) => watts));
  const held = sum(loads.map(({ watts, holdingShare }) => watts * holdingShare));
  const warmUpHours = Math.min(hours, Math.max(0, ...loads.map(({ warmUpMinutes }) => warmUpMinutes)) / 60);
  const atAll = litresPerHour(generator.consumption, all / generator.runningWatts);
  const atHeld = litresPerHour(generator.consumption, held / generator.runningWatts);
  if (atAll === null || atHeld === null) return null;
  const mostLitres = atAll * hours;
  const likelyLitres = atAll * warmUpHours + atHeld * (hours - warmUpHours);
  return {
    likelyLitres,
    mostLitres,
    likelyGallons: likelyLitres / LITRES_PER_US_GALLON,
    mostGallons: mostLitres / LITRES_PER_US_GALLON,
    fillings: generator.tank === undefined ? null : Math.ceil(mostLitres / inLitres(generator.tank) - 1e-9),
  };
}

const up = (value: number): string => Math.ceil(value - 1e-6).toLocaleString("en-US");
const down = (value: number): string => Math.floor(value + 1e-6).toLocaleString("en-US");
