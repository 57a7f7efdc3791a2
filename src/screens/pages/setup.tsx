/** Setting a stall up: garments, designs, prices, rules, and a preview in texts. */

import { AppBar } from "../parts/app-bar.tsx";
import { CrewNotices } from "../parts/crew-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

export function SetupPage({ fair, stall }: Place) {
  return (
    <Page title="Set up the stall" screen="setup" shares={["crew"]} data={{ fair, stall }}>
      <AppBar
        title={
          <>
            Set up <span id="stall-name">{stall}</span>
          </>
        }
        crew={{ fair, stall, here: "Set-up" }}
      >
        <button id="try" type="button" disabled>
          Try it
        </button>
      </AppBar>
      <main id="main" tabindex={-1}>
        <CrewNotices />
        <p id="loading" role="status">
          Fetching the menu…
        </p>
        <div id="setup"></div>
      </main>
    </Page>
  );
}
