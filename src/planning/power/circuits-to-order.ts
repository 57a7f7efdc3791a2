import { fewestBins } from "../../maths/bins/bins.ts";
import type { PricedKind } from "../../model/planning/power.ts";
import { holds, MICROAMPS, type OpenCircuit } from "./circuits.ts";
import { type PlateLoad, type World, worldOf } from "./loads.ts";

const WORLDS: readonly World[] = ["low", "high"];

/**
 * The circuits to order when the site has given none: the fewest, then for each the cheapest kind that
 * carries its share (the smaller breaker where prices are equal or unknown). `sharedUpTo` says whether
 * loads that share may be put on the largest kind offered, or only on the smallest that holds each of them.
 */
export function circuitsToOrder(
  loads: readonly PlateLoad[],
  kinds: readonly PricedKind[],
  sharedUpTo: "largest" | "smallest-that-holds",
): OpenCircuit[] {
  const wanted = WORLDS.flatMap((world) => {
    const here = loads.filter((load) => load.world === world);
    const offered = kinds.filter(({ volts }) => worldOf(volts) === world);
    const lone = here.filter(({ alone }) => alone).map(({ countedAmps }) => cheapest(offered, countedAmps));
    return [...lone, ...shared(here, offered, sharedUpTo)];
  });
  return wanted
    .filter((kind) => kind !== null)
    .map(({ volts, breakerAmps }, order) => ({
      circuit: `new ${order + 1}`,
      volts,
      breakerAmps,
      ordered: true,
    }));
}

function shared(
  loads: readonly PlateLoad[],
  offered: readonly PricedKind[],
  sharedUpTo: "largest" | "smallest-that-holds",
): (PricedKind | null)[] {
  const amps = loads.filter(({ alone }) => !alone).map(({ countedAmps }) => countedAmps);
  if (amps.length === 0) return [];
  const rising = [...offered].sort((a, b) => a.breakerAmps - b.breakerAmps);
  const fitting = rising.filter((kind) => holds(kind, Math.max(...amps)));
  const kind = sharedUpTo === "largest" ? fitting.at(-1) : fitting[0];
  if (kind === undefined) return [];
  const room = Math.round(kind.breakerAmps * MICROAMPS);
  const answer = fewestBins(
    amps.map((each) => Math.round(each * MICROAMPS)),
    amps.map(() => room + amps.length),
  );
  if (answer.kind === "impossible") return [];
  const sums = new Map<number, number>();
  answer.binOf.forEach((bin, order) => {
    sums.set(bin, (sums.get(bin) ?? 0) + (amps[order] ?? 0));
  });
  return [...sums.values()].map((sum) => cheapest(offered, sum));
}

/** The cheapest kind that carries so many amps; null when none does. Kinds without a price come last. */
function cheapest(kinds: readonly PricedKind[], amps: number): PricedKind | null {
  const price = (kind: PricedKind): number => kind.price ?? Number.MAX_SAFE_INTEGER;
  const fitting = kinds.filter((kind) => holds(kind, amps));
  fitting.sort((a, b) => price(a) - price(b) || a.breakerAmps - b.breakerAmps);
  return fitting[0] ?? null;
}
