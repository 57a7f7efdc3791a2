/** A garment and its transfer's settings in the operator's words. All values come from the menu. */
import type { Settings } from "../../../../model/menu/catalogue.ts";
import type { JobView } from "../../../../model/orders/queue.ts";

const wholeCelsius = (fahrenheit: number): number => Math.round(((fahrenheit - 32) * 5) / 9);

/** "365 °F (185 °C)". */
export const temperature = (fahrenheit: number): string =>
  `${fahrenheit} °F (${wholeCelsius(fahrenheit)} °C)`;

/** The platen's seconds for each press of the garment. */
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
