import { inLitres, LITRES_PER_US_GALLON } from "../../maths/units.ts";
import type { Generator, GeneratorAnswer } from "../../model/planning/power.ts";
import type { PlateLoad } from "./loads.ts";

/** Share of its running watts that a generator is happily kept under. Common practice, no source. */
export const EASY_SHARE = 0.8;

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

export type Demand = {
  readonly runningWatts: number;
  readonly startingTogetherWatts: number;
  /** One after the other, the worst starter last: what is running, plus its surge. */
  readonly startingInTurnWatts: number;
};

/** What the loads ask of whatever feeds them all, by their plates. */
export function demandOf(loads: readonly PlateLoad[]): Demand {
  const runningWatts = sum(loads.map(({ watts }) => watts));
  const surges = loads.map(({ watts, startingWatts }) => startingWatts - watts);
  // Starting the worst surge first, with little else running, is the gentlest order.
  const order = [...loads].sort((a, b) => b.startingWatts - b.watts - (a.startingWatts - a.watts));
  let running = 0;
  let startingInTurnWatts = 0;
  for (const { watts, startingWatts } of order) {
    startingInTurnWatts = Math.max(startingInTurnWatts, running + startingWatts);
    running += watts;
  }
  return { runningWatts, startingTogetherWatts: runningWatts + sum(surges), startingInTurnWatts };
}

export const generatorHolds = (generator: Generator, loads: readonly PlateLoad[]): boolean => {
  const { runningWatts, startingInTurnWatts } = demandOf(loads);
  return (
    runningWatts <= generator.runningWatts + 1e-6 && startingInTurnWatts <= generator.startingWatts + 1e-6
  );
};

/**
 * Litres an hour at a share of the running watts: straight lines between the stated points, never less
 * than the lowest of them (an idling engine burns too), and along the last line above the highest.
 * A single point is taken in proportion upwards.
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

/** Judges a generator: running and starting load, and fuel for the day. */
export function judgeGenerator(
  generator: Generator,
  loads: readonly PlateLoad[],
  hours: number,
): GeneratorAnswer {
  const demand = demandOf(loads);
  const use = demand.runningWatts / generator.runningWatts;
  const holds = generatorHolds(generator, loads);
  const says: string[] = [];
  if (use > 1)
    says.push(
      `Everything on draws ${whole(demand.runningWatts)} W, more than the ${whole(generator.runningWatts)} W it can keep up.`,
    );
  else if (use > EASY_SHARE)
    says.push(
      `Everything on is ${Math.round(use * 100)} % of what it can keep up; keeping under ${EASY_SHARE * 100} % is common practice.`,
    );
  if (demand.startingInTurnWatts > generator.startingWatts)
    says.push(
      `Starting needs ${whole(demand.startingInTurnWatts)} W for a moment even one at a time; it gives ${whole(generator.startingWatts)} W.`,
    );
  else if (demand.startingTogetherWatts > generator.startingWatts)
    says.push("Starting everything at once would trip it: follow the warm-up turns.");
  return {
    runningWatts: demand.runningWatts,
    use,
    startingTogetherWatts: demand.startingTogetherWatts,
    startingInTurnWatts: demand.startingInTurnWatts,
    holds,
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

const whole = (value: number): string => Math.ceil(value - 1e-6).toLocaleString("en-US");
