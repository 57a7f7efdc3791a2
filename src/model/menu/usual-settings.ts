/**
 * Usual settings for each kind of transfer, for when none are given: common practice, no source, the last three from
 * memory. Screens that fill them in say so; the supplier's sheet overrides them.
 */
import type { Design } from "./catalogue.ts";

export const USUAL_SETTINGS = {
  "screen-printed": {
    temperatureFahrenheit: 365,
    dwellSeconds: 5,
    pressure: "firm",
    peel: "hot",
    presses: 1,
  },
  film: {
    temperatureFahrenheit: 310,
    dwellSeconds: 12,
    pressure: "medium",
    peel: "warm",
    presses: 2,
    secondDwellSeconds: 7,
  },
  "cut-vinyl": { temperatureFahrenheit: 312, dwellSeconds: 12, pressure: "medium", peel: "warm", presses: 1 },
  "dye-sublimation": {
    temperatureFahrenheit: 390,
    dwellSeconds: 50,
    pressure: "light",
    peel: "hot",
    presses: 1,
  },
} as const satisfies Readonly<Record<Design["kind"], Design["settings"]>>;
