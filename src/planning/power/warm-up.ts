import type { WarmUp } from "../../model/planning/power.ts";
import type { LoadedCircuit } from "./circuits.ts";
import type { PlateLoad } from "./loads.ts";

/** Minutes between turns, so that one surge is over before the next. Common practice, no source. */
const TURN_MINUTES = 1;

/**
 * When to switch on what. Loads start in as few turns as the supply allows: in no turn do the watts
 * already running and the starting watts of that turn pass the generator's starting watts, nor those of
 * one circuit its breaker (a lone surge on a circuit is let through, as breakers do). Running watts are
 * taken at full plate, since thermostats may all close at once. The largest surge starts first: that
 * order asks the least of a generator. `warmUpMinutes` are already slowed by each load's cord.
 * Only loads with a place on a circuit are in a turn; `fits` says whether the whole supply does.
 */
export function warmUpTurns(
  all: readonly PlateLoad[],
  circuits: readonly LoadedCircuit[],
  generatorStartingWatts: number,
  fits: boolean,
): WarmUp {
  const circuitOf = new Map(
    circuits.flatMap((circuit) => circuit.loads.map(({ load }) => [load, circuit] as const)),
  );
  const loads = all.filter(({ load }) => circuitOf.has(load));
  const surge = (load: PlateLoad): number => load.startingWatts - load.watts;
  let waiting = [...loads].sort((a, b) => surge(b) - surge(a) || b.warmUpMinutes - a.warmUpMinutes);
  const running: PlateLoad[] = [];
  const turns: PlateLoad[][] = [];

  const allowed = (turn: readonly PlateLoad[]): boolean => {
    const on = [...running, ...turn];
    if (drawn(on, turn) >= generatorStartingWatts) return false;
    for (const circuit of new Set(turn.map(({ load }) => circuitOf.get(load)))) {
      if (circuit === undefined) continue;
      const here = ({ load }: PlateLoad): boolean => circuitOf.get(load) === circuit;
      const surging = turn.filter(here).filter((load) => surge(load) > 0);
      const most = circuit.volts * circuit.breakerAmps;
      if (surging.length > 1 && drawn(on.filter(here), turn) > most + 1e-6) return false;
    }
    return true;
  };

  while (waiting.length > 0) {
    const turn: PlateLoad[] = [];
    for (const load of waiting) if (allowed([...turn, load])) turn.push(load);
    if (turn.length === 0) break;
    turns.push(turn);
    running.push(...turn);
    waiting = waiting.filter((load) => !turn.includes(load));
  }

  const ready = turns.flatMap((turn, order) =>
    turn
      .filter(({ warmUpMinutes }) => warmUpMinutes > 0)
      .map(({ load, warmUpMinutes }) => ({ load, atMinute: order * TURN_MINUTES + warmUpMinutes })),
  );
  return {
    together: !fits ? "does-not-fit" : turns.length > 1 || waiting.length > 0 ? "trips" : "holds",
    turns: turns.map((turn, order) => ({
      atMinute: order * TURN_MINUTES,
      loads: turn.map(({ load }) => load),
    })),
    ready,
    allReadyMinute: Math.max(0, ...ready.map(({ atMinute }) => atMinute)),
    never: waiting.map(({ load }) => load),
  };
}

/** Everything on at full plate, with those just starting at their starting watts. */
const drawn = (on: readonly PlateLoad[], starting: readonly PlateLoad[]): number =>
  on.reduce((sum, load) => sum + (starting.includes(load) ? load.startingWatts : load.watts), 0);
