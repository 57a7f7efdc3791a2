import { fewestBins } from "../../maths/bins/bins.ts";
import type { CircuitUse } from "../../model/planning/power.ts";
import type { PlateLoad, World } from "./loads.ts";
import { worldOf } from "./loads.ts";

export type OpenCircuit = {
  readonly circuit: string;
  readonly volts: number;
  readonly breakerAmps: number;
  readonly ordered: boolean;
};

export type Shared = {
  readonly fits: boolean;
  readonly circuits: readonly CircuitUse[];
  /** Loads that found no place. */
  readonly unplaced: readonly string[];
  readonly used: number;
  readonly atLeast: number;
  /** When it does not fit: proven so, and not only not found within the search's budget. */
  readonly proven: boolean;
};

/** Currents are compared in whole millionths of an ampere, and a sum may pass the breaker by the rounding alone. */
export const MICROAMPS = 1_000_000;
const ROUNDING = 100;

/** A current is a whole number of parts where it is as near to one as this. */
const NEARLY = 1e-7;
const MOST_PARTS = 10_000;

/**
 * Into how many parts an ampere can be divided so that every current is a whole number of them: plates in
 * watts at one voltage have such a part, and whole numbers prove more. Null where there is none.
 */
function partsOfAnAmpere(amps: readonly number[]): number | null {
  for (let parts = 1; parts <= MOST_PARTS; parts++)
    if (amps.every((counted) => Math.abs(counted * parts - Math.round(counted * parts)) < NEARLY))
      return parts;
  return null;
}

const inMicroamps = (amps: number): number => Math.round(amps * MICROAMPS);

/**
 * Shares loads over circuits, using as few as can be. On each circuit the counted amps (non-continuous
 * plus the region's factor times continuous) stay within the breaker, and a load that wants its own
 * circuit is alone. `steps` bounds the exact search (maths/bins.ts).
 */
export function shareLoads(
  loads: readonly PlateLoad[],
  circuits: readonly OpenCircuit[],
  steps?: number,
): Shared {
  const worlds: World[] = ["low", "high"];
  const parts = worlds.map((world) =>
    shareWorld(
      loads.filter((load) => load.world === world),
      circuits.filter(({ volts }) => worldOf(volts) === world),
      steps,
    ),
  );
  return {
    fits: parts.every(({ fits }) => fits),
    circuits: parts.flatMap((part) => part.circuits),
    unplaced: parts.flatMap(({ unplaced }) => unplaced),
    used: parts.reduce((sum, { used }) => sum + used, 0),
    atLeast: parts.reduce((sum, { atLeast }) => sum + atLeast, 0),
    proven: parts.every(({ proven }) => proven),
  };
}

function shareWorld(loads: readonly PlateLoad[], circuits: readonly OpenCircuit[], steps?: number): Shared {
  const placed = new Map<OpenCircuit, PlateLoad[]>();
  const unplaced: string[] = [];
  let open = [...circuits].sort((a, b) => a.breakerAmps - b.breakerAmps);

  // Largest first, each to the smallest circuit that holds it: what stays open for sharing is then the
  // best that can stay open, since the sets of circuits that can serve the lone loads form a matroid.
  const lone = loads.filter(({ alone }) => alone).sort((a, b) => b.countedAmps - a.countedAmps);
  for (const load of lone) {
    const own = open.find((circuit) => holds(circuit, load.countedAmps));
    if (own === undefined) {
      unplaced.push(load.load);
      continue;
    }
    placed.set(own, [load]);
    open = open.filter((circuit) => circuit !== own);
  }

  const sharing = loads.filter(({ alone }) => !alone);
  const amps = sharing.map(({ countedAmps }) => countedAmps);
  const parts = partsOfAnAmpere(amps);
  const answer = fewestBins(
    amps.map((counted) => Math.round(counted * (parts ?? MICROAMPS))),
    open.map(({ breakerAmps }) =>
      parts === null ? inMicroamps(breakerAmps) + ROUNDING : Math.floor(breakerAmps * parts + NEARLY),
    ),
    steps,
  );
  let atLeast = lone.length;
  if (answer.kind === "packed") {
    atLeast += answer.atLeast;
    answer.binOf.forEach((bin, order) => {
      put(placed, open[bin], sharing[order]);
    });
  } else {
    for (const load of [...sharing].sort((a, b) => b.countedAmps - a.countedAmps)) {
      const home = open.find((circuit) => holds(circuit, total(placed.get(circuit)) + load.countedAmps));
      if (home === undefined) unplaced.push(load.load);
      else put(placed, home, load);
    }
  }
  return {
    fits: unplaced.length === 0,
    circuits: circuits.map((circuit) => useOf(circuit, placed.get(circuit) ?? [])),
    unplaced,
    used: placed.size,
    atLeast,
    proven: answer.kind === "packed" || answer.proven,
  };
}

/** Whether a breaker carries this many counted amps. */
export const holds = (circuit: { readonly breakerAmps: number }, amps: number): boolean =>
  inMicroamps(amps) <= inMicroamps(circuit.breakerAmps) + ROUNDING;

const total = (loads: readonly PlateLoad[] | undefined): number =>
  (loads ?? []).reduce((sum, { countedAmps }) => sum + countedAmps, 0);

function put(
  placed: Map<OpenCircuit, PlateLoad[]>,
  circuit: OpenCircuit | undefined,
  load: PlateLoad | undefined,
): void {
  if (circuit === undefined || load === undefined) throw new Error("shareLoads: a bin without a circuit");
  placed.set(circuit, [...(placed.get(circuit) ?? []), load]);
}

function useOf(circuit: OpenCircuit, loads: readonly PlateLoad[]): CircuitUse {
  const countedAmps = total(loads);
  return {
    ...circuit,
    loads: loads.map(({ load, amps, countedAmps: counted, alone }) => ({
      load,
      amps,
      countedAmps: counted,
      alone,
    })),
    amps: loads.reduce((sum, { amps }) => sum + amps, 0),
    countedAmps,
    roomAmps: Math.max(0, circuit.breakerAmps - countedAmps),
  };
}
