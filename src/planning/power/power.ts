import { inCelsius } from "../../maths/units.ts";
import type { OrFaults } from "../../model/basics/faults.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { CordAdvice, PowerPlan, PowerRequest, PricedKind } from "../../model/planning/power.ts";
import { priced } from "../request/prices.ts";
import { powerCautions, USUAL_PLATEN_CELSIUS } from "../words/cautions.ts";
import { REGION_RULES } from "../words/region-rules.ts";
import { orderSentence } from "./answer/order-sentence.ts";
import { checksOf } from "./answer/power-checks.ts";
import { neverHot, notesOn } from "./answer/power-notes.ts";
import { shareLoads } from "./circuits.ts";
import { circuitsToOrder, type OfferedKind } from "./circuits-to-order.ts";
import { adviseCord } from "./cords.ts";
import { generatorHolds, judgeGenerator, outputOf } from "./generator.ts";
import { leastChanges } from "./least-change.ts";
import { type PlateLoad, readPlate, socketVoltages } from "./loads.ts";
import { powerFaults } from "./power-faults.ts";
import { placesOf, receptacleOf, worldOf } from "./receptacles.ts";
import { warmUpTurns } from "./warm-up.ts";

/** In amps; the threshold of one load is taken of it, or of a smaller circuit that is given. */
const SMALLEST_USUAL_BREAKER = 15;

export type PowerOutcome = OrFaults<PowerPlan>;

/**
 * Plans the power of a stall: loads shared over the circuits there are (or the circuits to order, when
 * none are known) as exactly as the search allows, the least change when they do not fit, cords, generator,
 * fuel and the order of switching on. An estimate: its cautions belong on every page that shows it.
 * Answers every fault at once when the request is not good.
 */
export function planPower(request: PowerRequest): PowerOutcome {
  const faults = powerFaults(request);
  if (faults.length > 0) return refused(faults);
  const rules = REGION_RULES[request.region];
  const { generator, hours, offered = [] } = request;
  const kinds = priced(offered.length > 0 ? offered : rules.usualCircuits, request.currency).map(
    (kind): OfferedKind => ({
      ...kind,
      carriesAmps: kind.breakerAmps,
      world: worldOf(kind.volts, kind.breakerAmps, rules),
    }),
  );
  const known = [...request.circuits, ...offered];
  const sockets = known.length > 0 ? socketVoltages(known) : rules.volts;
  const given = request.circuits.flatMap((circuit) => placesOf(circuit, rules));
  const smallestBreakerAmps = Math.min(
    SMALLEST_USUAL_BREAKER,
    ...[...given, ...kinds].map(({ breakerAmps }) => breakerAmps),
  );
  const loads = request.loads.map((load) => readPlate(load, sockets, hours, smallestBreakerAmps, rules));

  const circuits =
    request.circuits.length > 0
      ? given
      : circuitsToOrder(loads, kinds, offered.length > 0 ? "largest" : "smallest-that-holds");
  const shared = shareLoads(loads, circuits);
  const fits = shared.fits && (generator === undefined || generatorHolds(generator, loads));
  const supply = { given: request.circuits, circuits, generator, smallestBreakerAmps, rules };
  const changes = fits ? [] : leastChanges(loads, supply, kinds);
  const least = changes[0] ?? null;

  const cords = loads.flatMap((load): CordAdvice[] => {
    const circuit = shared.circuits.find((use) => use.loads.some((placed) => placed.load === load.load));
    return load.cord === undefined || circuit === undefined
      ? []
      : [adviseCord(load, load.cord, circuit, rules)];
  });
  const slowed = loads.map((load) => ({ ...load, warmUpMinutes: slowedWarmUp(load, cords) }));
  const platen =
    request.pressTemperature === undefined ? USUAL_PLATEN_CELSIUS : inCelsius(request.pressTemperature);
  const judged = generator === undefined ? null : judgeGenerator(generator, slowed, hours);
  const ordered = [...shared.circuits.filter((circuit) => circuit.ordered), ...addedBy(least)];
  return ok({
    fits,
    circuits: shared.circuits.map((use) => ({ ...use, receptacle: receptacleOf(use, rules) })),
    circuitsUsed: shared.used,
    circuitsAtLeast: shared.atLeast,
    unplaced: [...shared.unplaced],
    order: orderSentence(request, shared, least, rules),
    orderPrice: priceOf(ordered, kinds),
    least,
    changes,
    cords,
    generator: judged,
    warmUp: warmUpTurns(
      slowed,
      shared.circuits,
      generator === undefined ? Number.POSITIVE_INFINITY : outputOf(generator).startingWatts,
      fits,
    ),
    notes: [...notesOn(loads, shared, rules, request), ...neverHot(loads, cords)],
    cautions: powerCautions(rules, platen, generator !== undefined),
    checks: checksOf({ loads, shared, cords, generator: judged }, rules),
    rules: [...rules.rules],
  });
}

const slowedWarmUp = ({ load, warmUpMinutes }: PlateLoad, cords: readonly CordAdvice[]): number =>
  cords.find((cord) => cord.load === load)?.warmUpMinutes ?? warmUpMinutes;

const addedBy = (least: PowerPlan["least"]) => (least?.change === "more-circuits" ? least.circuits : []);

/** The price of the ordered circuits; null if nothing is ordered or a price is unknown. */
function priceOf(
  ordered: readonly { volts: number; breakerAmps: number }[],
  kinds: readonly PricedKind[],
): number | null {
  let total = 0;
  for (const { volts, breakerAmps } of ordered) {
    const prices = kinds
      .filter((kind) => kind.volts === volts && kind.breakerAmps === breakerAmps)
      .map(({ price }) => price ?? Number.NaN);
    total += Math.min(...prices);
  }
  return ordered.length > 0 && Number.isFinite(total) ? total : null;
}
