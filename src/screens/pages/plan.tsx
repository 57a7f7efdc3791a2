/** Before the fair: what to bring, the sheets to order, power, the pitch, and whether the day makes money. */
import { type Spelling, spelt } from "../../model/basics/region.ts";
import { AppBar } from "../parts/app-bar.tsx";
import { Page } from "../parts/layout.tsx";

const partsIn = (spelling: Spelling) =>
  [
    [
      "Your day",
      [
        ["Fair", "#fair"],
        ["Products", "#products"],
        ["Costs", "#costs"],
        ["Answer", "#answer"],
      ],
    ],
    [
      "To order",
      [
        ["Sheets", "#sheets"],
        ["Blanks", "#print-blanks"],
        ["Power", "#gear-power"],
      ],
    ],
    [
      "To print",
      [
        ["Packing list", "#print-packing"],
        [spelt("Organiser’s sheet", spelling), "#print-organiser"],
        ["All plans", "#plans"],
      ],
    ],
  ] as const;

export function PlanPage({ spelling }: { readonly spelling: Spelling }) {
  return (
    <Page title="Plan a day at a fair" screen="plan" shares={["uplot"]}>
      <AppBar title="Plan a day at a fair" menu={{ label: "Parts of the plan", groups: partsIn(spelling) }} />
      <main id="main" tabindex={-1}>
        <input
          type="file"
          id="load"
          accept=".json,application/json"
          class="offstage"
          tabindex={-1}
          aria-label="Load a plan or lessons"
        />
        <div id="planner"></div>
      </main>
    </Page>
  );
}
