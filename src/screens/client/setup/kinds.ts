/**
 * Settings that are usual for each kind of transfer: common practice, no source, where not marked from
 * memory. The page says so beside them; the supplier's sheet wins.
 */
import type { Design } from "../../../model/catalogue.ts";

type Kind = Design["kind"];

export const KIND_NAMES: Readonly<Record<Kind, string>> = {
  "screen-printed": "Screen-printed, hot peel",
  film: "Printed film",
  "cut-vinyl": "Cut vinyl",
  "dye-sublimation": "Dye sublimation (polyester only)",
};

export const USUAL_SETTINGS = {
  "screen-printed": {
    temperatureFahrenheit: 365,
    dwellSeconds: 5,
    pressure: "firm",
    peel: "hot",
    presses: 1,
  },
  // The three below: from memory.
  film: {
    temperatureFahrenheit: 310,
    dwellSeconds: 12,
    pressure: "medium",
    peel: "cold",
    presses: 2,
    secondDwellSeconds: 7,
  },
  "cut-vinyl": { temperatureFahrenheit: 310, dwellSeconds: 12, pressure: "medium", peel: "warm", presses: 1 },
  "dye-sublimation": {
    temperatureFahrenheit: 390,
    dwellSeconds: 50,
    pressure: "light",
    peel: "hot",
    presses: 1,
  },
} as const satisfies Readonly<Record<Kind, Design["settings"]>>;
