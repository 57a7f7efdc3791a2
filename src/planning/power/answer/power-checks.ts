import type { GeneratorAnswer } from "../../../model/planning/generator.ts";
import type { CordAdvice, PowerCheck } from "../../../model/planning/power.ts";
import { amps, listed, round, watts } from "../../words/phrases.ts";
import type { RegionRules } from "../../words/region-rules.ts";
import type { LoadedCircuit, Shared } from "../circuits.ts";
import type { PlateLoad } from "../loads.ts";

type Planned = {
  readonly loads: readonly PlateLoad[];
  readonly shared: Shared;
  readonly cords: readonly CordAdvice[];
  readonly generator: GeneratorAnswer | null;
};

/** Each thing that was checked, whether it holds, and the rule it was held against. */
export function checksOf({ shared, cords, generator }: Planned, rules: RegionRules): PowerCheck[] {
  return [
    ...(shared.unplaced.length === 0
      ? []
      : [
          {
            about: listed(shared.unplaced),
            holds: false,
            says: `No circuit can take ${listed(shared.unplaced)}. Do not plug ${shared.unplaced.length === 1 ? "it" : "them"} in.`,
            source: "the checks of the circuits",
          },
        ]),
    ...shared.circuits
      .filter(({ loads }) => loads.length > 0)
      .flatMap((circuit) => circuitChecks(circuit, rules)),
    ...cords.map(cordCheck),
    ...(generator === null ? [] : generatorChecks(generator)),
  ];
}

function circuitChecks(circuit: LoadedCircuit, rules: RegionRules): PowerCheck[] {
  const { circuit: about, breakerAmps, carriesAmps, countedAmps, loads } = circuit;
  const north = rules.oneLoadShare !== null;
  const sum: PowerCheck = {
    about,
    holds: countedAmps <= carriesAmps + 1e-4,
    says: `${about}: ${amps(countedAmps)} counted of ${amps(carriesAmps)}${north ? ", continuous loads at 125 %" : ""}.`,
    source: north ? "NEC 210.20(A)" : "IEC 60364-4-43, 433.1 (from memory)",
  };
  if (rules.oneLoadShare === null) return [sum];
  const largest = loads.reduce((most, load) => (load.amps > most.amps ? load : most));
  return [
    sum,
    {
      about,
      holds: largest.amps <= rules.oneLoadShare * breakerAmps + 1e-4,
      says: `${largest.load} draws ${amps(largest.amps)}, ${round((largest.amps / breakerAmps) * 100)} % of a ${round(breakerAmps)} A circuit: at most ${rules.oneLoadShare * 100} % for one plug.`,
      source: breakerAmps <= 20 ? "NEC 210.23(A)(1)" : "NEC 210.23(B), for 30 A (from memory)",
    },
  ];
}

const cordCheck = ({ load, size, own, says }: CordAdvice): PowerCheck => ({
  about: load,
  holds: own === null ? size !== null : own.judgement !== "unsafe",
  says,
  source: "the rules for cords below",
});

function generatorChecks(answer: GeneratorAnswer): PowerCheck[] {
  const { runningWatts, continuousWatts, availableStartingWatts } = answer;
  const start = Math.max(answer.startingInTurnWatts, answer.worstStartWatts);
  return [
    {
      about: "generator",
      holds: runningWatts <= continuousWatts + 1e-6,
      says: `Everything on draws ${watts(runningWatts)}; it may carry ${watts(continuousWatts)} all day, 80 % of what it gives here.`,
      source: "80 %: common practice, no source; height and heat: generator manuals",
    },
    {
      about: "generator",
      holds: start < availableStartingWatts,
      says: `The worst start needs ${watts(start)} for a moment, with what runs by then; it gives less than ${watts(availableStartingWatts)}.`,
      source: "generator manuals: the highest start on top of the running watts",
    },
  ];
}
