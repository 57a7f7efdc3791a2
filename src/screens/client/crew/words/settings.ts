/** A garment and its transfer's settings in the words of the bench. The values are the menu's own; none is made up here. */
import type { Settings } from "../../../../model/menu/catalogue.ts";
import type { JobView } from "../../../../model/orders/order.ts";

const wholeCelsius = (fahrenheit: number): number => Math.round(((fahrenheit - 32) * 5) / 9);

/** "365 °F (185 °C)". */
export const temperature = (fahrenheit: number): string =>
  `${fahrenheit} °F (${wholeCelsius(fahrenheit)} °C)`;

/** How long the platen is down each time, in seconds: one number a press. */
export function dwells({ dwellSeconds, presses, secondDwellSeconds }: Settings): readonly number[] {
  const later = secondDwellSeconds ?? dwellSeconds;
  return Array.from({ length: presses }, (_, press) => (press === 0 ? dwellSeconds : later));
}

/** "12 s + 6 s". */
export const dwellWords = (settings: Settings): string =>
  dwells(settings)
    .map((seconds) => `${seconds} s`)
    .join(" + ");

export const pressesWords = ({ presses }: Settings): string =>
  presses === 1 ? "once" : presses === 2 ? "twice" : `${presses} times`;

/** "Navy Tee L". */
export const garmentWords = (job: JobView): string => `${job.colourName} ${job.blankName} ${job.sizeName}`;
