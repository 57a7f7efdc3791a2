/**
 * Which plugs go on which circuit. North America: receptacles by circuit from NEC Table 210.21(B)(3), their
 * names from ANSI/NEMA WD 6 (from memory). Elsewhere nothing is judged: no rule was found that can be cited.
 */
import type { PowerLoad, SiteCircuit } from "../../model/planning/power.ts";
import { round } from "../words/phrases.ts";
import type { RegionRules } from "../words/region-rules.ts";

/**
 * Plugs and circuits that belong together: a voltage and a size. A load is shared only over circuits of its own world,
 * so an ordinary plug never goes on a 30 A circuit.
 */
export type World = string;

/** Receptacle sizes above the ordinary ones, in amps. */
const LARGE_SIZES = [30, 50] as const;

const voltsWorld = (volts: number): "low" | "high" => (volts < 160 ? "low" : "high");

function sizeOf(amps: number, rules: RegionRules): string {
  if (rules.ordinaryPlugsUpToAmps === null || amps <= rules.ordinaryPlugsUpToAmps) return "ordinary";
  return `${LARGE_SIZES.find((size) => amps <= size) ?? amps}`;
}

/** The world of a circuit, by the breaker right before its plugs. */
export const worldOf = (volts: number, breakerAmps: number, rules: RegionRules): World =>
  `${voltsWorld(volts)} ${sizeOf(breakerAmps, rules)}`;

/**
 * The world of a load. An undeclared plug is an ordinary one at 120 V; at 240 V it is the smallest that the
 * load's current allows.
 */
export function loadWorld(
  given: Pick<PowerLoad, "plugAmps">,
  volts: number,
  amps: number,
  rules: RegionRules,
): World {
  const low = voltsWorld(volts) === "low";
  const needed = rules.oneLoadShare === null || low ? 0 : amps / rules.oneLoadShare;
  return `${voltsWorld(volts)} ${sizeOf(given.plugAmps ?? needed, rules)}`;
}

/** A place for plugs: a circuit, or one outlet of a distribution box on it. */
export type OpenCircuit = {
  readonly circuit: string;
  readonly volts: number;
  /** Of the breaker right before the plugs. */
  readonly breakerAmps: number;
  /** Counted amps it carries: its breaker, or its equal share of the circuit that feeds the box. */
  readonly carriesAmps: number;
  readonly world: World;
  readonly ordered: boolean;
};

/** The places that a circuit gives: itself, or each outlet of its box with an equal share of the circuit. */
export function placesOf(
  { circuit, volts, breakerAmps, box }: SiteCircuit,
  rules: RegionRules,
  ordered = false,
): OpenCircuit[] {
  if (box === undefined)
    return [
      {
        circuit,
        volts,
        breakerAmps,
        carriesAmps: breakerAmps,
        world: worldOf(volts, breakerAmps, rules),
        ordered,
      },
    ];
  return Array.from({ length: box.outlets }, (_, order) => ({
    circuit: `${circuit}, box outlet ${order + 1}`,
    volts,
    breakerAmps: box.breakerAmps,
    carriesAmps: Math.min(box.breakerAmps, breakerAmps / box.outlets),
    world: worldOf(volts, box.breakerAmps, rules),
    ordered,
  }));
}

/** Too large for ordinary plugs, so that it takes a distribution box. */
export const wantsBox = (breakerAmps: number, rules: RegionRules): boolean =>
  rules.ordinaryPlugsUpToAmps !== null && breakerAmps > rules.ordinaryPlugsUpToAmps;

/** The receptacle to ask for on a circuit, with the plugs it takes; null if no standard can be cited. */
export function receptacleOf(
  { volts, breakerAmps }: { readonly volts: number; readonly breakerAmps: number },
  rules: RegionRules,
): string | null {
  if (rules.ordinaryPlugsUpToAmps === null) return null;
  const low = voltsWorld(volts) === "low";
  const family = low ? "5" : "6";
  const plate = low ? "125 V" : "250 V";
  if (breakerAmps <= 15) return `15 A ${plate} receptacle (NEMA ${family}-15) for 15 A plugs`;
  if (breakerAmps <= 20) return `20 A ${plate} receptacle (NEMA ${family}-20) for 15 or 20 A plugs`;
  const size = LARGE_SIZES.find((each) => breakerAmps <= each);
  return size === undefined
    ? `receptacle of ${round(breakerAmps)} A ${plate}`
    : `${size} A ${plate} receptacle (NEMA ${low ? "L5" : "6"}-${size}) for ${size} A plugs only`;
}
