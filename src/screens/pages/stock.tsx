/** The count page's shell: its script fills it. */
import { AppBar } from "../parts/app-bar.tsx";
import { CrewNotices } from "../parts/crew-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

export function StockPage({ fair, stall }: Place) {
  return (
    <Page title="Stock" screen="stock" shares={["crew"]} data={{ fair, stall }}>
      <AppBar title="Count" crew={{ fair, stall, here: "Count" }} />
      <main id="main" tabindex={-1}>
        <CrewNotices />
        <p id="loading" role="status">
          Fetching the stock…
        </p>
        <p id="no-menu" hidden>
          There is no menu yet, and so nothing to count.{" "}
          <a href={`/crew/${fair}/${stall}/setup`}>Set the stall up first.</a>
        </p>
        <div id="stock"></div>
      </main>
    </Page>
  );
}
