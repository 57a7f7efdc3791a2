import type { PowerLoad, SiteCircuit } from "../../model/planning/power.ts";
import type { RegionRules } from "../words/region-rules.ts";

/** Sockets fall into two worlds: around 120 V and around 230 V. */
export type World = "low" | "high";

export const worldOf = (volts: number): World => (volts < 160 ? "low" : "high");

/** A specification plate, read: one current at one voltage. */
export type PlateLoad = {
  readonly load: string;
  readonly kind: PowerLoad["kind"];
  readonly world: World;
  readonly volts: number;
  /** On the plate; for a heater on a higher voltage than its plate's, what it then draws. */
  readonly amps: number;
  readonly watts: number;
  readonly startingWatts: number;
  /** Amps as they count against a breaker. */
  readonly countedAmps: number;
  readonly continuous: boolean;
  /** Wants its circuit to itself. */
  readonly alone: boolean;
  readonly plugAmps: number | null;
  readonly warmUpMinutes: number;
  readonly holdingShare: number;
  readonly cord: PowerLoad["cord"];
};

/** Cold to working heat, for a portable press. Common practice, no source. */
const PRESS_WARM_UP_MINUTES = 20;
/** Share of the plate's watts that holds a platen at working heat. Common practice, no source. */
const PRESS_HOLDING_SHARE = 0.3;
/** How far a plate's voltage may lie from the socket's and still mean the same supply (110 or 115 against 120). */
const VOLTS_TOLERANCE = 0.1;

const sameSupply = (plateVolts: number, socketVolts: number): boolean =>
  Math.abs(plateVolts - socketVolts) <= VOLTS_TOLERANCE * socketVolts + 1e-9;

/** The voltages this load can be plugged into, out of those there are; a universal supply takes the ordinary one first. */
export function socketVoltsFor(volts: NonNullable<PowerLoad["volts"]>, sockets: readonly number[]): number[] {
  if (typeof volts === "number") return sockets.filter((socket) => sameSupply(volts, socket));
  return sockets
    .filter((socket) => socket >= volts.from * 0.95 && socket <= volts.to * 1.05)
    .sort((a, b) => a - b);
}

/**
 * Reads a load whose figures were found good. A universal supply is counted at the lowest voltage it can
 * be plugged into, and stated watts and amps by whichever is more.
 */
export function readPlate(
  given: PowerLoad,
  sockets: readonly number[],
  hours: number,
  rules: RegionRules,
): PlateLoad {
  const stated = given.volts ?? rules.volts[0] ?? 0;
  const [socket] = socketVoltsFor(stated, sockets);
  const plateVolts = typeof stated === "number" ? stated : (socket ?? stated.from);
  const plateAmps = Math.max(given.amps ?? 0, (given.watts ?? 0) / plateVolts);
  const press = given.kind === "press";
  // A heating element is a resistance: on a higher voltage it draws more than its plate says.
  const raised = press ? Math.max(1, (socket ?? plateVolts) / plateVolts) : 1;
  const amps = plateAmps * raised;
  const watts = amps * plateVolts * raised;
  const continuous = given.continuous ?? hours >= rules.continuousHours;
  return {
    load: given.load,
    kind: given.kind,
    world: worldOf(socket ?? plateVolts),
    volts: plateVolts,
    amps,
    watts,
    startingWatts: Math.max(watts, given.startingWatts ?? 0),
    countedAmps: amps * (continuous ? rules.continuousFactor : 1),
    continuous,
    alone: given.ownCircuit ?? press,
    plugAmps: given.plugAmps ?? null,
    warmUpMinutes: given.warmUpMinutes ?? (press ? PRESS_WARM_UP_MINUTES : 0),
    holdingShare: given.holdingShare ?? (press ? PRESS_HOLDING_SHARE : 1),
    cord: given.cord,
  };
}

export const socketVoltages = (circuits: readonly Pick<SiteCircuit, "volts">[]): number[] => [
  ...new Set(circuits.map(({ volts }) => volts)),
];
