/** The counter's shell: its script fills it. */
import { AppBar } from "../parts/app-bar.tsx";
import { CrewNotices } from "../parts/crew-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

/** Taking an order for someone without a phone, payment, and handing over. */
export function CounterPage({ fair, stall }: Place) {
  return (
    <Page title="Counter" screen="counter" shares={["crew"]} data={{ fair, stall }}>
      <AppBar title="Counter" asks crew={{ fair, stall, here: "Counter" }} />
      <main id="main" tabindex={-1}>
        <CrewNotices />
        <div id="counter"></div>
      </main>
    </Page>
  );
}
