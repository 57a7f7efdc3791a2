/** The temperature a garment needs on a platen, and the time to change to it. */

import type { Moments } from "../../maths/lognormal.ts";
import type { DesignId } from "../../model/basics/ids.ts";
import type { Menu, Platen } from "../../model/menu/catalogue.ts";
import { CLIMBS_FAHRENHEIT_PER_MINUTE, COOLS_FAHRENHEIT_PER_MINUTE } from "../../model/menu/platen-pace.ts";
import { type Instant, MINUTE } from "../../time/instants.ts";
import type { PlatenHeat } from "./shapes/job.ts";

// Closer than this, a press need not be touched.
const SAME_WITHIN = 5;

/** The temperature a design's transfer needs, in °F. */
export function fahrenheitOf(menu: Menu, design: DesignId): number {
  const found = menu.designs.find(({ id }) => id === design);
  if (found === undefined) throw new Error(`design ${design} is not on the menu`);
  return found.settings.temperatureFahrenheit;
}

/** Whether a platen can press this without a change of temperature; a platen that was never set is assumed to. */
export const suits = (heat: PlatenHeat | null, fahrenheit: number): boolean =>
  heat === null || Math.abs(heat.fahrenheit - fahrenheit) <= SAME_WITHIN;

/** Milliseconds a platen takes from one temperature to another. */
export function changeTime(fromFahrenheit: number, toFahrenheit: number): number {
  const apart = toFahrenheit - fromFahrenheit;
  const minutes = apart > 0 ? apart / CLIMBS_FAHRENHEIT_PER_MINUTE : -apart / COOLS_FAHRENHEIT_PER_MINUTE;
  return Math.round(minutes * MINUTE);
}

/** The temperature to set a platen to for a garment pulled now; null if it stays as it is. */
export function settingFor(heat: PlatenHeat | null, fahrenheit: number, now: Instant): PlatenHeat | null {
  if (heat === null) return { fahrenheit, readyAt: now };
  if (suits(heat, fahrenheit)) return null;
  // Where it is still on its way it is taken to have arrived: at worst the time is a little long.
  return { fahrenheit, readyAt: now + changeTime(heat.fahrenheit, fahrenheit) };
}

/**
 * The seconds that temperature changes add to each garment of a platen, before any was timed. All temperatures of the
 * menu are equally likely, and runs are longer by as many garments as may overtake one.
 */
export function heatingSeed(menu: Menu, platen: Platen): Moments {
  const seeds = SEEDS.get(menu) ?? { flat: seedOf(menu, "flat"), cap: seedOf(menu, "cap") };
  SEEDS.set(menu, seeds);
  return seeds[platen];
}

// A menu is never changed in place, and every quote asks for this.
const SEEDS = new WeakMap<Menu, Readonly<Record<Platen, Moments>>>();

function seedOf(menu: Menu, platen: Platen): Moments {
  const sold = menu.offers.filter(
    ({ offered, blank }) =>
      offered && menu.blanks.some(({ id, platen: own }) => id === blank && own === platen),
  );
  const heats = [...new Set(sold.map(({ design }) => fahrenheitOf(menu, design)))];
  const pairs = heats.flatMap((one) => heats.map((other) => changeTime(one, other) / 1000));
  const changes = pairs.filter((seconds) => seconds > 0);
  if (changes.length === 0) return { mean: 0, variance: 0 };
  const each = changes.reduce((sum, seconds) => sum + seconds, 0) / changes.length;
  const share = 1 / (pairs.length / changes.length + menu.rules.overtakenMost);
  return { mean: share * each, variance: share * (1 - share) * each ** 2 };
}
