/**
 * Settings that are usual for each kind of transfer, where nobody said any: common practice, no source, the last three
 * from memory. Whatever fills them in says so beside them; the supplier's sheet wins.
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
