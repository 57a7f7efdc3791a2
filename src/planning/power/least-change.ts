import type { Change, Generator, PricedKind } from "../../model/planning/power.ts";
import { watts as inWatts, listed, plural } from "../words/phrases.ts";
import { type OpenCircuit, shareLoads } from "./circuits.ts";
import { demandOf, EASY_SHARE, generatorHolds } from "./generator.ts";
import { type PlateLoad, worldOf } from "./loads.ts";

export type Supply = {
  readonly circuits: readonly OpenCircuit[];
  readonly generator: Generator | undefined;
};

/** Each trial of a change solves the sharing anew, so each gets a smaller budget. */
const TRIAL_STEPS = 2_000;
const MOST_MORE_CIRCUITS = 12;
const MOST_PRESSES_LEFT = 6;
/** No useful press draws less. Common practice, no source. */
const SMALLEST_PRESS_WATTS = 500;

/**
 * The changes that would each make a supply do which does not, the least first: how many things it
 * touches, then circuits before machines. Presses with the largest currents are the ones left out or
 * made smaller, since taking out a smaller one never helps more.
 */
export function leastChanges(
  loads: readonly PlateLoad[],
  supply: Supply,
  kinds: readonly PricedKind[],
): Change[] {
  const works = (tried: readonly PlateLoad[], circuits: readonly OpenCircuit[] = supply.circuits): boolean =>
    (supply.generator === undefined || generatorHolds(supply.generator, tried)) &&
    shareLoads(tried, circuits, TRIAL_STEPS).fits;
  const changes: readonly (Change | null)[] = [
    moreCircuits(loads, supply, kinds, works),
    largerGenerator(loads, supply),
    smallerPresses(loads, works),
    fewerPresses(loads, works),
  ];
  return changes
    .filter((change) => change !== null)
    .map((change, order) => ({ change, order }))
    .sort((a, b) => touched(a.change) - touched(b.change) || a.order - b.order)
    .map(({ change }) => change);
}

type Works = (tried: readonly PlateLoad[], circuits?: readonly OpenCircuit[]) => boolean;

function touched(change: Change): number {
  switch (change.change) {
    case "more-circuits":
      return change.circuits.length;
    case "fewer-presses":
      return change.leave.length;
    case "smaller-presses":
      return change.presses.length;
    case "larger-generator":
      return 1;
  }
}

/** Adds circuits one at a time: each world that does not fit gets one more of the smallest kind that lets its largest load on. */
function moreCircuits(
  loads: readonly PlateLoad[],
  supply: Supply,
  kinds: readonly PricedKind[],
  works: Works,
): Change | null {
  // More outlets do not make a generator larger.
  if (supply.generator !== undefined) return null;
  const added: PricedKind[] = [];
  for (const world of ["low", "high"] as const) {
    const here = loads.filter((load) => load.world === world);
    const given = supply.circuits.filter(({ volts }) => worldOf(volts) === world);
    const choices = kinds
      .filter(({ volts }) => worldOf(volts) === world)
      .sort((a, b) => a.breakerAmps - b.breakerAmps);
    if (works(here, given)) continue;
    const best = fewestMore(here, given, choices, works);
    if (best === null) return null;
    added.push(...best);
  }
  const [first] = added;
  if (first === undefined) return null;
  const kindsNamed = [...new Set(added.map(({ volts, breakerAmps }) => `${volts} V, ${breakerAmps} A`))];
  return {
    change: "more-circuits",
    circuits: added,
    says: `Order ${plural(added.length, "circuit")} more (${kindsNamed.join("; ")}).`,
  };
}

/** The fewest circuits of one kind that make it fit; the smallest such kind. */
function fewestMore(
  loads: readonly PlateLoad[],
  given: readonly OpenCircuit[],
  choices: readonly PricedKind[],
  works: Works,
): PricedKind[] | null {
  for (let count = 1; count <= MOST_MORE_CIRCUITS; count++)
    for (const kind of choices) {
      const more = Array.from({ length: count }, (_, order) => ({
        circuit: `new ${order + 1}`,
        volts: kind.volts,
        breakerAmps: kind.breakerAmps,
        ordered: true,
      }));
      if (works(loads, [...given, ...more])) return more.map(() => kind);
    }
  return null;
}

