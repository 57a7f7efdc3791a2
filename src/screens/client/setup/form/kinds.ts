/** The kinds of transfer by their names on the page. */
import type { Design } from "../../../../model/menu/catalogue.ts";

type Kind = Design["kind"];

export const KIND_NAMES: Readonly<Record<Kind, string>> = {
  "screen-printed": "Screen-printed, hot peel",
  film: "Printed film",
  "cut-vinyl": "Cut vinyl",
  "dye-sublimation": "Dye sublimation (polyester only)",
};
