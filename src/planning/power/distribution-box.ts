import type { Change, SiteCircuit } from "../../model/planning/power.ts";
import { listed, plural } from "../words/phrases.ts";
import type { OfferedKind } from "./circuits-to-order.ts";
import type { PlateLoad } from "./loads.ts";
import { placesOf, wantsBox } from "./receptacles.ts";
import type { Supply, Works } from "./supply.ts";

/** Breakers of the box that is asked for: ordinary plugs of 15 and 20 A go on them. */
const BOX_BREAKER_AMPS = 20;
/** An outlet with less than this is of no use. Common practice, no source. */
const LEAST_OUTLET_AMPS = 5;
const MOST_BOXED_CIRCUITS = 4;

/**
 * Distribution boxes on the circuits that are too large for ordinary plugs, with the fewest outlets that do;
 * if the site has given no circuit yet, on circuits to order.
 */
export function distributionBox(
  loads: readonly PlateLoad[],
  { given, circuits, generator, rules }: Supply,
  kinds: readonly OfferedKind[],
  works: Works,
): Change | null {
  const large = given.filter(({ breakerAmps, box }) => box === undefined && wantsBox(breakerAmps, rules));
  const trials =
    given.length > 0
      ? [large]
      : kinds
          .filter(({ breakerAmps }) => generator === undefined && wantsBox(breakerAmps, rules))
          .flatMap(({ volts, breakerAmps }) =>
            Array.from({ length: MOST_BOXED_CIRCUITS }, (_, more) =>
              Array.from(
                { length: more + 1 },
                (__, order): SiteCircuit => ({
                  circuit: `new ${order + 1}`,
                  volts,
                  breakerAmps,
                }),
              ),
            ),
          )
          .sort((a, b) => a.length - b.length);
  for (const boxed of trials) {
    const smallest = Math.min(...boxed.map(({ breakerAmps }) => breakerAmps));
    const others = circuits.filter(({ circuit }) => !boxed.some((each) => each.circuit === circuit));
    for (let outlets = 1; boxed.length > 0 && outlets <= smallest / LEAST_OUTLET_AMPS; outlets++) {
      const box = { breakerAmps: BOX_BREAKER_AMPS, outlets };
      const places = boxed.flatMap((circuit) => placesOf({ ...circuit, box }, rules));
      if (!works(loads, [...others, ...places])) continue;
      const names = boxed.map(({ circuit }) => circuit);
      const first = boxed[0];
      const where =
        given.length > 0
          ? `on ${listed(names)}`
          : `on ${plural(boxed.length, "circuit")} of ${first?.volts} V, ${first?.breakerAmps} A`;
      return {
        change: "distribution-box",
        circuits: names,
        breakerAmps: BOX_BREAKER_AMPS,
        outlets,
        says: `Ask for a distribution box with ${plural(outlets, "outlet")} ${where}, each outlet behind its own ${BOX_BREAKER_AMPS} A breaker. Ordinary plugs must not go on so large a circuit directly.`,
      };
    }
  }
  return null;
}