const pressesByCurrent = (loads: readonly PlateLoad[]): PlateLoad[] =>
  loads.filter(({ kind }) => kind === "press").sort((a, b) => b.countedAmps - a.countedAmps);

/** The fewest presses to leave at home. Alone and shared, low and high voltage are groups of their own; within one, the largest go first. */
function fewerPresses(loads: readonly PlateLoad[], works: Works): Change | null {
  const groups = new Map<string, PlateLoad[]>();
  for (const press of pressesByCurrent(loads)) {
    const group = `${press.world} ${press.alone}`;
    groups.set(group, [...(groups.get(group) ?? []), press]);
  }
  for (let count = 1; count <= MOST_PRESSES_LEFT; count++)
    for (const leave of takings([...groups.values()], count)) {
      if (!works(loads.filter((load) => !leave.includes(load)))) continue;
      const names = leave.map(({ load }) => load);
      return { change: "fewer-presses", leave: names, says: `Leave ${listed(names)} at home.` };
    }
  return null;
}

/** Every way to take `count` in all from the heads of the groups. */
function takings(groups: readonly (readonly PlateLoad[])[], count: number): PlateLoad[][] {
  const [group, ...others] = groups;
  if (group === undefined) return count === 0 ? [[]] : [];
  const ways: PlateLoad[][] = [];
  for (let here = Math.min(count, group.length); here >= 0; here--)
    for (const rest of takings(others, count - here)) ways.push([...group.slice(0, here), ...rest]);
  return ways;
}

/** The fewest presses to swap for smaller ones, and the most watts each of them may then have. */
function smallerPresses(loads: readonly PlateLoad[], works: Works): Change | null {
  const presses = pressesByCurrent(loads);
  for (let count = 1; count <= presses.length; count++) {
    const swapped = presses.slice(0, count);
    const largest = Math.floor(Math.max(...swapped.map(({ watts }) => watts)));
    const fits = (most: number): boolean =>
      works(loads.map((load) => (swapped.includes(load) ? limitedTo(load, most) : load)));
    if (!fits(SMALLEST_PRESS_WATTS)) continue;
    let fitting = SMALLEST_PRESS_WATTS;
    let tooMuch = largest + 1;
    while (tooMuch - fitting > 1) {
      const middle = (fitting + tooMuch) >> 1;
      if (fits(middle)) fitting = middle;
      else tooMuch = middle;
    }
    const names = swapped.map(({ load }) => load);
    const each = count === 1 ? "" : " each";
    return {
      change: "smaller-presses",
      presses: names,
      mostWatts: fitting,
      says: `In place of ${listed(names)} take ${count === 1 ? "a smaller press" : "smaller presses"}, of at most ${inWatts(fitting)}${each}.`,
    };
  }
  return null;
}

function limitedTo(load: PlateLoad, mostWatts: number): PlateLoad {
  const share = Math.min(1, mostWatts / load.watts);
  return {
    ...load,
    watts: load.watts * share,
    amps: load.amps * share,
    countedAmps: load.countedAmps * share,
    startingWatts: load.startingWatts * share,
  };
}

function largerGenerator(loads: readonly PlateLoad[], supply: Supply): Change | null {
  if (supply.generator === undefined || generatorHolds(supply.generator, loads)) return null;
  if (!shareLoads(loads, supply.circuits, TRIAL_STEPS).fits) return null;
  const demand = demandOf(loads);
  const runningWatts = Math.ceil(demand.runningWatts - 1e-6);
  const startingWatts = Math.ceil(Math.max(demand.startingInTurnWatts, demand.runningWatts) - 1e-6);
  const easy = Math.ceil(demand.runningWatts / EASY_SHARE / 100) * 100;
  return {
    change: "larger-generator",
    runningWatts,
    startingWatts,
    says: `Take a generator of at least ${inWatts(runningWatts)} running and ${inWatts(startingWatts)} starting; about ${inWatts(easy)} running leaves the usual room.`,
  };
}
