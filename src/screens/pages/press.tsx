/** The press screen's shell: its script fills it. */
import { AppBar } from "../parts/app-bar.tsx";
import { CrewNotices } from "../parts/crew-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

/** One garment, large, and the taps that say what became of it. */
export function PressPage({ fair, stall }: Place) {
  return (
    <Page title="Press" screen="press" shares={["crew"]} data={{ fair, stall }}>
      <AppBar title="Press" titleId="title" asks crew={{ fair, stall, here: "Press" }}>
        <button id="pause-open" type="button">
          Pause…
        </button>
      </AppBar>
      <main id="main" tabindex={-1}>
        <div class="strip">
          <p id="counts" class="strong"></p>
          <CrewNotices />
        </div>
        <div id="press"></div>
      </main>
    </Page>
  );
}
