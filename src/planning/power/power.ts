import { inCelsius } from "../../maths/units.ts";
import type { CordAdvice, PowerPlan, PowerRequest, PricedKind } from "../../model/planning/power.ts";
import type { Fault } from "../request/faults.ts";
import { priced } from "../request/prices.ts";
import { powerCautions, USUAL_PLATEN_CELSIUS } from "../words/cautions.ts";
import { amps, listed, round } from "../words/phrases.ts";
import { REGION_RULES, type RegionRules } from "../words/region-rules.ts";
import { type OpenCircuit, shareLoads } from "./circuits.ts";
import { circuitsToOrder } from "./circuits-to-order.ts";
import { adviseCord } from "./cords.ts";
import { generatorHolds, judgeGenerator } from "./generator.ts";
import { leastChanges } from "./least-change.ts";
import { type PlateLoad, readPlate, socketVoltages } from "./loads.ts";
import { orderSentence } from "./order-sentence.ts";
import { powerFaults } from "./power-faults.ts";
import { warmUpTurns } from "./warm-up.ts";

export type PowerOutcome =
  | { readonly kind: "plan"; readonly plan: PowerPlan }
  | { readonly kind: "faults"; readonly faults: readonly Fault[] };

/**
 * Plans the power of a stall: loads shared over the circuits there are (or the circuits to order, when
 * none are known) as exactly as the search allows, the least change when they do not fit, cords, generator,
 * fuel and the order of switching on. An estimate: its cautions belong on every page that shows it.
 * Answers every fault at once when the request is not good.
 */
export function planPower(request: PowerRequest): PowerOutcome {
  const faults = powerFaults(request);
  if (faults.length > 0) return { kind: "faults", faults };
  const rules = REGION_RULES[request.region];
  const { generator, hours, offered = [] } = request;
  const kinds = priced(offered.length > 0 ? offered : rules.usualCircuits, request.currency);
  const known = [...request.circuits, ...offered];
  const sockets = known.length > 0 ? socketVoltages(known) : rules.volts;
  const loads = request.loads.map((load) => readPlate(load, sockets, hours, rules));

  const circuits: readonly OpenCircuit[] =
    request.circuits.length > 0
      ? request.circuits.map((circuit) => ({ ...circuit, ordered: false }))
      : circuitsToOrder(loads, kinds, offered.length > 0 ? "largest" : "smallest-that-holds");
  const shared = shareLoads(loads, circuits);
  const fits = shared.fits && (generator === undefined || generatorHolds(generator, loads));
  const changes = fits ? [] : leastChanges(loads, { circuits, generator }, kinds);
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
  const ordered = [...shared.circuits.filter((circuit) => circuit.ordered), ...addedBy(least)];
  return {
    kind: "plan",
    plan: {
      fits,
      circuits: [...shared.circuits],
      circuitsUsed: shared.used,
      circuitsAtLeast: shared.atLeast,
      unplaced: [...shared.unplaced],
      order: orderSentence(request, shared.circuits, least),
      orderPrice: priceOf(ordered, kinds),
      least,
      changes,
      cords,
      generator: generator === undefined ? null : judgeGenerator(generator, slowed, hours),
      warmUp: warmUpTurns(slowed, shared.circuits, generator),
      notes: [...notesOn(loads, shared, rules, request), ...neverHot(loads, cords)],
      cautions: powerCautions(rules, platen, generator !== undefined),
      rules: [...rules.rules],
    },
  };
}

const slowedWarmUp = ({ load, warmUpMinutes }: PlateLoad, cords: readonly CordAdvice[]): number =>
  cords.find((cord) => cord.load === load)?.warmUpMinutes ?? warmUpMinutes;

const neverHot = (loads: readonly PlateLoad[], cords: readonly CordAdvice[]): string[] =>
  cords
    .filter(({ load, heatShare, warmUpMinutes }) => {
      const heated = loads.some((each) => each.load === load && each.warmUpMinutes > 0);
      return heated && heatShare !== null && warmUpMinutes === null;
    })
    .map(({ load }) => `${load} would never reach its heat on so low a voltage.`);

const addedBy = (least: PowerPlan["least"]) => (least?.change === "more-circuits" ? least.circuits : []);

/** What the ordered circuits cost; null when nothing is ordered or a price is not known. */
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

function notesOn(
  loads: readonly PlateLoad[],
  shared: ReturnType<typeof shareLoads>,
  rules: RegionRules,
  request: PowerRequest,
): string[] {
  const notes: string[] = [];
  if (shared.fits && shared.used > shared.atLeast)
    notes.push(
      `The search stopped at its budget: ${shared.used} circuits do; ${shared.atLeast} could not be ruled out.`,
    );
  if (!shared.fits && !shared.proven)
    notes.push("No way to share these loads was found, though not all were tried.");
  if (request.loads.some((load) => load.kind === "press" && load.ownCircuit === undefined))
    notes.push(
      "Each press is given a circuit to itself: common practice, no source. Set ownCircuit to false to let one share.",
    );
  const large = loads.filter((load) => load.amps > (load.plugAmps ?? rules.plugAmps) + 1e-9);
  if (large.length > 0)
    notes.push(
      `${listed(large.map(({ load }) => load))} ${large.length === 1 ? "draws" : "draw"} more than a ${large[0]?.plugAmps ?? rules.plugAmps} A plug is rated for: ask for a socket and plug of the right rating.`,
    );
  for (const { load, kind, volts, amps: drawn } of loads) {
    const circuit = shared.circuits.find((use) => use.loads.some((placed) => placed.load === load));
    if (kind !== "press" || circuit === undefined || circuit.volts === volts) continue;
    const heat = round((circuit.volts / volts) ** 2 * 100);
    notes.push(
      `${load} is made for ${volts} V: on ${circuit.volts} V it gives ${heat} % of its heat and draws ${amps(drawn)} at most.`,
    );
  }
  return notes;
}
