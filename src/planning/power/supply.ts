import type { Generator } from "../../model/planning/generator.ts";
import type { SiteCircuit } from "../../model/planning/power.ts";
import type { RegionRules } from "../words/region-rules.ts";
import type { PlateLoad } from "./loads.ts";
import type { OpenCircuit } from "./receptacles.ts";

/** Everything that loads are held against. */
export type Supply = {
  /** As the site gives them; empty when circuits are still to be ordered. */
  readonly given: readonly SiteCircuit[];
  readonly circuits: readonly OpenCircuit[];
  readonly generator: Generator | undefined;
  readonly smallestBreakerAmps: number;
  readonly rules: RegionRules;
};

/** Whether these loads can be carried, by these circuits or by those of the supply. */
export type Works = (tried: readonly PlateLoad[], circuits?: readonly OpenCircuit[]) => boolean;
