import type { CordAdvice, PowerRequest } from "../../../model/planning/power.ts";
import { amps, listed, round } from "../../words/phrases.ts";
import type { RegionRules } from "../../words/region-rules.ts";
import type { Shared } from "../circuits.ts";
import type { PlateLoad } from "../loads.ts";
import { wantsBox } from "../receptacles.ts";

/** Presses whose cord leaves them too little heat. */
export const neverHot = (loads: readonly PlateLoad[], cords: readonly CordAdvice[]): string[] =>
  cords
    .filter(({ load, heatShare, warmUpMinutes }) => {
      const heated = loads.some((each) => each.load === load && each.warmUpMinutes > 0);
      return heated && heatShare !== null && warmUpMinutes === null;
    })
    .map(({ load }) => `${load} would never reach its heat on so low a voltage.`);

/** Notes for a person beside the shares of the circuits. */
export function notesOn(
  loads: readonly PlateLoad[],
  shared: Shared,
  rules: RegionRules,
  request: PowerRequest,
): string[] {
  const notes: string[] = [];
  if (shared.fits && shared.used > shared.atLeast)
    notes.push(`${round(shared.used)} circuits do; that ${shared.atLeast} could do was not ruled out.`);
  if (!shared.fits && !shared.proven)
    notes.push("No way to share these loads was found, though not all were tried.");
  if (request.loads.some((load) => load.kind === "press" && load.ownCircuit === undefined))
    notes.push(
      "Each press is given a circuit without another heavy load: common practice, no source. Answer “Own circuit?” with no to let one share.",
    );
  const large = loads.filter((load) => load.amps > (load.plugAmps ?? rules.plugAmps) + 1e-9);
  if (large.length > 0)
    notes.push(
      `${listed(large.map(({ load }) => load))} ${large.length === 1 ? "draws" : "draw"} more than a ${large[0]?.plugAmps ?? rules.plugAmps} A plug is rated for: ask for a socket and plug of the right rating.`,
    );
  for (const { circuit, breakerAmps, box } of request.circuits) {
    if (box !== undefined) continue;
    if (wantsBox(breakerAmps, rules))
      notes.push(
        `${circuit} (${round(breakerAmps)} A) takes no ordinary plug. Use it only through a distribution box with its own breakers, or with a plug of its own size.`,
      );
    else if (rules.ordinaryPlugsUpToAmps === null && breakerAmps > rules.plugAmps)
      notes.push(
        `Ask the licensed electrician which plugs may go on ${circuit} (${round(breakerAmps)} A): that is not judged here.`,
      );
  }
  for (const { load, plugAmps, amps: drawn } of loads) {
    const circuit = shared.circuits.find((use) => use.loads.some((placed) => placed.load === load));
    if (rules.oneLoadShare === null || circuit === undefined) continue;
    if (plugAmps !== null && plugAmps > 15 && circuit.breakerAmps <= 15)
      notes.push(
        `The ${round(plugAmps)} A plug of ${load} does not go into the 15 A receptacle of ${circuit.circuit}: ask for a 20 A circuit.`,
      );
    else if (drawn > rules.oneLoadShare * 15 + 1e-9 && circuit.breakerAmps <= 20)
      notes.push(
        `${load} draws ${amps(drawn)}: it wants a 20 A circuit and receptacle, even if its plug is a 15 A one.`,
      );
  }
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
