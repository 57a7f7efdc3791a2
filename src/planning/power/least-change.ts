import type { Change, PricedKind } from "../../model/planning/power.ts";
import { watts as inWatts, listed, plural } from "../words/phrases.ts";
import { shareLoads } from "./circuits.ts";
import type { OfferedKind } from "./circuits-to-order.ts";
import { distributionBox } from "./distribution-box.ts";
import { generatorHolds, plateNeeded } from "./generator.ts";
import { countedAmps, type PlateLoad } from "./loads.ts";
import type { OpenCircuit } from "./receptacles.ts";
import type { Supply, Works } from "./supply.ts";

/** Each trial of a change solves the sharing again, so each gets a smaller budget. */
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
  kinds: readonly OfferedKind[],
): Change[] {
  const works = (tried: readonly PlateLoad[], circuits: readonly OpenCircuit[] = supply.circuits): boolean =>
    (supply.generator === undefined || generatorHolds(supply.generator, tried)) &&
    shareLoads(tried, circuits, TRIAL_STEPS).fits;
  const changes: readonly (Change | null)[] = [
    distributionBox(loads, supply, kinds, works),
    moreCircuits(loads, supply, kinds, works),
    largerGenerator(loads, supply),
    smallerPresses(loads, supply, works),
    fewerPresses(loads, works),
  ];
  return changes
    .filter((change) => change !== null)
    .map((change, order) => ({ change, order }))
    .sort((a, b) => touched(a.change) - touched(b.change) || a.order - b.order)
    .map(({ change }) => change);
}

function touched(change: Change): number {
  switch (change.change) {
    case "more-circuits":
      return change.circuits.length;
    case "fewer-presses":
      return change.leave.length;
    case "smaller-presses":
      return change.presses.length;
    case "distribution-box":
      return change.circuits.length;
    case "larger-generator":
      return 1;
  }
}

/** Adds circuits one at a time: each world that does not fit gets one more of the smallest kind that lets its largest load on. */
function moreCircuits(
  loads: readonly PlateLoad[],
  supply: Supply,
  kinds: readonly OfferedKind[],
  works: Works,
): Change | null {
  // More outlets do not make a generator larger.
  if (supply.generator !== undefined) return null;
  const added: PricedKind[] = [];
  for (const world of new Set(loads.map((load) => load.world))) {
    const here = loads.filter((load) => load.world === world);
    const given = supply.circuits.filter((circuit) => circuit.world === world);
    const choices = kinds
      .filter((kind) => kind.world === world)
      .sort((a, b) => a.breakerAmps - b.breakerAmps);
    if (works(here, given)) continue;
    const best = fewestMore(here, given, choices, works);
    if (best === null) return null;
    added.push(...best.map(({ volts, breakerAmps, price }) => ({ volts, breakerAmps, price })));
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
  choices: readonly OfferedKind[],
  works: Works,
): OfferedKind[] | null {
  for (let count = 1; count <= MOST_MORE_CIRCUITS; count++)
    for (const kind of choices) {
      const more = Array.from({ length: count }, (_, order) => ({
        circuit: `new ${order + 1}`,
        volts: kind.volts,
        breakerAmps: kind.breakerAmps,
        carriesAmps: kind.carriesAmps,
        world: kind.world,
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
function smallerPresses(loads: readonly PlateLoad[], supply: Supply, works: Works): Change | null {
  const presses = pressesByCurrent(loads);
  for (let count = 1; count <= presses.length; count++) {
    const swapped = presses.slice(0, count);
    const largest = Math.floor(Math.max(...swapped.map(({ watts }) => watts)));
    const fits = (most: number): boolean =>
      works(loads.map((load) => (swapped.includes(load) ? limitedTo(load, most, supply) : load)));
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

function limitedTo(load: PlateLoad, mostWatts: number, { smallestBreakerAmps, rules }: Supply): PlateLoad {
  const share = Math.min(1, mostWatts / load.watts);
  const amps = load.amps * share;
  return {
    ...load,
    watts: load.watts * share,
    amps,
    countedAmps: countedAmps(amps, load.continuous, smallestBreakerAmps, rules),
    startingWatts: load.startingWatts * share,
  };
}

function largerGenerator(loads: readonly PlateLoad[], supply: Supply): Change | null {
  if (supply.generator === undefined || generatorHolds(supply.generator, loads)) return null;
  if (!shareLoads(loads, supply.circuits, TRIAL_STEPS).fits) return null;
  const needed = plateNeeded(supply.generator, loads);
  if (needed === null) return null;
  return {
    change: "larger-generator",
    ...needed,
    says: `Take a generator of at least ${inWatts(needed.runningWatts)} running and ${inWatts(needed.startingWatts)} starting on its plate.`,
  };
}
