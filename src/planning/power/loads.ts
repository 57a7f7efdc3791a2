import type { PowerLoad, SiteCircuit } from "../../model/planning/power.ts";
import type { RegionRules } from "../words/region-rules.ts";
import { loadWorld, type World } from "./receptacles.ts";

/** A specification plate, read: one current at one voltage. */
export type PlateLoad = {
  readonly load: string;
  readonly kind: PowerLoad["kind"];
  readonly world: World;
  readonly volts: number;
  /** From the plate; for a heater on a higher voltage than its plate's, the current it then draws. */
  readonly amps: number;
  /** Volts times amps: never less than its true watts, whatever its power factor. */
  readonly watts: number;
  readonly startingWatts: number;
  /** Restarts automatically, at any time of the day. */
  readonly restarts: boolean;
  /** Amps as they count against a breaker. */
  readonly countedAmps: number;
  readonly continuous: boolean;
  /** Wants its circuit to itself. */
  readonly alone: boolean;
  /** Alone among heavy loads, but a till or a computer may go along. */
  readonly letsSmallAlong: boolean;
  /** A till or a computer: may go along with a press. */
  readonly small: boolean;
  readonly plugAmps: number | null;
  readonly warmUpMinutes: number;
  readonly holdingShare: number;
  readonly cord: PowerLoad["cord"];
};

/** Cold to working heat, for a portable press. Common practice, no source. */
const PRESS_WARM_UP_MINUTES = 20;
/** Share of the plate's watts that holds a platen at working heat. Common practice, no source. */
const PRESS_HOLDING_SHARE = 0.3;
/** A motor takes 2.5 to 4 times its running watts to start (note in a generator's manual); the most is taken. */
const MOTOR_STARTS_TIMES = 4;
/** Of a small motor whose plate does not say. Common practice, no source. */
const MOTOR_POWER_FACTOR = 0.8;
/** The most that a plate's voltage may differ from the socket's for the same supply (110 or 115 against 120). */
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

export const powerFactorOf = ({ powerFactor, kind }: PowerLoad): number =>
  powerFactor ?? (kind === "motor" ? MOTOR_POWER_FACTOR : 1);

/**
 * Amps as they count against a breaker: continuous loads by the region's factor, and so is every load that
 * draws more than one load may of the smallest circuit there is, whatever its hours. Then a sum that stays
 * within a breaker also keeps each single load within its share of it (NEC 210.20(A) and 210.23(A)(1)).
 */
export function countedAmps(
  amps: number,
  continuous: boolean,
  smallestBreakerAmps: number,
  rules: RegionRules,
): number {
  if (continuous) return amps * rules.continuousFactor;
  if (rules.oneLoadShare === null || amps <= rules.oneLoadShare * smallestBreakerAmps + 1e-9) return amps;
  return amps / rules.oneLoadShare;
}

/**
 * Reads a load whose figures were found good. A universal supply is counted at the lowest voltage it can
 * be plugged into, and stated watts and amps by whichever is more.
 */
export function readPlate(
  given: PowerLoad,
  sockets: readonly number[],
  hours: number,
  smallestBreakerAmps: number,
  rules: RegionRules,
): PlateLoad {
  const stated = given.volts ?? rules.volts[0] ?? 0;
  const [socket] = socketVoltsFor(stated, sockets);
  const plateVolts = typeof stated === "number" ? stated : (socket ?? stated.from);
  const plateAmps = Math.max(given.amps ?? 0, (given.watts ?? 0) / (plateVolts * powerFactorOf(given)));
  const press = given.kind === "press";
  // A heating element is a resistance: on a higher voltage it draws more than its plate says.
  const raised = press ? Math.max(1, (socket ?? plateVolts) / plateVolts) : 1;
  const amps = plateAmps * raised;
  const watts = amps * plateVolts * raised;
  const continuous = given.continuous ?? hours >= rules.continuousHours;
  const startingWatts = Math.max(
    watts,
    given.startingWatts ?? (given.kind === "motor" ? watts * MOTOR_STARTS_TIMES : 0),
  );
  return {
    load: given.load,
    kind: given.kind,
    world: loadWorld(given, socket ?? plateVolts, amps, rules),
    volts: plateVolts,
    amps,
    watts,
    startingWatts,
    restarts: given.restarts ?? startingWatts > watts,
    countedAmps: countedAmps(amps, continuous, smallestBreakerAmps, rules),
    continuous,
    alone: given.ownCircuit ?? press,
    letsSmallAlong: press && given.ownCircuit === undefined,
    small: (given.kind === "till" || given.kind === "computer") && given.ownCircuit !== true,
    plugAmps: given.plugAmps ?? null,
    warmUpMinutes: given.warmUpMinutes ?? (press ? PRESS_WARM_UP_MINUTES : 0),
    holdingShare: given.holdingShare ?? (press ? PRESS_HOLDING_SHARE : 1),
    cord: given.cord,
  };
}

export const socketVoltages = (circuits: readonly Pick<SiteCircuit, "volts">[]): number[] => [
  ...new Set(circuits.map(({ volts }) => volts)),
];
