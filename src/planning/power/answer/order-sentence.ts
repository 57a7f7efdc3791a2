import type { Change, PowerRequest } from "../../../model/planning/power.ts";
import { amps, counted, listed, plural, round } from "../../words/phrases.ts";
import type { RegionRules } from "../../words/region-rules.ts";
import type { LoadedCircuit, Shared } from "../circuits.ts";
import { receptacleOf } from "../receptacles.ts";

/**
 * What to ask the organiser for, in one sentence: the circuits with a load, each with its receptacle and use; and the
 * circuits or the distribution box to add, if that makes the supply sufficient.
 */
export function orderSentence(
  request: Pick<PowerRequest, "hours" | "generator">,
  { circuits, unplaced }: Shared,
  least: Change | null,
  rules: RegionRules,
): string {
  const used = circuits.filter(({ loads }) => loads.length > 0);
  const more = least?.change === "more-circuits" ? least.circuits : [];
  const boxed = least?.change === "distribution-box" ? least : null;
  if (request.generator !== undefined)
    return `No circuits are needed from you: we bring a generator of ${round(request.generator.runningWatts)} W and ask where it may stand and run for ${round(request.hours, 2)} hours.`;
  const total = used.length + more.length;
  if (total === 0 && boxed === null)
    return unplaced.length === 0
      ? "No power is needed."
      : `Please tell us which circuits you can give: ${listed(unplaced)} ${unplaced.length === 1 ? "fits" : "fit"} on none that we know of.`;
  const parts = [...grouped(used).map((group) => inWords(group, rules)), ...addedInWords(more, rules)];
  const live = `live for ${round(request.hours, 2)} hours from our first warm-up`;
  if (boxed !== null) {
    const box = `a distribution box with ${plural(boxed.outlets, "outlet")} on ${listed(boxed.circuits)}, each outlet behind its own ${boxed.breakerAmps} A breaker with ground-fault protection, because our ordinary plugs must not go on so large a circuit directly`;
    return parts.length === 0
      ? `Please give us ${box}, ${live}.`
      : `Please give us ${plural(total, "circuit")} with ground-fault protection, ${live}: ${listed(parts)}; and ${box}.`;
  }
  return `Please give us ${plural(total, "circuit")} with ground-fault protection, ${live}: ${listed(parts)}.`;
}

/** Circuits alike in kind and use are named together. */
function grouped(circuits: readonly LoadedCircuit[]): LoadedCircuit[][] {
  const groups = new Map<string, LoadedCircuit[]>();
  for (const circuit of circuits) {
    const lone = circuit.loads.length === 1 && circuit.loads[0]?.alone === true;
    const what = lone ? `alone ${round(circuit.amps, 1)}` : circuit.circuit;
    const key = `${circuit.volts} ${circuit.breakerAmps} ${circuit.ordered} ${what}`;
    groups.set(key, [...(groups.get(key) ?? []), circuit]);
  }
  return [...groups.values()];
}

const withReceptacle = (
  circuit: { readonly volts: number; readonly breakerAmps: number },
  rules: RegionRules,
): string => {
  const receptacle = receptacleOf(circuit, rules);
  return receptacle === null ? "" : ` with a ${receptacle}`;
};

function inWords(group: readonly LoadedCircuit[], rules: RegionRules): string {
  const [first] = group;
  if (first === undefined) return "";
  const names = group.flatMap(({ loads }) => loads.map(({ load }) => load));
  const which = first.ordered ? "" : ` (${listed(group.map(({ circuit }) => circuit))})`;
  const kind = `${counted(group.length)} of ${first.volts} V, ${first.breakerAmps} A${which}${withReceptacle(first, rules)},`;
  const lone = first.loads.length === 1 && first.loads[0]?.alone === true;
  if (lone && group.length === 1)
    return `${kind} for ${listed(names)} alone, which draws ${amps(first.amps)}`;
  if (lone) return `${kind} for ${listed(names)}, each alone and drawing ${amps(first.amps)}`;
  return `${kind} for ${listed(names)}, ${amps(first.amps)} together`;
}

function addedInWords(
  more: Extract<Change, { change: "more-circuits" }>["circuits"],
  rules: RegionRules,
): string[] {
  const kinds = new Map<string, number>();
  for (const { volts, breakerAmps } of more) {
    const kind = `${volts} V, ${breakerAmps} A${withReceptacle({ volts, breakerAmps }, rules)}`;
    kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  }
  return [...kinds].map(([kind, count]) => `${counted(count)} more of ${kind}`);
}
