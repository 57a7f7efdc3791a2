import type { Change, CircuitUse, PowerRequest } from "../../model/planning/power.ts";
import { amps, counted, listed, plural, round } from "../words/phrases.ts";

/**
 * What to ask the organiser for, in one sentence: the circuits that carry a load, with what each is for,
 * and the circuits still to be added where they are the change that makes the supply do.
 */
export function orderSentence(
  request: Pick<PowerRequest, "hours" | "generator">,
  circuits: readonly CircuitUse[],
  least: Change | null,
): string {
  const used = circuits.filter(({ loads }) => loads.length > 0);
  const more = least?.change === "more-circuits" ? least.circuits : [];
  const total = used.length + more.length;
  if (total === 0) return "No power is needed.";
  if (request.generator !== undefined)
    return `No circuits are needed from you: we bring a generator of ${round(request.generator.runningWatts)} W and ask where it may stand and run for ${round(request.hours, 1)} hours.`;
  const parts = [...grouped(used).map(inWords), ...addedInWords(more)];
  return `Please give us ${plural(total, "circuit")} with ground-fault protection, live for ${round(request.hours, 1)} hours from our first warm-up: ${listed(parts)}.`;
}

/** Circuits alike in kind and use are named together. */
function grouped(circuits: readonly CircuitUse[]): CircuitUse[][] {
  const groups = new Map<string, CircuitUse[]>();
  for (const circuit of circuits) {
    const lone = circuit.loads.length === 1 && circuit.loads[0]?.alone === true;
    const what = lone ? `alone ${round(circuit.amps, 1)}` : circuit.circuit;
    const key = `${circuit.volts} ${circuit.breakerAmps} ${circuit.ordered} ${what}`;
    groups.set(key, [...(groups.get(key) ?? []), circuit]);
  }
  return [...groups.values()];
}

function inWords(group: readonly CircuitUse[]): string {
  const [first] = group;
  if (first === undefined) return "";
  const names = group.flatMap(({ loads }) => loads.map(({ load }) => load));
  const which = first.ordered ? "" : ` (${listed(group.map(({ circuit }) => circuit))})`;
  const kind = `${counted(group.length)} of ${first.volts} V, ${first.breakerAmps} A${which}`;
  const lone = first.loads.length === 1 && first.loads[0]?.alone === true;
  if (lone && group.length === 1)
    return `${kind} for ${listed(names)} alone, which draws ${amps(first.amps)}`;
  if (lone) return `${kind} for ${listed(names)}, each alone and drawing ${amps(first.amps)}`;
  return `${kind} for ${listed(names)}, ${amps(first.amps)} together`;
}

function addedInWords(more: Extract<Change, { change: "more-circuits" }>["circuits"]): string[] {
  const kinds = new Map<string, number>();
  for (const { volts, breakerAmps } of more) {
    const kind = `${volts} V, ${breakerAmps} A`;
    kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  }
  return [...kinds].map(([kind, count]) => `${counted(count)} more of ${kind}`);
}
