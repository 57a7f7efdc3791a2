import { fewestBins } from "../../maths/bins/bins.ts";
import type { CircuitUse } from "../../model/planning/power.ts";
import type { PlateLoad } from "./loads.ts";
import type { OpenCircuit, World } from "./receptacles.ts";

/** A circuit with its loads, before its receptacle is named. */
export type LoadedCircuit = Omit<CircuitUse, "receptacle">;

export type Shared = {
  readonly fits: boolean;
  readonly circuits: readonly LoadedCircuit[];
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

/** A current counts as a whole number of parts if it is this close to one. */
const NEARLY = 1e-7;
const MOST_PARTS = 10_000;

/**
 * The number of parts of an ampere in which every current is a whole number: plates in watts at one voltage have one,
 * and whole numbers prove more. Null if there is none.
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
 * circuit is alone; a press that said nothing about it lets tills and computers along if that saves a
 * circuit. `steps` bounds the exact search (maths/bins.ts).
 */
export function shareLoads(
  loads: readonly PlateLoad[],
  circuits: readonly OpenCircuit[],
  steps?: number,
): Shared {
  const worlds = new Set<World>([...loads, ...circuits].map(({ world }) => world));
  const parts = [...worlds].map((world) =>
    shareWorld(
      loads.filter((load) => load.world === world),
      circuits.filter((circuit) => circuit.world === world),
      steps,
    ),
  );
  const used = new Map(parts.flatMap((part) => part.circuits.map((use) => [use.circuit, use] as const)));
  return {
    fits: parts.every(({ fits }) => fits),
    circuits: circuits.flatMap(({ circuit }) => used.get(circuit) ?? []),
    unplaced: parts.flatMap(({ unplaced }) => unplaced),
    used: parts.reduce((sum, { used }) => sum + used, 0),
    atLeast: parts.reduce((sum, { atLeast }) => sum + atLeast, 0),
    proven: parts.every(({ proven }) => proven),
  };
}

type Placing = {
  readonly placed: ReadonlyMap<OpenCircuit, readonly PlateLoad[]>;
  readonly unplaced: readonly string[];
  readonly atLeast: number;
  readonly proven: boolean;
};

function shareWorld(loads: readonly PlateLoad[], circuits: readonly OpenCircuit[], steps?: number): Shared {
  const lonePlaced = new Map<OpenCircuit, readonly PlateLoad[]>();
  const loneUnplaced: string[] = [];
  let open = [...circuits].sort((a, b) => a.carriesAmps - b.carriesAmps);

  // Largest first, each to the smallest circuit that holds it: what stays open for sharing is then the
  // best that can stay open, since the sets of circuits that can serve the lone loads form a matroid.
  const lone = loads.filter(({ alone }) => alone).sort((a, b) => b.countedAmps - a.countedAmps);
  for (const load of lone) {
    const own = open.find((circuit) => holds(circuit, load.countedAmps));
    if (own === undefined) {
      loneUnplaced.push(load.load);
      continue;
    }
    lonePlaced.set(own, [load]);
    open = open.filter((circuit) => circuit !== own);
  }

  const sharing = loads.filter(({ alone }) => !alone);
  const apart = packed(sharing, open, lonePlaced, steps);
  const along = alongPresses(sharing, open, lonePlaced, steps);
  const best = along !== null && better(along, apart) ? along : apart;
  const unplaced = [...loneUnplaced, ...best.unplaced];
  return {
    fits: unplaced.length === 0,
    circuits: circuits.map((circuit) => useOf(circuit, best.placed.get(circuit) ?? [])),
    unplaced,
    used: best.placed.size,
    atLeast: lone.length + Math.min(apart.atLeast, along?.atLeast ?? apart.atLeast),
    proven: best.proven && along === null,
  };
}

const better = (one: Placing, other: Placing): boolean =>
  one.unplaced.length < other.unplaced.length ||
  (one.unplaced.length === other.unplaced.length && one.placed.size < other.placed.size);

/** Puts what shares on the circuits that are still open, on as few as can be. */
function packed(
  sharing: readonly PlateLoad[],
  open: readonly OpenCircuit[],
  lonePlaced: ReadonlyMap<OpenCircuit, readonly PlateLoad[]>,
  steps?: number,
): Placing {
  const placed = new Map(lonePlaced);
  const unplaced: string[] = [];
  const amps = sharing.map(({ countedAmps }) => countedAmps);
  const parts = partsOfAnAmpere(amps);
  const answer = fewestBins(
    amps.map((counted) => Math.round(counted * (parts ?? MICROAMPS))),
    open.map(({ carriesAmps }) =>
      parts === null ? inMicroamps(carriesAmps) + ROUNDING : Math.floor(carriesAmps * parts + NEARLY),
    ),
    steps,
  );
  if (answer.type === "packed") {
    answer.binOf.forEach((bin, order) => {
      put(placed, open[bin], sharing[order]);
    });
    return { placed, unplaced, atLeast: answer.atLeast, proven: true };
  }
  for (const load of [...sharing].sort((a, b) => b.countedAmps - a.countedAmps)) {
    const home = open.find((circuit) => holds(circuit, total(placed.get(circuit)) + load.countedAmps));
    if (home === undefined) unplaced.push(load.load);
    else put(placed, home, load);
  }
  return { placed, unplaced, atLeast: 0, proven: answer.proven };
}

/**
 * Like the above, with tills and computers beside presses that allow it, the tightest room first; null if there are
 * none.
 */
function alongPresses(
  sharing: readonly PlateLoad[],
  open: readonly OpenCircuit[],
  lonePlaced: ReadonlyMap<OpenCircuit, readonly PlateLoad[]>,
  steps?: number,
): Placing | null {
  const small = sharing.filter((load) => load.small).sort((a, b) => b.countedAmps - a.countedAmps);
  const hosts = [...lonePlaced].filter(([, [press]]) => press?.letsSmallAlong).map(([circuit]) => circuit);
  if (small.length === 0 || hosts.length === 0) return null;
  const placed = new Map(lonePlaced);
  const room = (circuit: OpenCircuit): number => circuit.carriesAmps - total(placed.get(circuit));
  const rest = sharing.filter((load) => {
    if (!small.includes(load)) return true;
    const [host] = hosts
      .filter((circuit) => holds(circuit, total(placed.get(circuit)) + load.countedAmps))
      .sort((a, b) => room(a) - room(b));
    if (host === undefined) return true;
    put(placed, host, load);
    return false;
  });
  const large = sharing.filter((load) => !load.small);
  const { atLeast } = packed(large, open, new Map(), steps);
  return { ...packed(rest, open, placed, steps), atLeast };
}

/** Whether a circuit carries this much counted current. */
export const holds = (circuit: { readonly carriesAmps: number }, amps: number): boolean =>
  inMicroamps(amps) <= inMicroamps(circuit.carriesAmps) + ROUNDING;

const total = (loads: readonly PlateLoad[] | undefined): number =>
  (loads ?? []).reduce((sum, { countedAmps }) => sum + countedAmps, 0);

function put(
  placed: Map<OpenCircuit, readonly PlateLoad[]>,
  circuit: OpenCircuit | undefined,
  load: PlateLoad | undefined,
): void {
  if (circuit === undefined || load === undefined) throw new Error("shareLoads: a bin without a circuit");
  placed.set(circuit, [...(placed.get(circuit) ?? []), load]);
}

function useOf({ world: _, ...circuit }: OpenCircuit, loads: readonly PlateLoad[]): LoadedCircuit {
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
    roomAmps: Math.max(0, circuit.carriesAmps - countedAmps),
  };
}
