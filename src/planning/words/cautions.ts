import { round } from "./phrases.ts";
import type { RegionRules } from "./region-rules.ts";

/**
 * Temperatures in °C from which a touch of bare, uncoated metal burns skin, by how long it lasts: EN 563:1994,
 * now ISO 13732-1, as reprinted in DGUV Vorschrift 79, notes to section 12. Thresholds of burning, not limits
 * that are safe to work at; the standard gives 1 to 10 seconds only as curves, so nothing stands here for it.
 */
export const BARE_METAL_BURNS = {
  oneSecond: { from: 65, to: 70 },
  oneMinute: 51,
  tenMinutes: 48,
  eightHours: 43,
} as const;

/** The hottest platen if the request names none: 365 °F, a hot-peel transfer. Common practice, no source. */
export const USUAL_PLATEN_CELSIUS = 185;

const fahrenheit = (celsius: number): number => round((celsius * 9) / 5 + 32);

/** Heat, whatever else is planned. */
export function heatCautions(platenCelsius: number): string[] {
  const { from, to } = BARE_METAL_BURNS.oneSecond;
  return [
    `A platen at ${round(platenCelsius)} °C (${fahrenheit(platenCelsius)} °F) burns on touch: bare metal of ${from} to ${to} °C (${fahrenheit(from)} to ${fahrenheit(to)} °F) burns skin within one second (ISO 13732-1). Keep the public, and children above all, out of reach.`,
    "Never leave a press closed or unattended, and let it cool before it is packed.",
    "Let fumes out: keep the stall open to the air and follow the transfer's own safety sheet.",
  ];
}

/** Printed with every power plan. */
export function powerCautions(rules: RegionRules, platenCelsius: number, withGenerator: boolean): string[] {
  const groundFault =
    rules.cordSystem === "awg"
      ? "Outdoors every socket needs ground-fault protection (GFCI); press its test button before the first load."
      : "Outdoors every socket needs a residual-current device of 30 mA; press its test button before the first load.";
  return [
    "This is an estimate from specification plates. A licensed electrician, the local electrical code and the fair's own rules decide.",
    groundFault,
    "Keep cables off walkways, or under a ramp made for it, and out of the wet; unroll a cord fully before use.",
    "Plug one cord into one socket: no strip into a strip, no cord into a cord.",
    "When a breaker trips, find out why before switching it on again. A warm plug or cord is overloaded: switch off.",
    ...(withGenerator
      ? [
          "Run a generator outdoors only, well away from tents, doors and people: its exhaust kills. Stop it and let it cool before refuelling.",
          "Ask the generator's maker or an electrician whether it needs earthing here; never connect it to a building's wiring.",
        ]
      : []),
    ...heatCautions(platenCelsius),
  ];
}
