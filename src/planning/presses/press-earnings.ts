import type { PressesRequest } from "../../model/planning/presses.ts";
import { gatherFaults } from "../request/faults.ts";
import { reader } from "../request/given.ts";
import { USUAL_CURRENCY } from "../request/prices.ts";
import { PLATENS } from "./press-day.ts";
import type { PressRun, PressSums } from "./press-figures.ts";

/** Minor units; per platen kind, in the order of PLATENS. */
export type GarmentPrices = {
  readonly currency: string;
  readonly perPress: readonly number[];
  readonly perGarment: readonly number[];
  readonly perSpoiled: readonly number[];
  readonly hourlyWage: number;
};

/** The request's sums, read; those that cannot be read were refused before. */
export function pricesOf(request: PressesRequest): GarmentPrices {
  const currency = request.currency ?? USUAL_CURRENCY;
  const { money } = reader(currency, gatherFaults());
  const row = (platen: string) => request.presses.find((each) => each.platen === platen);
  return {
    currency,
    perPress: PLATENS.map((platen) => money(row(platen)?.cost ?? 0, []) + money(row(platen)?.power ?? 0, [])),
    perGarment: PLATENS.map((platen) => money(row(platen)?.earns ?? 0, [])),
    perSpoiled: PLATENS.map((platen) => money(row(platen)?.spoils ?? 0, [])),
    hourlyWage: money(request.people.hourlyWage ?? 0, []),
  };
}

/** The profit of each day: garments handed over, less spoils, presses, power, and wages until the last garment. */
export function earningsOf(
  run: PressRun,
  { days, table, closesAt }: PressSums,
  prices: GarmentPrices,
): number[] {
  const fixed = run.presses.reduce((sum, platen) => sum + (prices.perPress[platen] ?? 0), 0);
  return days.map((day, index) => {
    const lived = run.lived[index];
    if (lived === undefined) throw new Error("earningsOf: a day not lived");
    let earned = -fixed;
    for (let order = 0; order < day.at.length; order++) {
      if (Number.isNaN(lived.wait[order])) continue;
      const platen = table[day.steps[order] ?? 0]?.platen ?? 0;
      earned += (day.garments[order] ?? 0) * (prices.perGarment[platen] ?? 0);
    }
    lived.spoiled.forEach((count, platen) => {
      earned -= count * (prices.perSpoiled[platen] ?? 0);
    });
    return earned - (run.people * prices.hourlyWage * Math.max(closesAt, lived.lastAt)) / 3600;
  });
}
