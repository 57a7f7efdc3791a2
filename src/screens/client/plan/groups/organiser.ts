/** The parts of the organiser's sheet besides power and pitch. */
import type { Group } from "../form/form.tsx";
import { WORDS } from "../form/writings.ts";
import { field } from "./names.ts";

export const organiserGroups = (): readonly Group[] => [
  {
    legend: "On the sheet",
    essential: true,
    fields: [
      field("#/stall", "Your stall", "As the organiser knows it.", { writing: WORDS }),
      field("#/setUpMinutes", "Setting up takes", "From arriving to everything standing; empty for 90.", {
        unit: "minutes",
      }),
    ],
  },
];
