import { fewestBins } from "../../maths/bins/bins.ts";
import type { PricedKind } from "../../model/planning/power.ts";
import { holds, MICROAMPS } from "./circuits.ts";
import type { PlateLoad } from "./loads.ts";
import type { OpenCircuit, World } from "./receptacles.ts";

/** A kind of circuit that can be ordered, as a place for plugs. */
export type OfferedKind = PricedKind & { readonly carriesAmps: number; readonly world: World };

/**
 * The circuits to order if the site has named none: the fewest, then for each the cheapest kind that carries its share
 * (the smaller breaker if prices are equal or unknown). `sharedUpTo` says whether shared loads may use the largest kind
 * offered, or only the smallest that holds each of them.
 */
export function circuitsToOrder(
  loads: readonly PlateLoad[],
  kinds: readonly OfferedKind[],
  sharedUpTo: "largest" | "smallest-that-holds",
): OpenCircuit[] {
  const worlds = [...new Set(loads.map(({ world }) => world))];
  const wanted = worlds.flatMap((world) => {
    const here = loads.filter((load) => load.world === world);
    const offered = kinds.filter((kind) => kind.world === world);
    const presses = here.filter(({ alone }) => alone);
    const lone = presses.map(({ countedAmps }) => cheapest(offered, countedAmps));
    const rooms = lone.map((kind, order) =>
      kind === null || presses[order]?.letsSmallAlong !== true
        ? 0
        : kind.carriesAmps - presses[order].countedAmps,
    );
    return allGoAlong(here, rooms) ? lone : [...lone, ...shared(here, offered, sharedUpTo)];
  });
  return wanted
    .filter((kind) => kind !== null)
    .map(({ volts, breakerAmps, carriesAmps, world }, order) => ({
      circuit: `new ${order + 1}`,
      volts,
      breakerAmps,
      carriesAmps,
      world,
      ordered: true,
    }));
}

/** Whether only tills and computers are left to place, and the presses' circuits have room for all of them. */
function allGoAlong(here: readonly PlateLoad[], roomAmps: readonly number[]): boolean {
  const sharing = here.filter(({ alone }) => !alone).sort((a, b) => b.countedAmps - a.countedAmps);
  if (sharing.some(({ small }) => !small)) return false;
  let rooms = [...roomAmps].sort((a, b) => a - b);
  return sharing.every(({ countedAmps }) => {
    const tightest = rooms.findIndex((room) => room >= countedAmps);
    rooms = rooms.map((room, at) => (at === tightest ? room - countedAmps : room)).sort((a, b) => a - b);
    return tightest >= 0;
  });
}

function shared(
  loads: readonly PlateLoad[],
  offered: readonly OfferedKind[],
  sharedUpTo: "largest" | "smallest-that-holds",
): (OfferedKind | null)[] {
  const amps = loads.filter(({ alone }) => !alone).map(({ countedAmps }) => countedAmps);
  if (amps.length === 0) return [];
  const rising = [...offered].sort((a, b) => a.breakerAmps - b.breakerAmps);
  const fitting = rising.filter((kind) => holds(kind, Math.max(...amps)));
  const kind = sharedUpTo === "largest" ? fitting.at(-1) : fitting[0];
  if (kind === undefined) return [];
  const room = Math.round(kind.carriesAmps * MICROAMPS);
  const answer = fewestBins(
    amps.map((each) => Math.round(each * MICROAMPS)),
    amps.map(() => room + amps.length),
  );
  if (answer.type === "impossible") return [];
  const sums = new Map<number, number>();
  answer.binOf.forEach((bin, order) => {
    sums.set(bin, (sums.get(bin) ?? 0) + (amps[order] ?? 0));
  });
  return [...sums.values()].map((sum) => cheapest(offered, sum));
}

/** The cheapest kind that carries this current; null if none does. Kinds without a price come last. */
function cheapest(kinds: readonly OfferedKind[], amps: number): OfferedKind | null {
  const price = (kind: OfferedKind): number => kind.price ?? Number.MAX_SAFE_INTEGER;
  const fitting = kinds.filter((kind) => holds(kind, amps));
  fitting.sort((a, b) => price(a) - price(b) || a.breakerAmps - b.breakerAmps);
  return fitting[0] ?? null;
}
